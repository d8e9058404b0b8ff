"""What points to what: ``mounts_on``, joints and loads name lines and load cases that exist."""

from __future__ import annotations

from difflib import get_close_matches

from partscheck.build.joint_places import BOLT_KINDS, NUT_KINDS
from partscheck.build.joint_washers import NO_WASHER, washer_word
from partscheck.build.standing_loads import STATES

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.build.record_reader import RecordReader
    from partscheck.notation.yaml_text import Mark
    from partscheck.parts.record import Record


class References:
    """Checks the names by which records of a build point to each other; faults go to ``reader``.

    ``broken`` are ids of lines that could not be read: what points to them only follows.  ``gone`` are
    ids that a change takes away, each with the place that says so: that place is then at fault.
    """

    def __init__(self, reader: RecordReader, broken: set[str], gone: dict[str, Mark] | None = None) -> None:
        self.reader = reader
        self.broken = broken
        self.gone = gone or {}

    def check(self, build: Build) -> None:
        """``mounts_on``, joints and loads name parts that exist, and load cases that exist."""
        ids = {part.id: part for part in build.parts}
        for part in build.parts:
            self._refers(part, "mounts_on", ids)
            typed = part.values.get("mounts_on")
            if typed is not None and typed.value == part.id and typed.mark is not None:
                self.reader.fault(typed.mark, part.id, "another part's id", "a part cannot mount on itself")
        for joint in build.joints:
            self._joint_refers(joint, ids)
        for load in build.loads:
            self._load_refers(load, ids)
        self._scale_refers(build)
        cases = set(build.load_cases)
        for load in build.loads if cases else []:
            typed = load.values.get("cases")
            for case in () if typed is None else typed.value:
                if case not in cases and typed is not None and typed.mark is not None:
                    near = get_close_matches(case, list(cases), n=1, cutoff=0.5)
                    hint = f"did you mean `{near[0]}`?" if near else ""
                    expected = "one of load_cases: " + ", ".join(sorted(cases))
                    self.reader.fault(typed.mark, case, expected, hint)

    def _load_refers(self, load: Any, ids: dict[str, Any]) -> None:
        """A load names a tank or a rack; any other weight is typed."""
        self._refers(load, "part", ids)
        typed = load.values.get("part")
        if typed is not None and typed.value in ids and ids[typed.value].kind not in STATES:
            read, wanted = f"{typed.value} ({ids[typed.value].kind})", f"a line of kind {' or '.join(STATES)}"
            self.reader.fault(typed.mark, read, wanted, "type the `weight` of any other load")

    def _scale_refers(self, build: Build) -> None:
        """The case that was weighed is one of the cases of the list."""
        scale = build.service.values.get("scale")
        typed = None if scale is None else scale.value.values.get("case")
        cases = build.load_cases or [name for load in build.loads for name in _cases_of(load)]
        if typed is not None and typed.mark is not None and cases and typed.value not in cases:
            near = get_close_matches(typed.value, cases, n=1, cutoff=0.5)
            hint = f"did you mean `{near[0]}`?" if near else ""
            self.reader.fault(typed.mark, typed.value, "a load case: " + ", ".join(sorted({*cases})), hint)

    def _joint_refers(self, joint: Any, ids: dict[str, Any]) -> None:
        """A joint names lines of bolts, nuts and washers; a washer may be a word for its type too."""
        for name, kinds in (("bolt", BOLT_KINDS), ("nut", NUT_KINDS)):
            self._refers(joint, name, ids)
            typed = joint.values.get(name)
            named = () if typed is None else typed.value
            for target in named if isinstance(named, tuple) else (named,):
                if target in ids and ids[target].kind not in kinds:
                    wanted = f"a line of kind {' or '.join(kinds)}"
                    self.reader.fault(typed.mark, f"{target} ({ids[target].kind})", wanted)
        named = joint.values["washers"].value.values if "washers" in joint.values else {}
        for name in ("head", "nut"):
            if name in named:
                self._washer_refers(joint, named[name], ids)

    def _washer_refers(self, joint: Any, typed: Any, ids: dict[str, Any]) -> None:
        target = typed.value
        expected = "the id of a washer's line in `parts`, or its type, such as SAE, hardened or none"
        if target in ids and ids[target].kind != "washer":
            self.reader.fault(typed.mark, f"{target} ({ids[target].kind})", expected)
        elif target in self.broken:
            self.reader.following += 1
        elif target in self.gone and target not in ids:
            self._is_gone(target, joint, "washers")
        elif target and target not in ids and target.lower() != NO_WASHER and not washer_word(target)[0]:
            near = get_close_matches(target, list(ids), n=1, cutoff=0.5)
            self.reader.fault(typed.mark, target, expected, f"did you mean `{near[0]}`?" if near else "")

    def _refers(self, record: Record, name: str, ids: dict[str, Any]) -> None:
        typed = record.values.get(name)
        if typed is None or typed.mark is None or typed.layer != "list":
            return
        targets = typed.value if isinstance(typed.value, (tuple, list)) else (typed.value,)
        for target in targets:
            if not target or target in ids:
                continue
            if target in self.broken:
                self.reader.following += 1
                continue
            if target in self.gone:
                self._is_gone(target, record, name)
                continue
            near = get_close_matches(str(target), list(ids), n=1, cutoff=0.5)
            hint = f"did you mean `{near[0]}`?" if near else "ids here: " + ", ".join(list(ids)[:12])
            self.reader.fault(typed.mark, str(target), "the id of a line in `parts`", hint)

    def _is_gone(self, target: str, record: Record, name: str) -> None:
        """Something still names a line that the change takes away."""
        mark = record.where(name)
        line = f" (line {mark.line} of {mark.file})" if mark is not None else ""
        self.reader.fault(
            self.gone[target], target, "a line that nothing else names",
            f"`{record.id}`{line} names it under `{name}`: take that away too, or replace its `{name}`",
        )  # fmt: skip


def _cases_of(load: Any) -> tuple[str, ...]:
    typed = load.values.get("cases")
    return () if typed is None else tuple(typed.value)
