"""Applies a change to a build: in place, with a way back, or to a copy.  The list is not read again."""

from __future__ import annotations

from partscheck.build.change import Change, Replacement
from partscheck.build.change_article import OF_THE_LINE, OF_THE_PURCHASE, another_article, goes_along
from partscheck.build.copying import copied
from partscheck.build.model import pieces
from partscheck.build.part_lines import PartLines
from partscheck.build.record_reader import RecordReader, called, fields_by_key, nearest
from partscheck.build.references import References
from partscheck.notation.faults import Faults
from partscheck.notation.yaml_text import MapNode, Mark, ScalarNode, SeqNode
from partscheck.parts.record import Part, Record, Typed
from partscheck.parts.records import Tongue

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.notation.yaml_text import Node

MAPS = ("service", "layout", "tongue", "tow_vehicle")


class FieldChange:
    """One field of one record: what stood there and what stands there now (``Typed`` or None)."""

    __slots__ = ("after", "before", "name", "record")

    def __init__(self, record: Record, name: str, before: Typed | None, after: Typed | None) -> None:
        self.record = record
        self.name = name
        self.before = before
        self.after = after

    @property
    def path(self) -> str:
        """ "wheel.offset"."""
        field = self.record.fields.get(self.name)
        return f"{self.record.id}.{field.key if field is not None else self.name}"


class Applied:
    """What a change did to ``build``.

    ``fields`` are those that were replaced as asked; ``gone`` went with the article that they belong to
    and ``kept`` (id -> field keys) stayed although another article stands there now; ``articles`` are the ids
    of lines on which another article stands; ``added`` and ``removed`` are records; ``carried`` is filled by
    who lets other values follow (heights follow the tires).
    """

    def __init__(self, build: Build) -> None:
        self.build = build
        self.fields: list[FieldChange] = []
        self.gone: list[FieldChange] = []
        self.kept: dict[str, list[str]] = {}
        self.articles: list[str] = []
        self.added: list[Part] = []
        self.removed: list[Record] = []
        self.carried: list[FieldChange] = []
        self._values: list[tuple[Record, dict[str, Typed]]] = []
        self._parts, self._joints = list(build.parts), list(build.joints)
        self._loads, self._words = list(build.loads), list(build.untold_words)

    def touched(self) -> list[tuple[Record, str]]:
        """Every (record, field name) whose value is another now, those of another article too: for
        ``Recheck.touched``.  To be asked before ``undo``.
        """
        return [
            (record, name)
            for record, before in self._values
            for name in dict.fromkeys((*before, *record.values))
            if before.get(name) is not record.values.get(name)
        ]

    def lines(self) -> set[str]:
        """Ids of lines of which everything may be another now: added, removed, another article."""
        return {*self.articles, *(one.id for one in (*self.added, *self.removed))}

    def put(self, record: Record, name: str, typed: Typed | None) -> FieldChange:
        """Give a field a value, or none, so that ``undo`` gives it back."""
        change = FieldChange(record, name, record.values.get(name), typed)
        self._remember(record)
        if typed is None:
            record.values.pop(name, None)
        else:
            record.values[name] = typed
        return change

    def added_again(self, known: list[Part]) -> None:
        """Put a line that was ``known`` before in the place of an added one that says the same; get to know the
        others.  What was found out of a line then holds for it again.
        """
        for number, line in enumerate(self.added):
            same = next((one for one in known if _says_the_same(one, line)), None)
            if same is None:
                known.append(line)
            elif not any(one[0] is line for one in self.build.untold_words):
                self.added[number] = self.build.parts[self.build.parts.index(line)] = same

    def undo(self) -> None:
        """Put everything back as it was."""
        for record, values in reversed(self._values):
            record.values = values
        self._values = []
        build = self.build
        build.parts, build.joints = list(self._parts), list(self._joints)
        build.loads, build.untold_words = list(self._loads), list(self._words)

    def _remember(self, record: Record) -> None:
        if not any(one is record for one, _ in self._values):
            self._values.append((record, dict(record.values)))


def _says_the_same(one: Part, other: Part) -> bool:
    """Equal in all that can be read of a line."""
    if type(one) is not type(other) or one.id != other.id or one.values.keys() != other.values.keys():
        return False
    return all(typed.same_as(other.values[name]) for name, typed in one.values.items())


