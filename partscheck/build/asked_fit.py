"""The fit graph as rules see it: whoever asks what sits where is written into the ledger."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.fit import Fit
    from partscheck.build.model import Build
    from partscheck.build.places import Binding
    from partscheck.build.weights import Weights
    from partscheck.parts.record import Part

# What is asked, as it stands in a ledger; "?at LugSet": all places of that class, "?of hub": where that line is.
AXLES, PLACES, AT, OF = "?axles", "?places", "?at ", "?of "


class AskedFit:
    """Answers as ``Fit`` does."""

    __slots__ = ("_fit", "_ledger", "_listing")

    def __init__(self, fit: Fit) -> None:
        self._fit = fit
        self._ledger = fit.build.ledger
        self._listing = fit.build.listing

    def _asked(self, what: str) -> Fit:
        self._ledger.append((self._listing, what))
        return self._fit

    @property
    def build(self) -> Build:
        return self._fit.build

    @property
    def weights(self) -> Weights:
        return self._fit.weights

    @property
    def axles(self) -> int:
        return self._asked(AXLES).axles

    @property
    def positions(self) -> list[str]:
        return self._asked(AXLES).positions

    @property
    def places(self) -> dict[str, dict[str, Any]]:
        return self._asked(PLACES).places

    @property
    def plates(self) -> dict[str, tuple[Any, ...]]:
        return self._asked(PLACES).plates

    @property
    def ends(self) -> list[Any]:
        return self._asked(PLACES).ends

    @property
    def spare(self) -> Any:
        return self._asked(PLACES).spare

    @property
    def spare_roles(self) -> dict[str, Any]:
        return self._asked(PLACES).spare_roles

    def bindings(self, binds: type[Binding]) -> list[Any]:
        return self._asked(AT + binds.__name__).bindings(binds)

    def places_of(self, part: Part) -> tuple[str, ...]:
        return self._asked(OF + part.id).places_of(part)
