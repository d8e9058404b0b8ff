"""Where catalogue files lie, and their bytes: the shipped folder first, then the user's own.

This stands on the path of every run, so it reads and hashes bytes, or remembers the hash of files that stand
as they stood, and imports next to nothing.
"""

from __future__ import annotations

import os
from contextlib import suppress
from functools import cache

from partscheck.notation.faults import Fault, Faults
from partscheck.notation.yaml_text import LIMITS, Mark

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any

SHIPPED = "shipped"
SUFFIXES = (".yaml", ".yml")
ROWS_CSV, ROWS_JSON = (".csv", ".tsv"), (".jsonl", ".ndjson")
ROW_BYTES_AT_MOST = 4 << 30
FILES_AT_MOST = 1_000


class RowFile:
    """A file of rows (CSV or JSON lines): its path, the name that reports show, the sha256 of its content."""

    __slots__ = ("digest", "path", "shown")

    def __init__(self, path: str, shown: str, digest: str) -> None:
        self.path = path
        self.shown = shown
        self.digest = digest


class Layer:
    """One folder (or file) of catalogue files: the name that reports show, (file, bytes) of each YAML file,
    and the files of rows, which are not read here.

    ``known`` is the sha256 of the YAML files where it was remembered: these were not read then.
    """

    __slots__ = ("files", "known", "name", "rows")

    def __init__(self, name: str, files: list[tuple[str, bytes]]) -> None:
        self.name = name
        self.files = files
        self.known = ""
        self.rows: list[RowFile] = []


def shipped_folder() -> str:
    """The catalogue that comes with the package: inside it when installed, beside it in a checkout."""
    package = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
    inside = os.path.join(package, "catalog")
    beside = os.path.join(os.path.dirname(package), "catalog")
    for folder in (inside, beside):
        if os.path.isdir(folder):
            return folder
    raise FileNotFoundError("the catalogue that comes with partscheck is missing: install partscheck again")


def read_layers(folders: Iterable[str | os.PathLike[str]], remember: bool = False) -> list[Layer]:
    """The shipped layer and one layer for each folder or file given, in that order.

    ``remember``: YAML files that stand as they stood when they were last read need not be read again.
    Raises ``Faults`` for a folder that is missing, holds no catalogue file, or cannot be read.
    """
    faults: list[Fault] = []
    layers = [_read_layer(SHIPPED, shipped_folder(), "catalog", faults, remember)]
    given: set[str] = set()
    for folder in folders:
        path = os.fspath(folder)
        if os.path.abspath(path) in given:  # over itself it would be full of parts that stand twice
            faults.append(Fault(Mark(path, 1, 1), "", "each catalogue folder once", "it is given twice"))
            continue
        given.add(os.path.abspath(path))
        layers.append(_read_layer(path, path, path, faults, remember))
    if faults:
        raise Faults(faults)
    return layers


def _read_layer(name: str, path: str, shown: str, faults: list[Fault], remember: bool) -> Layer:
    layer = Layer(name, [])
    try:
        if os.path.isdir(path):
            names = sorted(name for name in os.listdir(path) if _is_catalogue_file(name))
            found = [(os.path.join(path, name), f"{shown.rstrip(os.sep)}/{name}") for name in names]
        else:
            found = [(path, shown)]
        if not found or len(found) > FILES_AT_MOST:
            faults.append(Fault(Mark(shown, 1, 1), "", f"a folder with 1 to {FILES_AT_MOST} files *.yaml",
                                f"there are {len(found)} (*.csv and *.jsonl count, too)"))  # fmt: skip
            return layer
    except (OSError, ValueError) as error:
        faults.append(_unreadable(shown, error))
        return layer
    stood = None
    if remember:
        from partscheck.catalogue.seen import Stood

        stood = Stood([file for file, _ in found if not file.lower().endswith((*ROWS_CSV, *ROWS_JSON))])
        layer.known = stood.digest
    for file, as_shown in found:
        of_rows = file.lower().endswith((*ROWS_CSV, *ROWS_JSON))
        if layer.known and not of_rows:
            continue
        try:
            if file != path and not os.path.isfile(file):  # what is no file may keep a reader waiting for ever
                why = "it is a folder" if os.path.isdir(file) else "it is no file, or a link to none"
                faults.append(Fault(Mark(as_shown, 1, 1), "", "a catalogue file that can be read", why))
                continue
            if of_rows:
                _add_rows(layer, file, as_shown, faults)
                continue
            with open(file, "rb") as stream:
                layer.files.append((as_shown, stream.read(LIMITS.bytes + 1)))
        except (OSError, ValueError) as error:
            faults.append(_unreadable(as_shown, error))
    if stood is not None and not layer.known and not faults:
        stood.remember(_digest_of(layer.files))
    return layer


def _unreadable(shown: str, error: Exception) -> Fault:
    why = getattr(error, "strerror", "") or str(error)
    return Fault(Mark(shown, 1, 1), "", "a catalogue folder or file that can be read", why)


def _add_rows(layer: Layer, file: str, shown: str, faults: list[Fault]) -> None:
    from partscheck.catalogue.seen import content_digest  # most catalogues have no such file

    if os.path.exists(file) and not os.path.isfile(file):
        why = "it is a pipe or a device, and such a file is read more than once"
        faults.append(Fault(Mark(shown, 1, 1), "", "a file of rows on the disk", why))
        return
    if os.path.getsize(file) > ROW_BYTES_AT_MOST:
        faults.append(Fault(Mark(shown, 1, 1), "", f"a file of at most {ROW_BYTES_AT_MOST >> 30} GB"))
        return
    layer.rows.append(RowFile(file, shown, content_digest(file)))


def _is_catalogue_file(name: str) -> bool:
    return name.lower().endswith((*SUFFIXES, *ROWS_CSV, *ROWS_JSON)) and not name.startswith(".")


def digest(layers: Iterable[Layer], stamp: str) -> str:
    """sha256, in hex, of ``stamp`` and of every layer's name, file names and texts."""
    total = sha256()
    total.update(stamp.encode())
    for layer in layers:
        for part in (b"layer", os.fsencode(layer.name)):
            total.update(b"%d:%s" % (len(part), part))
        total.update((layer.known or _digest_of(layer.files)).encode())
        for rows in layer.rows:
            for part in (os.fsencode(rows.shown), rows.digest.encode()):
                total.update(b"rows%d:%s" % (len(part), part))
    found: str = total.hexdigest()
    return found


def _digest_of(files: list[tuple[str, bytes]]) -> str:
    """sha256, in hex, of texts and of the files' names in their folder, which counts with the layer."""
    total = sha256()
    for name, data in files:
        for part in (os.fsencode(os.path.basename(name)), data):
            total.update(b"%d:" % len(part))
            total.update(part)
    found: str = total.hexdigest()
    return found


def sha256() -> Any:
    """A sha256 object."""
    return _sha256()()


@cache
def _sha256() -> Any:
    """The built-in module loads in a tenth of the time that hashlib takes."""
    for module in ("_sha2", "_sha256"):
        with suppress(ImportError, AttributeError):
            return __import__(module).sha256
    import hashlib

    return hashlib.sha256
