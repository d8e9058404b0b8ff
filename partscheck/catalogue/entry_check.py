"""What is wrong with a catalogue part: its kind, its field names, and how its values are written.

Hand ``check_entry`` to ``Catalogue.load``; it runs only when the catalogue is compiled.
"""

from __future__ import annotations

from partscheck.notation.errors import NotationError
from partscheck.notation.faults import Fault
from partscheck.notation.words import nearest
from partscheck.parts.kinds import KINDS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.catalogue.families import Fields
    from partscheck.notation.yaml_text import ScalarNode


def check_entry(kind: ScalarNode, fields: Fields, tables: Any) -> Iterator[Fault]:
    """The faults of one entry; ``tables`` are the catalogue's, for the notations that need them."""
    record = KINDS.get(kind.text)
    if record is None:
        near = nearest(kind.text, KINDS) or nearest(kind.text.replace("_", "-"), KINDS)
        hint = f"did you mean `{near}`?" if near else "kinds: " + ", ".join(KINDS)
        yield Fault(kind.mark, kind.text, "a kind of part", hint)
        return
    known = {field.key: field for field in record.fields.values() if field.key != "part"}
    for key, node in fields:
        name = key.text
        field = known.get(name)
        if field is None:
            near = nearest(name, known)
            hint = f"did you mean `{near}`?" if near else "known fields: " + ", ".join(sorted(known)[:30])
            yield Fault(key.mark, name, f"a field of {kind.text}", hint)
            continue
        try:
            field.type.read(node.text, tables)
        except NotationError as error:
            yield Fault(node.mark, error.read, f"{error.expected} for `{name}`", error.hint)
