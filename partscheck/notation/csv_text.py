"""What CSV files of people have in common: delimiters, headings with a unit behind them, folded names."""

from __future__ import annotations

import re

DELIMITERS = (",", ";", "\t", "|")
UNIT = re.compile(r"^(?P<name>.+?)\s*[\[(]\s*(?P<unit>[^\])]+?)\s*[\])]$")
UNIT_WORD = re.compile(r"^(?P<name>.+)[_ ](?P<unit>kg|g|lbs?|oz|mm|cm|m|in|ft|kPa|bar|psi|N|kN|deg|A|V|Ah|L)$")
TOLD_DELIMITER = re.compile(r'"?sep=(.)"?\r?\n?')  # the way a spreadsheet names the delimiter


def folded(heading: str) -> str:
    """Small letters, one underline between words: "Load Range" is "load_range".

    >>> folded(" Load-Range ")
    'load_range'
    """
    return re.sub(r"[^a-z0-9]+", "_", heading.strip().lower()).strip("_")


def named_unit(heading: str) -> tuple[str, str] | None:
    """(name, unit) of a heading with a unit behind it; None where there is none.

    >>> named_unit("Thickness (in)"), named_unit("weight_kg"), named_unit("seller")
    (('thickness', 'in'), ('weight', 'kg'), None)
    """
    for pattern in (UNIT, UNIT_WORD):
        found = pattern.match(heading.strip())
        if found:
            return folded(found["name"]), found["unit"].strip()
    return None
