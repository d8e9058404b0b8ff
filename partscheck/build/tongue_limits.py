"""The practice limits of the tongue's share, by country, and what a list says of it apart from load cases."""

from __future__ import annotations

from partscheck.notation.interval import INF, Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.build.weights import Weights

EUROPE = frozenset((
    "EU", "GB", "IE", "DE", "FR", "NL", "BE", "AT", "CH", "IT", "ES", "PT", "PL", "CZ", "DK", "SE", "NO", "FI",
))  # fmt: skip
AUSTRALIA = frozenset(("AU", "NZ"))
REGIONAL = {
    "europe": ("tongue_share_least", "tongue_share_good", "tongue_share_most"),
    "australia": ("tongue_share_good",),
}  # fmt: skip
TONGUE_LIMIT_READS = (
    "service.country", "practice.tongue_share_least", "practice.tongue_share_good", "practice.tongue_share_most",
    "practice.tongue_share_least_europe", "practice.tongue_share_good_europe",
    "practice.tongue_share_most_europe", "practice.tongue_share_good_australia",
)  # fmt: skip
TONGUE_RATING_READS = (
    "tow_vehicle.tongue_rating", "coupler.tongue_rating", "ball-mount.tongue_rating", "receiver.tongue_rating",
    "receiver.place",
)  # fmt: skip


class TongueLimits:
    """``least`` (not towed below it), ``good`` (wanted) and ``most`` (of the heaviest case) share of the
    tongue, as plain numbers; ``region`` is "europe", "australia", or "" for all others.

    A limit of the user's own without a region in its name goes before that of the region.
    """

    __slots__ = ("good", "least", "most", "region")

    def __init__(self, build: Build) -> None:
        self.region = region_of(build)
        self.least = _limit(build, "tongue_share_least", self.region)
        self.good = max(self.least, _limit(build, "tongue_share_good", self.region))
        self.most = max(self.good, _limit(build, "tongue_share_most", self.region))


def region_of(build: Build) -> str:
    country = build.service.country if build.service.has("country") else ""
    return "europe" if country in EUROPE else "australia" if country in AUSTRALIA else ""


def on_no_ball(build: Build) -> bool:
    """Full trailers and dollies put nothing on the ball that could be a share."""
    service = build.service
    return bool(service.has("trailer_type") and service.trailer_type in ("full", "dolly"))


def _limit(build: Build, name: str, region: str) -> float:
    limits = build.limits
    regional = f"{name}_{region}"
    if name in REGIONAL.get(region, ()) and (limits.is_own(regional) or not limits.is_own(name)):
        return float(getattr(limits, regional).hi)
    return float(getattr(limits, name).hi)


class Declared:
    """The trailer as declared or weighed, apart from its loads: ``total`` and ``tongue`` in N, ``share``."""

    __slots__ = ("blame", "case", "share", "tongue", "total")

    def __init__(self, total: Interval, tongue: Interval, share: Interval, case: str, blame: Any) -> None:
        self.total = total
        self.tongue = tongue
        self.share = share
        self.case = case
        self.blame = blame


def declared(weights: Weights) -> Declared:
    """Gross and tongue weight as typed or off a scale; unknown ones as wide as they are."""
    build, readings = weights.build, weights.readings
    total, tongue = weights.gross(), weights.tongue()
    if readings.ways["tongue"] and not build.service.has("tongue_weight"):
        tongue = readings.tongue  # below nothing where the coupler is lifted
    typed = build.service.has("gross_weight") or build.service.has("tongue_weight")
    share = (tongue / total).bare() if total.lo > 0 or tongue.lo >= 0 else Interval(-INF, INF)
    if readings.ways["axles"] and readings.ways["tongue"] and not typed and tongue.lo >= 0:
        share = _within(share, share_of(tongue, readings.axles))
    blame: Any = (build.service, "tongue_weight")
    build.service.tongue_weight  # noqa: B018 - a scale under the coupler decides where readings are too coarse
    if readings and not typed:
        blame = (readings.record, "tow_vehicle_hitched")
    return Declared(total, tongue, share, "" if typed else readings.case, blame)


def share_of(tongue: Interval, axles: Interval) -> Interval:
    """Tongue over tongue and axles, of two weights that do not hang together: rises with the one, falls with
    the other.
    """
    return Interval(_share(tongue.lo, axles.hi), _share(tongue.hi, axles.lo))


def _share(tongue: float, axles: float) -> float:
    if tongue == INF:
        return 1.0
    return tongue / (tongue + max(0.0, axles)) if tongue > 0 and axles < INF else 0.0


def _within(one: Interval, other: Interval) -> Interval:
    """Where both say something of one value; the second where they do not meet."""
    lo, hi = max(one.lo, other.lo), min(one.hi, other.hi)
    return Interval(lo, hi) if lo <= hi else other


def tongue_ratings(build: Build) -> Interval:
    """The least tongue rating that is typed on the way to the tow vehicle, N; without bound where none is."""
    found = [build.tow_vehicle.tongue_rating.lo] if build.tow_vehicle.has("tongue_rating") else []
    for part in build.of_kind("coupler", "ball-mount", "receiver"):
        line: Any = part
        rear = line.kind == "receiver" and line.has("place") and line.place == "trailer rear"
        if line.has("tongue_rating") and not rear:
            found.append(line.tongue_rating.lo)
    least = min(found, default=INF)
    return Interval(least, least, "N")
