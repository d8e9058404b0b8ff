"""Which text catalogue files hold, without reading them at every start.

A file of rows is known by the sha256 of its content, and so are the YAML files of a folder together.  For a large
file, and for a folder, that was hashed before, the hash is remembered together with size, times of the last
change and number on the disk, and taken again while all of these are the same: reading a hundred megabytes
at every start would take longer than the question.
The trade: a change that leaves all of them alike would not be seen.  Writing to a file sets its change time,
which no program can set back; where a system has no such time the modification time alone has to tell.  A
file that changed within the last seconds is never taken as known, since its times may be too coarse to tell.
"""

from __future__ import annotations

import os
import time
from contextlib import suppress

from partscheck.catalogue.compile import cache_folder, drop_oldest, half_made
from partscheck.catalogue.layers import sha256

TRUSTED_FROM = 1_000_000  # bytes; smaller files are read each time
SETTLED = 3.0  # seconds
BLOCK = 1 << 20
KEPT = 200  # records that stay in the cache folder


class Stood:
    """How files stand now, and ``digest``: the sha256 of their contents if it is remembered from when they stood
    the same, else "".
    """

    def __init__(self, paths: list[str]) -> None:
        self._paths = paths
        self._name = "\n".join(os.path.abspath(path) for path in paths)
        self._stand = _stands(paths)
        stand, known = (None, None) if self._stand is None else (self._stand[0], _remembered(self._name))
        self.digest = known[1] if known is not None and known[0] == stand else ""

    def remember(self, digest: str) -> None:
        """The digest of what was read of them since, unless one of them changed meanwhile or just before."""
        if self._paths and self._stand is not None and self._stand == _stands(self._paths):
            _remember(self._name, *self._stand, digest)


def content_digest(path: str) -> str:
    """sha256, in hex, of the file's content.  Raises ``OSError``."""
    stood = Stood([path]) if os.path.getsize(path) >= TRUSTED_FROM else None
    if stood is not None and stood.digest:
        return stood.digest
    digest = sha256()
    with open(path, "rb") as stream:
        while block := stream.read(BLOCK):
            digest.update(block)
    found: str = digest.hexdigest()
    if stood is not None:
        stood.remember(found)
    return found


def _stands(paths: list[str]) -> tuple[str, float] | None:
    """(how the files stand, when the last of them changed); None where one of them is not there."""
    total, last = sha256(), 0.0
    try:
        for path in paths:
            found = os.stat(path)
            times = f"{found.st_mtime_ns} {found.st_ctime_ns}"
            total.update(f"{found.st_size} {times} {found.st_ino} {found.st_dev}\n".encode())
            last = max(last, found.st_mtime, found.st_ctime)
    except (OSError, ValueError):
        return None
    return total.hexdigest(), last


def _record(name: str) -> str | None:
    folder = cache_folder()
    if folder is None:
        return None
    total = sha256()
    total.update(os.fsencode(name))
    return os.path.join(folder, f"seen-{total.hexdigest()[:32]}.txt")


def _remembered(name: str) -> tuple[str, str] | None:
    """(how the files stood, their digest) when they were hashed last."""
    record = _record(name)
    if record is None:
        return None
    try:
        with open(record, encoding="utf-8") as stream:
            stands, digest = stream.read(400).splitlines()
    except (OSError, ValueError):
        return None
    return (stands, digest) if len(digest) == 64 else None


def _remember(name: str, stands: str, last: float, digest: str) -> None:
    record = _record(name)
    if record is None or time.time() - last < SETTLED:
        return
    beside = half_made(record)
    try:
        os.makedirs(os.path.dirname(record), mode=0o700, exist_ok=True)
        with open(beside, "w", encoding="utf-8") as stream:
            stream.write(f"{stands}\n{digest}\n")
        os.replace(beside, record)
        drop_oldest(os.path.dirname(record), "seen-", KEPT)
    except OSError:
        with suppress(OSError):
            os.unlink(beside)
