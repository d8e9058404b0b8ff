"""What a plan does to a list, in the words one would type: fields set, lines added, lines taken away.

An option is one thing that somebody does: buy another article, trim studs, move the axle.  It may take
several edits (the axle moves, and the running gear with it).  The same edits change a build and the text
of a list: what was tried is what is written.
"""

from __future__ import annotations

from partscheck.build.change import Change, node_of
from partscheck.notation.yaml_text import Mark

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from typing import Any

BUY, FIND, SHOP, LOAD, DECLARE, COUNT, REMOVE = "buy", "find", "shop", "load", "declare", "count", "remove"
ORDER = (BUY, FIND, COUNT, REMOVE, SHOP, LOAD, DECLARE)  # in which a plan is told
MAPS = ("service", "layout", "tongue", "tow_vehicle")
WHOLE = "*"  # the whole article on a line
MARK = Mark("the plan", 1, 1)


class Put:
    """Set one field: ``target`` is the id of a line, joint or load, or "layout" ...; ``inner`` leads to a
    record inside it ("tapped", or "stack" and its name); ``text`` is what one types (a text, list or map).
    """

    __slots__ = ("inner", "key", "target", "text")

    def __init__(self, target: str, key: str, text: Any, inner: tuple[str, ...] = ()) -> None:
        self.target = target
        self.key = key
        self.text = text
        self.inner = inner

    def key_of(self) -> Any:
        return (self.target, self.inner, self.key, repr(self.text))


class Article:
    """Another article on a line: the catalogue's ``part``, and ``fields`` that are typed beside it.  What
    belonged to the old article goes.
    """

    __slots__ = ("fields", "part", "target")

    def __init__(self, target: str, part: str, fields: Mapping[str, Any]) -> None:
        self.target = target
        self.part = part
        self.fields = dict(fields)

    def key_of(self) -> Any:
        return (self.target, self.part, repr(sorted(self.fields.items())))


class Drop:
    """Leave a field out: it belonged to an article that goes."""

    __slots__ = ("key", "target")

    def __init__(self, target: str, key: str) -> None:
        self.target = target
        self.key = key

    def key_of(self) -> Any:
        return (self.target, "-", self.key)


class Add:
    """A new line with these fields, after the line ``after`` ("": at the end)."""

    __slots__ = ("after", "fields")

    def __init__(self, fields: Mapping[str, Any], after: str = "") -> None:
        self.fields = dict(fields)
        self.after = after

    def key_of(self) -> Any:
        return ("+", repr(sorted(self.fields.items())))


class Remove:
    """A line taken away."""

    __slots__ = ("target",)

    def __init__(self, target: str) -> None:
        self.target = target

    def key_of(self) -> Any:
        return ("-", self.target)


Edit = Put | Article | Drop | Add | Remove


class Option:
    """One thing to do.

    ``slot`` is the record that it changes and ``field`` the one field of it, or "*" for the whole article: of
    options on one field a plan takes one, and none of them with another article.  ``sort`` is buy (an
    article of the catalogue), find (an article that the catalogue does not have), count, shop (work), load
    (what is carried, and where), declare or remove; ``do`` the sentence; ``hazard`` of doing it; ``rank``
    its place in the order of preference of whoever proposed it; ``entry`` the catalogue part bought;
    ``wants`` what an article to be found has to be.
    """

    __slots__ = ("do", "edits", "entry", "field", "hazard", "rank", "slot", "sort", "wants")

    def __init__(
        self, slot: str, sort: str, do: str, edits: Iterable[Edit], rank: int = 0, hazard: str = "",
        entry: Any = None, field: str = WHOLE,
    ) -> None:  # fmt: skip
        self.slot = slot
        self.field = field
        self.sort = sort
        self.do = do
        self.edits = tuple(edits)
        self.rank = rank
        self.hazard = hazard
        self.entry = entry
        self.wants: Any = None

    @property
    def key(self) -> Any:
        """Two options that do the same have the same key."""
        return (self.slot, tuple(edit.key_of() for edit in self.edits))

    @property
    def to_find(self) -> list[str]:
        """Ids of what is to be found: the lines that it adds, or the line that it changes."""
        lines = [edit.fields for edit in self.edits if isinstance(edit, Add)]
        added = [str(fields.get("id", "")) for fields in lines if "part" not in fields]
        return added if lines and self.wants is None else [self.slot, *added]

    @property
    def way(self) -> tuple[str, str, str]:
        """What is changed and how: another article of the same kind is no other way."""
        return self.slot, self.field, self.sort

    @property
    def whole(self) -> bool:
        """Whether it puts another article on the line, or does more to it than set one field."""
        return self.field == WHOLE

    @property
    def beside(self) -> bool:
        """Whether it only adds a line and takes pieces off the one that is there, whatever article that is."""
        return any(isinstance(edit, Add) for edit in self.edits) and all(
            isinstance(edit, Add) or (isinstance(edit, Put) and edit.key == "qty") for edit in self.edits
        )

    def told(self, do: str) -> Option:
        """The same, said in other words."""
        same = Option(self.slot, self.sort, do, self.edits, self.rank, self.hazard, self.entry, self.field)
        same.wants = self.wants
        return same

    def then(self, other: Option) -> Option:
        """This article, and that done to it."""
        again = {(edit.target, edit.inner, edit.key) for edit in other.edits if isinstance(edit, Put)}
        edits = [
            edit for edit in self.edits
            if not isinstance(edit, Put) or (edit.target, edit.inner, edit.key) not in again
        ]  # fmt: skip
        sort = FIND if FIND in (self.sort, other.sort) else self.sort
        do = other.do
        if other.beside and do.startswith("Keep "):  # "Keep 1 of brake, and add ...": of the article just named
            count, _, rest = do.removeprefix("Keep ").partition(f" of {self.slot}, ")
            do = f"Take {count} of these, {rest}"
        both = Option(self.slot, sort, f"{self.do}. {do}", (*edits, *other.edits),
                      self.rank + other.rank, other.hazard or self.hazard, self.entry)  # fmt: skip
        both.wants = self.wants
        return both

    def __repr__(self) -> str:
        return f"<{self.sort} {self.slot}: {self.do[:60]}>"


def change_of(options: Iterable[Option]) -> Change:
    """All that these options do, as one change."""
    change = Change("", "the plan")
    puts: list[Put] = []
    for edit in (edit for option in options for edit in option.edits):
        if isinstance(edit, Put):
            puts.append(edit)
        elif isinstance(edit, Article):
            change.replace(f"{edit.target}.part", node_of(edit.part, MARK), MARK)
            for key, value in edit.fields.items():
                change.replace(f"{edit.target}.{key}", node_of(value, MARK), MARK)
        elif isinstance(edit, Add):
            change.add(edit.fields)
        elif isinstance(edit, Remove):
            change.remove(edit.target, MARK)
    for put in puts:
        if not put.inner:
            change.replace(f"{put.target}.{put.key}", node_of(put.text, MARK), MARK)
    return change


def inner_puts(options: Iterable[Option]) -> list[Put]:
    """The edits of records inside records, which a change cannot name."""
    return [
        edit for option in options for edit in option.edits if isinstance(edit, Put) and edit.inner
    ]
