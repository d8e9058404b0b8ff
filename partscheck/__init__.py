"""Checks the parts list of a home-built light road trailer, before money, cutting or towing.

    >>> import partscheck
    >>> result = partscheck.check("apiary.yaml")          # doctest: +SKIP
    >>> for finding in result.findings:                   # doctest: +SKIP
    ...     print(finding.verdict, finding.rule.slug, finding.at)

``check`` reads and checks a list; ``read_list`` only reads it; ``check_build`` checks a build that
was read; ``Faults`` is raised with every fault of a list that cannot be used.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from partscheck.build.model import Build
    from partscheck.engine import Result, check_build
    from partscheck.notation.faults import Fault, Faults
    from partscheck.report.json_report import report_data
    from partscheck.uses.load_path import load_path
    from partscheck.uses.measurements import measurements

__version__ = "0.1.0"

__all__ = [
    "Fault", "Faults", "__version__", "check", "check_build", "load_path", "measurements", "read_list",
    "report_data", "text_report",
]  # fmt: skip

_HOMES = {
    "Fault": "partscheck.notation.faults",
    "Faults": "partscheck.notation.faults",
    "check_build": "partscheck.engine",
    "load_path": "partscheck.uses.load_path",
    "measurements": "partscheck.uses.measurements",
    "report_data": "partscheck.report.json_report",
    "text_report": "partscheck.report.text",
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

    return read_build(source, Catalogue.load([os.fspath(folder) for folder in catalogs]), file)


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
