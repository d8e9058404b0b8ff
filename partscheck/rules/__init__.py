"""The rules: one module per subject, one function per rule.

Every module in this folder that holds rules is imported by ``load_rules``; a rule registers itself
where it is declared.  Outside packages add rules through the entry point group
``partscheck.rules`` (a module to import).
"""

from __future__ import annotations

import os  # pathlib costs start-up time
import sys
from importlib import import_module

from partscheck.rules.registry import RULES, Rule

GROUP = "partscheck.rules"
NOT_SUBJECTS = {"__init__", "basis", "check", "explain", "findings", "message", "registry"}
_loaded = False


def load_rules() -> dict[str, Rule]:
    """Every rule by slug, in the order of the subjects' file names."""
    global _loaded
    if not _loaded:
        names = subjects()
        for name in names:
            import_module(f"partscheck.rules.{name}")
        _load_outside_rules()
        _in_order(names)
        _loaded = True
    return RULES


def _in_order(names: list[str]) -> None:
    """A command may have imported some subjects before the others: what is told must not hang on that."""
    places = {f"partscheck.rules.{name}": number for number, name in enumerate(names)}
    told = sorted(RULES.values(), key=lambda one: places.get(one.check.__module__, len(places)))
    RULES.clear()
    RULES.update((one.slug, one) for one in told)


def subjects() -> list[str]:
    """Names of the modules in this folder that hold rules."""
    files = os.listdir(os.path.dirname(__file__))
    return sorted({name[:-3] for name in files if name.endswith(".py")} - NOT_SUBJECTS)


def _load_outside_rules() -> None:
    """Rules of installed packages that name the entry point group."""
    if not any(_names_the_group(folder) for folder in sys.path if folder):
        return  # reading entry points properly costs 30 ms: only where there is one
    from importlib.metadata import entry_points

    for point in entry_points(group=GROUP):
        point.load()


def _names_the_group(folder: str) -> bool:
    try:
        names = [name for name in os.listdir(folder) if name.endswith(".dist-info")]
    except OSError:
        return False
    return any(f"[{GROUP}]" in _text(os.path.join(folder, name, "entry_points.txt")) for name in names)


def _text(path: str) -> str:
    try:
        with open(path, encoding="utf-8", errors="replace") as stream:
            return stream.read()
    except OSError:
        return ""
