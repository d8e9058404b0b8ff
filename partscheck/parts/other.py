"""Anything else that belongs on the bill of materials."""

from __future__ import annotations

from partscheck.parts.common import ListLine
from partscheck.parts.field import Field
from partscheck.parts.types import Text


class Other(ListLine):
    """Never checked; always counted in the bill of materials and the weight."""

    kind = "other"
    title = "other part"

    what = Field(Text(), "what it is, in your own words")
