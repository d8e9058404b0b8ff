"""The declaration of a rule, and the register that the declaration itself fills."""

from __future__ import annotations

from partscheck.rules.basis import Basis

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from typing import Any

    RuleFunction = Callable[[Any], Any]



class Rule:
    """One rule: its slug, what it binds to, the fields it reads, its basis, its function.

    ``check(binding)`` returns a Check, an iterable of Checks, or None where there is nothing to
    look at.  The function's docstring is its page: see ``explain.py`` for the sections.
    """

    __slots__ = ("after", "basis", "binds", "check", "reads", "slug", "subject")

    def __init__(
        self,
        slug: str,
        binds: type,
        reads: tuple[str, ...],
        basis: tuple[Basis, ...],
        check: RuleFunction,
        subject: str,
        after: tuple[str, ...] = (),
    ) -> None:
        self.slug = slug
        self.binds = binds
        self.reads = reads
        self.basis = basis
        self.check = check
        self.subject = subject
        self.after = after

    @property
    def sentence(self) -> str:
        """What must hold: the first paragraph of the rule's docstring."""
        return " ".join((self.check.__doc__ or "").partition("\n\n")[0].split())

    def __repr__(self) -> str:
        return f"<Rule {self.slug}>"


RULES: dict[str, Rule] = {}


def rule(
    slug: str,
    *,
    on: type,
    reads: Iterable[str],
    basis: Basis | tuple[Basis, ...],
    after: Iterable[str] = (),
) -> Callable[[RuleFunction], RuleFunction]:
    """Declare the decorated function as the rule ``slug`` for each binding of class ``on``.

    ``reads`` lists the fields as "kind.field" ("hub.stud_length", "service.gross_weight",
    "practice.minimum_thread_engagement"); a test compares it with what the function really reads.
    ``after`` names rules whose stop on the same parts is the cause: this one is then folded under it.
    """

    def register(function: RuleFunction) -> RuleFunction:
        if slug in RULES:
            raise ValueError(f"two rules called {slug}")
        bases = basis if isinstance(basis, tuple) else (basis,)
        subject = function.__module__.rpartition(".")[2]
        RULES[slug] = Rule(slug, on, tuple(dict.fromkeys(reads)), bases, function, subject, tuple(after))
        return function

    return register
