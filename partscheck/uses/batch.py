"""Many parts lists checked in one go, over several processes; one bad file does not stop the rest.

Workers get the names of files and send back small rows, in the order of the files.
"""

from __future__ import annotations

import os
import re
from functools import partial

from partscheck.catalogue.catalogue import Catalogue
from partscheck.notation.faults import Faults
from partscheck.notation.yaml_text import LIMITS, MapNode, compose
from partscheck.uses.checked_file import CheckedFile, Row, plain_row, skipped_row

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from typing import Any

    MakeRow = Callable[[CheckedFile], Row]

FEW = 8  # so many files are checked before other processes have even started
CHUNK = 16  # files that a worker is handed at a time
AHEAD = 4  # chunks under way for each worker: the rest waits, so that memory stays the same

_TOP_KEY = re.compile(r"""^(["']?)([A-Za-z_]+)\1[ \t]*:(?=\s|$)""", re.MULTILINE)
_CATALOGUE_KEYS = {"table", "title", "edition"}
_SWAP_KEYS = {"swap", "replace", "add", "remove"}


def check_all(
    names: Iterable[str | os.PathLike[str]],
    catalogs: Iterable[str | os.PathLike[str]] = (),
    fail_on: str = "stop",
    jobs: int | None = None,
) -> Iterator[Row]:
    """Check lists, and the lists in folders: a row for each file, as it is done, in the order of the names.

    ``fail_on`` is the least rank of finding that makes a row's ``status`` 1 (stop, caution or measure);
    ``jobs`` how many processes, left out as many as pay.  Raises ``Faults`` of the catalogue and
    ``OSError`` of a folder; whatever is wrong with a list is told in its row.
    """
    asked = files_of(os.fspath(name) for name in names)
    folders = [os.fspath(folder) for folder in catalogs]
    return check_files(asked, folders, partial(plain_row, fail_on), jobs_for(len(asked), jobs))


class Asked:
    """One file to check.  Of a file out of a folder its content decides whether it is a parts list."""

    __slots__ = ("file", "named")

    def __init__(self, file: str, named: bool) -> None:
        self.file = file
        self.named = named


def files_of(names: Iterable[str]) -> list[Asked]:
    """Every file that ``names`` stand for, each once: a folder stands for its *.yaml and *.yml, sorted."""
    found: dict[str, Asked] = {}  # by whole path: "./a.yaml" is "a.yaml" again
    for name in names:
        if not os.path.isdir(name):
            _ask(found, Asked(name, named=True))
            continue
        inside = sorted(entry for entry in os.listdir(name) if _may_be_a_list(entry))
        for file in (os.path.join(name, entry) for entry in inside):
            if os.path.isfile(file) or _leads_nowhere(file):
                _ask(found, Asked(file, named=False))
    return list(found.values())


def _ask(found: dict[str, Asked], one: Asked) -> None:
    """A file that was named is checked whatever is in it, even where its folder came first."""
    before = found.setdefault(os.path.abspath(one.file), one)
    before.named = before.named or one.named


def _may_be_a_list(name: str) -> bool:
    return name.lower().endswith((".yaml", ".yml")) and not name.startswith(".")


def _leads_nowhere(file: str) -> bool:
    """A link to no file: its check tells so, where passing it over would lose a list."""
    return os.path.islink(file) and not os.path.exists(file)


def jobs_for(count: int, asked: int | None = None) -> int:
    """Processes for ``count`` files: as many as asked for, else one for a few files, else one a core."""
    if asked is not None:
        return max(1, min(asked, count))
    if count <= FEW:
        return 1
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return max(1, min(cores, count // (FEW // 2)))


def check_files(asked: list[Asked], catalogs: list[str], make: MakeRow, jobs: int = 1) -> Iterator[Row]:
    """A row for each file, in their order.  ``make`` can be pickled when ``jobs`` is more than 1.

    Raises ``Faults`` of the catalogue, before any file is read.
    """
    catalogue = Catalogue.load(catalogs)  # its faults are told once; workers then find it compiled
    if jobs == 1:
        for one in asked:
            yield _row(one, catalogue, make)
        return
    catalogue.close()
    yield from _by_workers(asked, catalogs, make, jobs)


def _row(asked: Asked, catalogue: Catalogue, make: MakeRow) -> Row:
    if not asked.named:
        why = why_no_list(asked.file)
        if why:
            return skipped_row(asked.file, why)
    return make(checked_file(asked.file, catalogue))


def checked_file(file: str, catalogue: Catalogue, source: str | bytes = "") -> CheckedFile:
    """The check of one file; whatever goes wrong in it is told of this file alone."""
    from partscheck.build.reader import read_build
    from partscheck.engine import check_build

    try:
        return CheckedFile(file, result=check_build(read_build(source or file, catalogue, file)))
    except Faults as faults:
        return CheckedFile(file, faults=faults)
    except Exception as error:  # a fault of ours in one file must not cost the others their check
        return CheckedFile(file, failed=f"{type(error).__name__}: {error}")


# ---- what a file is ----------------------------------------------------------------------


def why_no_list(file: str) -> str:
    """Why a file is not taken for a parts list, by the keys at its top; "" where it is one.

    A file that cannot be read is not passed over: its check tells why.
    """
    try:
        with open(file, "rb") as stream:
            text = stream.read(LIMITS.bytes + 1).decode("utf-8-sig", "replace")
    except OSError:
        return ""
    keys = _top_keys(text)
    if "parts" in keys and not keys & _CATALOGUE_KEYS:
        return ""
    if keys & _CATALOGUE_KEYS:
        return "a catalogue file"
    return "a swap file" if keys & _SWAP_KEYS else "no key `parts`: not a parts list"


def _top_keys(text: str) -> set[str]:
    """Of a list as people write it found by sight; else (all in braces) by reading it."""
    keys = {found[2] for found in _TOP_KEY.finditer(text.replace("\r", "\n"))}
    if keys:
        return keys
    try:
        root = compose(text, "")
    except Faults:
        return {"parts"} if "parts" in text else set()
    return set(root.keys()) if isinstance(root, MapNode) else set()


# ---- other processes ---------------------------------------------------------------------

_worker: dict[str, Any] = {}  # of a worker process: its catalogue, and how it makes a row


def _by_workers(asked: list[Asked], catalogs: list[str], make: MakeRow, jobs: int) -> Iterator[Row]:
    from collections import deque
    from concurrent.futures import ProcessPoolExecutor  # only many files come here

    from partscheck.rules import load_rules

    load_rules()  # before the workers start: where they are forks they share it
    size = max(1, min(CHUNK, len(asked) // (jobs * AHEAD)))
    waiting = iter([asked[start : start + size] for start in range(0, len(asked), size)])
    with ProcessPoolExecutor(jobs, initializer=_start, initargs=(catalogs, make)) as pool:
        under_way: deque[Any] = deque()
        try:
            for chunk in waiting:
                under_way.append(pool.submit(_rows, chunk))
                if len(under_way) >= jobs * AHEAD:
                    yield from under_way.popleft().result()
            while under_way:
                yield from under_way.popleft().result()
        finally:
            for one in under_way:
                one.cancel()


def _start(catalogs: list[str], make: MakeRow) -> None:
    import signal

    # Stopped at the keyboard, every process gets the signal: only the first one has something to say, and
    # a worker ends its few lists, since a pool that lost one would complain.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _worker.update(catalogue=Catalogue.load(catalogs), make=make)


def _rows(chunk: list[Asked]) -> list[Row]:
    return [_row(one, _worker["catalogue"], _worker["make"]) for one in chunk]
