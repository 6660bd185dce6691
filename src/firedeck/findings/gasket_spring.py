"""The gasket that goes on as a spring under each fastener: what of it bears, and how stiff it is at the clamp."""

from dataclasses import dataclass
from math import dist, pi

from firedeck.errors import FiredeckError
from firedeck.findings.groups import gasket_that_goes_on, number
from firedeck.findings.joint_gasket import GasketGiven, gasket_given
from firedeck.findings.joint_said import Said
from firedeck.job import Joint
from firedeck.job.schema.layout import Layout, Passage
from firedeck.joint.gasket_spring import Pressed, gasket_closure, gasket_spring
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, Missing, Note, Step, as_printed

BEAD_ROUND_HOLES = 3.0
"""How far outside a passage its half bead runs [mm]."""


@dataclass(frozen=True)
class GasketUnder:
    """Springs of the gasket for one fastener [N/mm]: pressed on further, springing back; share lost by creep."""

    pressing: float
    springing: float
    creep: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


@dataclass(frozen=True)
class GasketBearing:
    """What of a gasket bears, with its laws, and over how many fasteners the clamp is shared out."""

    parts: dict[str, Pressed]
    fasteners: int
    notes: tuple[Note, ...]

    def under(self, tension: float) -> GasketUnder | None:
        """Return the springs under one fastener when all pull like it; None where the curve cannot say."""
        try:
            whole = gasket_spring(self.parts, tension * self.fasteners)
        except FiredeckError:
            return None
        each = [
            Step.work_out(
                f"The same under one of {self.fasteners} fasteners",
                f"{name} / fasteners",
                {**step.result, "fasteners": (float(self.fasteners), NO_UNIT)},
                (f"gasket_{name.partition('_')[0]}", "N/mm"),
                DERIVED,
            )
            for step in whole.steps[1:3]
            for name in step.result
        ]
        return GasketUnder(each[0].value, each[1].value, whole.creep, (*whole.steps, *each), self.notes)

    def between(self, start: float, end: float) -> Step | None:
        """Return the mean spring under one fastener from one tension to a higher one [N/mm]."""
        if not end > start:
            return None
        try:
            ends = [gasket_closure(self.parts, tension * self.fasteners) for tension in (start, end)]
        except FiredeckError:
            return None
        if not ends[1] > ends[0]:
            return None
        figures = {
            "tension_end": (as_printed(end), "N"),
            "tension_start": (as_printed(start), "N"),
            "closure_end": (as_printed(ends[1]), "mm"),
            "closure_start": (as_printed(ends[0]), "mm"),
        }
        return Step.work_out(
            "Gasket under one fastener while it is turned, as one spring",
            "(tension_end - tension_start) / (closure_end - closure_start)",
            figures,
            ("gasket_turned", "N/mm"),
            "run:gasket-closure",
        )


def gasket_bearing(joint: Joint) -> GasketBearing | None:
    """Measure rings, half beads and body of the gasket; None where kind, size or number of fasteners is not known."""
    given = gasket_given(joint, Said())
    fasteners, layout = _fasteners(joint), joint.layout
    if gasket_that_goes_on(joint) is None or isinstance(given, Missing):
        return None
    rings = _rings(joint, given)
    if not rings or not fasteners:
        return None
    amounts = {
        "ring": sum(pi * diameter for diameter in rings),
        "half-bead": _beads(layout) if layout else 0.0,
        "body": _body(layout, rings) if layout else 0.0,
    }
    parts = {name: Pressed(law, amounts[name]) for name, law in given.laws.items() if amounts[name] > 0.0}
    left_out = [name for name in given.laws if name not in parts]
    if "body" in left_out or not parts:
        return None
    widest = max(part.law.band for part in parts.values())
    notes = [
        Note(
            f"gasket in the sum with a curve of our own that may be {widest:.0%} off either way: "
            "no maker prints one for a check like this",
            GENERIC,
        )
    ]
    if "half-bead" in left_out:
        notes.append(Note("half beads at the holes left out: no passages and no outline are drawn", GENERIC))
    return GasketBearing(parts, fasteners, tuple(notes))


def _rings(joint: Joint, given: GasketGiven) -> list[float]:
    """Diameter at the middle of each ring; without a layout by the gasket's own bore, one for each cylinder [mm]."""
    drawn = [bore.diameter.value for bore in (joint.layout.bores if joint.layout else ())]
    if not drawn and given.hole is not None:
        drawn = [given.hole] * len(joint.cylinders)
    return [given.gas(bore) + given.width for bore in drawn]


def _fasteners(joint: Joint) -> int:
    drawn = len(joint.layout.fasteners) if joint.layout else 0
    counts = [len(group.labels) or group.count for group in joint.fasteners]
    return drawn or (sum(one or 0 for one in counts) if all(counts) else 0)


def _beads(layout: Layout) -> float:
    """Length of the half beads: round every passage, and along the outline where it is drawn [mm]."""
    edge = [(x.value, y.value) for x, y in layout.outline]
    rim = sum(dist(here, there) for here, there in zip(edge, edge[1:] + edge[:1], strict=True))
    return rim + sum(_round(passage) for passage in layout.passages if passage.diameter)


def _round(passage: Passage) -> float:
    wide = (number(passage.diameter) or 0.0) + 2.0 * BEAD_ROUND_HOLES
    long = number(passage.length) or 0.0
    return pi * wide + (2.0 * max(long - (number(passage.diameter) or 0.0), 0.0) if long else 0.0)


def _body(layout: Layout, rings: list[float]) -> float:
    """Area of the outline less rings, bolt holes and passages; nought where no outline is drawn [mm²]."""
    edge = [(x.value, y.value) for x, y in layout.outline]
    if len(edge) < 3:
        return 0.0
    pairs = zip(edge, edge[1:] + edge[:1], strict=True)
    whole = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2.0
    holes = [number(hole.diameter) or 0.0 for hole in layout.fasteners]
    holes += [number(passage.diameter) or 0.0 for passage in layout.passages]
    return max(whole - sum(pi / 4.0 * diameter**2 for diameter in (*rings, *holes)), 0.0)
