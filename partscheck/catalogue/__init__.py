"""The catalogue: tables of standards, practice limits and generic parts, shipped and the user's own."""

from __future__ import annotations

from partscheck.catalogue.catalogue import Catalogue, PartEntry

__all__ = ["Catalogue", "PartEntry"]
