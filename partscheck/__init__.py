"""Checks the parts list of a home-built light road trailer, before money, cutting or towing.

    >>> import partscheck
    >>> result = partscheck.check("apiary.yaml")          # doctest: +SKIP
    >>> for finding in result.findings:                   # doctest: +SKIP
    ...     print(finding.verdict, finding.rule.slug, finding.at)

``check`` reads and checks a list; ``read_list`` only reads it; ``check_build`` checks a build that
was read; ``check_all`` checks many lists; ``swap`` compares a list before and after a
``Change``; ``Faults`` is raised with every fault of a list that cannot be used.
"""

from __future__ import annotations

import os
from collections.abc import Iterable

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.change import Change
    from partscheck.build.model import Build
    from partscheck.engine import Result, check_build
    from partscheck.notation.faults import Fault, Faults
    from partscheck.recheck import Recheck
    from partscheck.report.drawing import drawings
    from partscheck.report.html import html_report
    from partscheck.report.json_report import report_data
    from partscheck.uses.balance import axle_for_tongue_share, balance, move_for_tongue_share
    from partscheck.uses.batch import check_all
    from partscheck.uses.bom import bill_of_materials
    from partscheck.uses.find import find
    from partscheck.uses.fix import fix
    from partscheck.uses.load_path import load_path
    from partscheck.uses.measurements import measurements
    from partscheck.uses.shop import bench_sheet
    from partscheck.uses.swap import swap
    from partscheck.uses.tire_pressure import tire_pressures

__version__ = "0.1.0"

__all__ = [
    "Change", "Fault", "Faults", "Recheck", "__version__", "axle_for_tongue_share", "balance",
    "bench_sheet", "bill_of_materials", "check", "check_all", "check_build", "drawings", "find", "fix",
    "html_report", "load_path", "measurements", "move_for_tongue_share", "read_list", "report_data", "swap",
    "text_report", "tire_pressures",
]  # fmt: skip

_HOMES = {
    "Change": "partscheck.build.change",
    "Fault": "partscheck.notation.faults",
    "Faults": "partscheck.notation.faults",
    "Recheck": "partscheck.recheck",
    "axle_for_tongue_share": "partscheck.uses.balance",
    "balance": "partscheck.uses.balance",
    "bench_sheet": "partscheck.uses.shop",
    "bill_of_materials": "partscheck.uses.bom",
    "check_all": "partscheck.uses.batch",
    "check_build": "partscheck.engine",
    "drawings": "partscheck.report.drawing",
    "html_report": "partscheck.report.html",
    "fix": "partscheck.uses.fix",
    "find": "partscheck.uses.find",
    "load_path": "partscheck.uses.load_path",
    "measurements": "partscheck.uses.measurements",
    "move_for_tongue_share": "partscheck.uses.balance",
    "report_data": "partscheck.report.json_report",
    "swap": "partscheck.uses.swap",
    "text_report": "partscheck.report.text",
    "tire_pressures": "partscheck.uses.tire_pressure",
}


def read_list(
    source: str | os.PathLike[str] | bytes,
    catalogs: Iterable[str | os.PathLike[str]] = (),
    file: str = "",
) -> Build:
    """The typed build of a parts list.

    ``source`` is a path, or the bytes of a list (``file`` then names it in messages); ``catalogs``
    are folders of YAML catalogue files laid over the shipped one, later ones winning.
    Raises ``Faults``.
    """
    from partscheck.build.reader import read_build
    from partscheck.catalogue.catalogue import Catalogue

    return read_build(source, Catalogue.load(catalogs), file)


def check(
    source: str | os.PathLike[str] | bytes,
    catalogs: Iterable[str | os.PathLike[str]] = (),
    file: str = "",
) -> Result:
    """Read and check a parts list; arguments as for ``read_list``.  Raises ``Faults``."""
    from partscheck.engine import check_build

    return check_build(read_list(source, catalogs, file))


def __getattr__(name: str) -> Any:
    """Public names are imported when first used: start-up stays short."""
    if name in _HOMES:
        from importlib import import_module

        return getattr(import_module(_HOMES[name]), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
