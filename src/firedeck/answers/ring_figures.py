"""What else the rings place by place say: figures beside the verdict, never the verdict."""

from collections.abc import Iterator

from firedeck.answers.making import Draft, both
from firedeck.findings.joint import JointStudy
from firedeck.quantity import Kind, show_both
from firedeck.trace import DERIVED, Note

PULLED_FLAT = "A long bow is pulled flat in the model; that makes no face right that fails its flatness."

WORTH_SAYING = 0.02
"""Share of the band below which measuring a thing is not worth the way to the drawer."""


def add_figures(draft: Draft, study: JointStudy, *, boosted: bool) -> None:
    """Add opening, fasteners, later life, slip and beads as notes, and the care knock asks for."""
    draft.notes.extend(Note(f"{text}.", DERIVED) for text in _figures(study))
    draft.notes.append(Note(PULLED_FLAT, DERIVED))
    draft.notes.append(Note(study.says, DERIVED))
    draft.assumptions.extend(note.text for note in study.assumptions)
    if study.mesh_says:
        draft.cautions.append(f"Optimistic: {study.mesh_says}")
    if boosted:
        draft.cautions.extend(_eaten(study))


def add_next(draft: Draft, study: JointStudy) -> None:
    """Name what would narrow the band, what takes most of it away first."""
    for one in sorted(study.influences, key=lambda one: -one.share):
        if one.missing is not None and one.share >= WORTH_SAYING:
            draft.need(one.missing, worth=one.share)


def _figures(study: JointStudy) -> Iterator[str]:
    opening = [place for place in study.places if place.opens_at is not None]
    if opening:
        first = min(opening, key=lambda place: place.opens_at or 0.0)
        peak = both(first.opens_at or 0.0, "peak")
        yield f"No {first.bore} opens first, at a peak of about {peak}; reckoned to run at {_peak(study)}"
    lift = max(study.places, key=lambda place: place.lift)
    yield f"Largest lift between quiet and firing at a lowest place: {show_both(lift.lift, Kind.LENGTH)} at No {lift.bore}"
    pulls = [bolt.cold for bolt in study.bolts]
    if pulls:
        hardest = max(study.bolts, key=lambda bolt: bolt.share_of_yield)
        low, high = (both(end, "tension") for end in (min(pulls), max(pulls)))
        yield f"Fasteners after the first heat, cold again: {low} to {high}"
        yield f"Most loaded: {hardest.label}, {100 * hardest.share_of_yield:.0f} % of yield"
        pressed = max(study.bolts, key=lambda bolt: bolt.bearing)
        yield f"Pressure under heads and washers: up to {show_both(pressed.bearing, Kind.STRESS)} at {pressed.label}"
    yield from _later(study)
    if study.beads:
        bead = min(study.beads, key=lambda bead: bead.firing)
        yield f"Bead at {bead.place}, firing: lowest {both(bead.firing, 'line_load')}"
    if study.shear is not None:
        slip = study.shear
        stuck = f"stuck to each other {both(slip.stuck, 'line_load')}"
        yield (
            f"Lowest hot place with faces free to slip {both(slip.free, 'line_load')}, "
            + (stuck if slip.believable else f"{stuck}, which friction does not carry: left out")
        )


def _later(study: JointStudy) -> Iterator[str]:
    for after in (study.retorque, study.overheat, study.cold_soak):
        if after is not None:
            left = f"lowest {both(after.lowest, 'line_load')} at No {after.bore}"
            yield f"After {after.what}: {left}, least fastener {both(after.least_bolt, 'tension')} cold"


def _peak(study: JointStudy) -> str:
    low, high = study.peak.band.low, study.peak.band.high
    return f"{both(study.peak.value, 'peak')}, {both(low, 'peak')} to {both(high, 'peak')}, {study.peak.says}"


def _eaten(study: JointStudy) -> Iterator[str]:
    """Say what a knock allowance eats of the room to the pressure at which the first ring opens."""
    allowance = study.peak.knock_allowance
    for step in study.steps:
        if allowance > 0.0 and "knock" in step.inputs:
            left = both(step.value, "peak") if step.value > 0.0 else "nothing"
            yield f"A knock of {both(allowance, 'peak')} on top of the peak leaves {left} before the first ring opens"
