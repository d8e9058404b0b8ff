"""The report as one HTML file that needs neither network nor script."""

from __future__ import annotations

from partscheck.report.html.page import html_report

__all__ = ["html_report"]
