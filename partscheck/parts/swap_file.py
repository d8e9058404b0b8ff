"""The swap file: what to change on a parts list."""

from __future__ import annotations

from partscheck.parts.field import Field
from partscheck.parts.record import Part, Record
from partscheck.parts.types import Ids, Nested, Text


class Replaced(Record):
    """The fields of one line, or of service, layout, tongue, tow_vehicle, a joint or a load, to replace."""

    record_name = "replaced"


class SwapFile(Record):
    """The top of a swap file."""

    record_name = "swap"

    swap = Field(Text(), "name of the swap, shown in the report")
    base = Field(Text(), "file of the list that it changes; the list that is named to the command is what counts")
    replace = Field(
        Nested(Replaced, "named"),
        "by id, the fields to replace; every other field stays, but for what belongs to an article that goes "
        "(part, or size of a tire or wheel, names another one)",
    )
    add = Field(Nested(Part, "many"), "lines to add, as in `parts`")
    remove = Field(Ids(), "ids of the lines, joints or loads to take away")
    note = Field(Text(), "anything you want to remember; never read")
