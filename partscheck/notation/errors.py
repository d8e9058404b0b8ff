"""What went wrong when a value was read: one exception for every notation."""

from __future__ import annotations


class NotationError(ValueError):
    """A text that is not a value of the kind asked for.

    ``read`` is the text, ``expected`` says what is due ("a length with its unit, such as
    1.5 in or 38 mm"), ``hint`` is the likely right spelling, or "".
    """

    def __init__(self, read: str, expected: str, hint: str = "") -> None:
        self.read = read
        self.expected = expected
        self.hint = hint
        super().__init__(f"read {read!r}, expected {expected}" + (f"; {hint}" if hint else ""))
