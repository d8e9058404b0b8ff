"""Which text a large file holds, without reading it at every start.

A file of rows is known by the sha256 of its content.  For a large one that was hashed before, the hash is
remembered together with its size, the times of its last change and its number on the disk, and taken again
while all of these are the same: reading a hundred megabytes at every start would take longer than the question.
The trade: a change that leaves all of them alike would not be seen.  Writing to a file sets its change time,
which no program can set back; where a system has no such time the modification time alone has to tell.  A
file that changed within the last seconds is never taken as known, since its times may be too coarse to tell.
"""

from __future__ import annotations

import os
import time
from contextlib import suppress

from partscheck.catalogue.compile import cache_folder
from partscheck.catalogue.layers import sha256

TRUSTED_FROM = 1_000_000  # bytes; smaller files are read each time
SETTLED = 3.0  # seconds
BLOCK = 1 << 20


def content_digest(path: str) -> str:
    """sha256, in hex, of the file's content.  Raises ``OSError``."""
    stands = _stand(os.stat(path))
    known = _remembered(path) if os.path.getsize(path) >= TRUSTED_FROM else None
    if known is not None and known[0] == stands:
        return known[1]
    digest = sha256()
    with open(path, "rb") as stream:
        before = os.fstat(stream.fileno())
        while block := stream.read(BLOCK):
            digest.update(block)
        after = os.fstat(stream.fileno())
    if _stand(before) == _stand(after) and before.st_size >= TRUSTED_FROM:
        _remember(path, after, digest.hexdigest())
    found: str = digest.hexdigest()
    return found


def _stand(found: os.stat_result) -> str:
    times = f"{found.st_mtime_ns} {found.st_ctime_ns}"
    return f"{found.st_size} {times} {found.st_ino} {found.st_dev}"


def _record(path: str) -> str | None:
    folder = cache_folder()
    if folder is None:
        return None
    name = sha256()
    name.update(os.fsencode(os.path.abspath(path)))
    return os.path.join(folder, f"seen-{name.hexdigest()[:32]}.txt")


def _remembered(path: str) -> tuple[str, str] | None:
    """(how the file stood, its digest) when it was hashed last."""
    record = _record(path)
    if record is None:
        return None
    try:
        with open(record, encoding="ascii") as stream:
            stands, digest = stream.read(400).splitlines()
    except (OSError, ValueError):
        return None
    return (stands, digest) if len(digest) == 64 else None


def _remember(path: str, found: os.stat_result, digest: str) -> None:
    record = _record(path)
    if record is None or time.time() - max(found.st_mtime, found.st_ctime) < SETTLED:
        return
    beside = f"{record}.{os.getpid()}.part"
    try:
        os.makedirs(os.path.dirname(record), mode=0o700, exist_ok=True)
        with open(beside, "w", encoding="ascii") as stream:
            stream.write(f"{_stand(found)}\n{digest}\n")
        os.replace(beside, record)
    except OSError:
        with suppress(OSError):
            os.unlink(beside)
