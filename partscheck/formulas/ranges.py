"""The bounds that formulas keep: a value outside its range is refused in plain words."""

from __future__ import annotations


def above_zero(name: str, value: float) -> None:
    """Raises ``ValueError`` unless ``value`` is above 0; ``name`` says what it is."""
    if not value > 0:
        raise ValueError(f"{name} must be above 0, got {value:g}")


def not_below_zero(name: str, value: float) -> None:
    """Raises ``ValueError`` when ``value`` is below 0; ``name`` says what it is."""
    if not value >= 0:
        raise ValueError(f"{name} must not be below 0, got {value:g}")