def changed_build(base: Build, change: Change) -> Applied:
    """The change applied to a copy: ``.build`` is the changed build.  Raises ``Faults``."""
    return apply_change(copied(base), change)


def apply_change(build: Build, change: Change) -> Applied:
    """Apply ``change`` to ``build`` itself.  Raises ``Faults`` with every fault; nothing is changed then."""
    worker = _Worker(build, change)
    worker.work()
    faults = [*change.faults, *worker.reader.faults]
    if faults:
        worker.applied.undo()
        raise Faults(faults, worker.reader.following)
    return worker.applied


class _Worker:
    def __init__(self, build: Build, change: Change) -> None:
        self.build = build
        self.change = change
        self.reader = RecordReader(build.tables, change.text, build.spellings)
        self.lines = PartLines(self.reader, build.tables)
        self.applied = Applied(build)
        self.gone: dict[str, Mark] = {}

    def work(self) -> None:
        for node in self.change.removals:
            self._remove(node)
        for replacement in self.change.replacements:
            self._replace(replacement)
        self._add()
        References(self.reader, self.lines.broken, self.gone).check(self.build)
        self.build.untold_words += self.reader.told

    # ---- removing and adding -------------------------------------------------------------

    def _remove(self, node: ScalarNode) -> None:
        if node.text in self.gone:
            self.reader.fault(node.mark, node.text, "each id once", "it is removed already")
            return
        for group in (self.build.parts, self.build.joints, self.build.loads):
            found: Any = next((one for one in group if one.id == node.text), None)
            if found is not None:
                group.remove(found)
                self.applied.removed.append(found)
                self.gone[node.text] = node.mark
                return
        self._unknown(node.mark, node.text, [one.id for one in self._removable()], "a line on the list")

    def _removable(self) -> list[Any]:
        return [*self.build.parts, *self.build.joints, *self.build.loads]

    def _add(self) -> None:
        taken = {part.id: part.where("id") or Mark(self.build.file, 1, 1) for part in self.build.parts}
        self.lines = PartLines(self.reader, self.build.tables, taken)
        items = SeqNode(False, Mark(self.change.file, 1, 1))
        items.items = self.change.additions
        self.applied.added = self.lines.read(items)
        self.build.parts += self.applied.added

    # ---- replacing -----------------------------------------------------------------------

    def _replace(self, replacement: Replacement) -> None:
        record = self._target(replacement)
        if record is None:
            return
        typed = self._read(record, replacement)
        if isinstance(record, Part):
            self._replace_on_line(record, replacement, typed)
        for name, value in typed.items():
            self._put(record, name, value)

    def _target(self, replacement: Replacement) -> Record | None:
        name, build = replacement.target, self.build
        if name in self.gone:
            self.reader.fault(replacement.mark, name, "a line that stays", "this change removes it, too")
            return None
        found: Any = build.part(name)
        if found is not None:
            return found  # type: ignore[no-any-return]
        if name == "tongue":
            return self._tongue(replacement.mark)
        if name in MAPS:
            return getattr(build, name)  # type: ignore[no-any-return]
        found = next((one for one in (*build.joints, *build.loads) if one.id == name), None)
        if found is None:
            known = [*MAPS, *(one.id for one in self._removable())]
            self._unknown(replacement.mark, name, known, "a line on the list, or one of " + ", ".join(MAPS))
        return found  # type: ignore[no-any-return]

    def _tongue(self, mark: Mark) -> Record:
        layout = self.build.layout
        typed = layout.values.get("tongue")
        if typed is None:
            typed = Typed(Tongue("tongue", mark), "a map (key: value)", mark)
            self.applied.put(layout, "tongue", typed)
        return typed.value  # type: ignore[no-any-return]

    def _unknown(self, mark: Mark, read: str, known: list[str], expected: str) -> None:
        near = nearest(read, known)
        hint = f"did you mean `{near}`?" if near else "ids here: " + ", ".join(known[:16])
        self.reader.fault(mark, read, expected, hint)

    def _read(self, record: Record, replacement: Replacement) -> dict[str, Typed]:
        """The new values by field name; what cannot be read is told."""
        by_key = fields_by_key(type(record))
        found: dict[str, Typed] = {}
        for key, mark, value in replacement.fields:
            if isinstance(record, Part) and key in ("id", "kind"):
                self._fixed(record, key, mark, value)
                continue
            field = by_key.get(key)
            if field is None:
                own = [name for name in by_key if name not in ("id", "kind")]
                self.reader.unknown_key(ScalarNode(key, True, mark), own, called(record))
                continue
            typed = value if isinstance(value, Typed) else self.reader.read(record, field, value)
            if typed is not None:
                found[field.name] = typed
        return found

    def _fixed(self, part: Part, key: str, mark: Mark, value: Node | Typed) -> None:
        """A line keeps its id and kind; saying them again is no fault."""
        before = part.id if key == "id" else part.kind
        if getattr(value, "text", None) != before:
            place = getattr(value, "mark", None) or mark
            self.reader.fault(place, getattr(value, "text", key), f"no other {key} than {before}",
                              "remove the line and add another one")  # fmt: skip

    def _put(self, record: Record, name: str, typed: Typed) -> None:
        applied = self.applied
        change = applied.put(record, name, typed)
        for one in applied.gone:
            if one.record is record and one.name == name:  # it is replaced, not gone
                change.before = one.before
                applied.gone.remove(one)
                break
        applied.fields.append(change)
        words = self.build.untold_words
        self.build.untold_words = [one for one in words if not (one[0] is record and one[1] == name)]

    # ---- another article on a line -------------------------------------------------------

    def _replace_on_line(self, part: Part, replacement: Replacement, typed: dict[str, Typed]) -> None:
        before = pieces(part)
        if "part" in typed:
            entry = self._entry(part, replacement)
            if entry is None:
                return
            going = [name for name in part.values if name not in OF_THE_LINE]
        elif another_article(part, typed):
            entry = None
            going = goes_along(part, typed)
        else:
            return
        self.applied.articles.append(part.id)
        for name in going:
            self.applied.gone.append(self.applied.put(part, name, None))
        if entry is not None:
            self._from_catalogue(part, entry)
        else:
            self._tell_kept(part, typed)
        self._keep_count(part, before, typed, replacement.mark)

    def _entry(self, part: Part, replacement: Replacement) -> Any:
        """The catalogue entry that ``part:`` names, of the line's own kind; else None, told."""
        node = next(value for key, _, value in replacement.fields if key == "part")
        if isinstance(node, Typed):
            node = ScalarNode(str(node.value), True, node.mark or replacement.mark)
        holder = MapNode(False, replacement.mark)
        holder.entries = [(ScalarNode("part", True, replacement.mark), node)]
        entry = self.lines.entry(holder)
        if entry is not None and entry.kind != part.kind:
            self.reader.fault(node.mark, f"{entry.id} ({entry.kind})", f"a part of kind {part.kind}",
                              "remove the line and add another one")  # fmt: skip
            return None
        return entry

    def _from_catalogue(self, part: Part, entry: Any) -> None:
        fresh = type(part)(part.id, part.mark)
        self.lines.from_catalogue(fresh, entry)
        for name, typed in fresh.values.items():
            self.applied.put(part, name, typed)
        self.applied.gone = [
            one for one in self.applied.gone if one.record is not part or one.name not in fresh.values
        ]

    def _tell_kept(self, part: Part, typed: dict[str, Typed]) -> None:
        """What the old article had and the new one is taken to have, too."""
        kept = [
            part.fields[name].key for name in part.values
            if name not in typed and name not in OF_THE_LINE and name not in (*OF_THE_PURCHASE, "kind_", "per")
        ]  # fmt: skip
        if kept:
            self.applied.kept[part.id] = kept

    def _keep_count(self, part: Part, before: int | None, typed: dict[str, Typed], mark: Mark) -> None:
        """As many pieces of the new article as of the old one, unless a count is typed."""
        counted = any(name in typed for name in ("qty", "packs", "have")) or "qty" in part.values
        if before is not None and not counted:
            self.applied.put(part, "qty", Typed(before, str(before), mark))
