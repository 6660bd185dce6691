"""The band on the face over which a fire ring presses: from which gasket, how wide, and how far a place is from it."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from firedeck.gasket.ring_fit import ring_margins
from firedeck.job import Joint
from firedeck.job.frame import Place, layout_frame
from firedeck.job.schema.joint import Candidate, Construction
from firedeck.quantity import Kind, Quantity, parse
from firedeck.surfaces.points import Array
from firedeck.tables import one
from firedeck.trace import DERIVED, Figure, Step, as_printed

PLACES_ROUND = 36


@dataclass(frozen=True)
class RingBand:
    """One gasket's ring over every bore: its hole (None: set back from each bore by ``set_back``) and width [mm]."""

    gasket: str
    hole: float | None
    set_back: float
    width: float
    width_source: str

    def inner(self, bore: float) -> float:
        """Return the inner diameter of the band over a bore."""
        return bore + 2.0 * self.set_back if self.hole is None else self.hole


@dataclass(frozen=True)
class Round:
    """Something round on the face, in the frame of the joint: a bore, or the circle round a damage [mm]."""

    label: str
    centre: Place
    diameter: float


@dataclass(frozen=True)
class OffRing:
    """How far a place is off the ring (negative: it reaches in), and the share of ring width left beside it."""

    cylinder: str
    band: RingBand
    steps: tuple[Step, ...]
    distance: Step
    share_left: Step


def ring_bands(joint: Joint) -> tuple[RingBand, ...]:
    """Return the ring of the gasket chosen, of every candidate while none is, or else of the old gasket."""
    chosen = [one for one in joint.gasket.candidates if one.name == joint.gasket.fitted]
    bands = tuple(_of_candidates(chosen or joint.gasket.candidates))
    if bands:
        return bands
    old = joint.gasket.old
    if old and old.bore:
        return (RingBand("old", old.bore.value, 0.0, *_width(None, old.construction)),)
    set_back = ring_margins()[0].low or 0.0
    return (RingBand("", None, set_back, *_width(None, None)),)


def _of_candidates(candidates: "tuple[Candidate, ...] | list[Candidate]") -> Iterator[RingBand]:
    for candidate in candidates:
        if candidate.bore is not None:
            width = _width(candidate.ring_width, candidate.construction)
            yield RingBand(candidate.name, candidate.bore.value, 0.0, *width)


def _width(measured: Quantity | None, construction: Construction | None) -> tuple[float, str]:
    if measured is not None:
        return measured.value, DERIVED
    asked = construction or "any ring"
    row = one("ring_widths", asked, lambda row: row["construction"] in ("", asked))
    return parse(row["width"], Kind.LENGTH).value, row["source"]


def off_ring(band: RingBand, bore: Round, spot: Round) -> OffRing:
    """Work out how far a spot is from the band of one bore."""
    inner = _printed(band.inner(bore.diameter))
    width = _printed(band.width)
    away = Step.work_out(
        f"From the middle of bore {bore.label} to the middle of the damage",
        "sqrt((x - bore_x)**2 + (y - bore_y)**2)",
        {
            "x": (spot.centre[0], "mm"),
            "y": (spot.centre[1], "mm"),
            "bore_x": (bore.centre[0], "mm"),
            "bore_y": (bore.centre[1], "mm"),
        },
        ("away", "mm"),
        DERIVED,
    )
    lies: dict[str, Figure] = {
        "away": _printed(away.value),
        "size": _printed(spot.diameter),
        "ring_hole": inner,
        "ring_width": width,
    }
    distance = Step.work_out(
        "From the edge of the damage to the ring; negative when it reaches in",
        "max(away - size / 2 - (ring_hole / 2 + ring_width), ring_hole / 2 - away - size / 2)",
        lies,
        ("distance_to_ring", "mm"),
        band.width_source,
    )
    share = Step.work_out(
        "Share of the ring width that still lies on sound metal",
        "1 - max(0, min(away + size / 2, ring_hole / 2 + ring_width) - max(away - size / 2, ring_hole / 2)) / ring_width",
        lies,
        ("ring_share_left", "1"),
        band.width_source,
    )
    return OffRing(bore.label, band, (away,), distance, share)


def _printed(length: float) -> Figure:
    return as_printed(length), "mm"


def places_on_rings(joint: Joint) -> dict[str, Array]:
    """Return places (m, 2) along the middle of the band of every bore, in the frame of the joint [mm]."""
    if joint.layout is None:
        return {}
    frame, band = layout_frame(joint.layout), ring_bands(joint)[0]
    angles = 2.0 * np.pi * np.arange(PLACES_ROUND) / PLACES_ROUND
    circle = np.column_stack((np.cos(angles), np.sin(angles)))
    return {
        bore.label: np.asarray(frame.place(bore.x.value, bore.y.value))
        + 0.5 * (band.inner(bore.diameter.value) + band.width) * circle
        for bore in joint.layout.bores
    }
