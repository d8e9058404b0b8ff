"""A line on the terminal that says how far a long piece of work is.  Silent unless a command asks for it."""

from __future__ import annotations

import time

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import TextIO

PATIENCE = 0.7  # seconds that nobody minds
STEP = 0.1  # seconds between two looks of the line
WIDTH = 24  # columns of the bar

_screen: TextIO | None = None


def shown_on(stream: TextIO) -> None:
    """Show progress on ``stream`` from now on, if it is a terminal."""
    global _screen
    _screen = stream if stream.isatty() else None


class Progress:
    """How far one piece of work is, of ``total`` steps; a context manager that clears its line at the end.

    >>> with Progress("reading", 3) as progress:
    ...     progress.at(2)
    """

    def __init__(self, what: str, total: int) -> None:
        self.what = what
        self.total = max(total, 1)
        self._start = self._last = time.monotonic()
        self._wrote = False

    def __enter__(self) -> Progress:
        return self

    def __exit__(self, *error: object) -> None:
        if self._wrote and _screen is not None:
            _screen.write("\r\x1b[K")
            _screen.flush()

    def at(self, done: int) -> None:
        """Say how many steps are done."""
        if _screen is None:
            return
        now = time.monotonic()
        if now - self._start < PATIENCE or now - self._last < STEP:
            return
        self._last, self._wrote = now, True
        _screen.write("\r\x1b[K" + self.line(done, now - self._start))
        _screen.flush()

    def line(self, done: int, seconds: float) -> str:
        """ "reading stock.csv  [=======>    ] 61 %, about 4 s more"."""
        share = min(1.0, done / self.total)
        full = int(share * WIDTH)
        bar = "=" * full + ("" if full == WIDTH else ">") + " " * (WIDTH - full - 1)
        rest = f", about {seconds / share - seconds:.0f} s more" if share > 0.02 else ""
        return f"{self.what[:40]}  [{bar}] {share:.0%}{rest}".replace("%", " %")
