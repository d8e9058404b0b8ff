"""Shares in percent, for sentences and tables."""

from __future__ import annotations

from partscheck.notation.interval import INF, Interval

CLOSE = 1e-9


def percent(share: float) -> str:
    """ "10 %", "12.5 %"."""
    return f"{share * 100:.4g} %"


def show_percent(share: Interval, apart_from: float | None = None) -> str:
    """ "4.8 %", "9.6 to 11 %", "at most 4 %", "not known"; with as many digits as keep it off a limit that it
    misses.
    """
    if share.lo == -INF and share.hi < 1:
        return f"at most {_digits(share.hi, apart_from)} %"
    if share.hi == INF and share.lo > 0:
        return f"at least {_digits(share.lo, apart_from)} %"
    if INF in (abs(share.lo), abs(share.hi)):
        return "not known"
    ends = [_digits(end, apart_from) for end in (share.lo, share.hi)]
    return f"{ends[0]} %" if ends[0] == ends[1] else f"{ends[0]} to {ends[1]} %"


def _digits(share: float, limit: float | None) -> str:
    text = ""
    for places in (1, 2, 3, 4, 6):
        text = f"{share * 100:.{places}f}"
        if limit is None or abs(share - limit) < CLOSE or float(text) != round(limit * 100, places):
            break
    return text.rstrip("0").rstrip(".").replace("-0", "0") if float(text) == 0 else text.rstrip("0").rstrip(".")
