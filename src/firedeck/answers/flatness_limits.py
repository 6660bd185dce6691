"""The flatness limit of a face and direction: the papers first, then what is published for its like."""

from firedeck.answers.given import picked
from firedeck.job import Job, Joint
from firedeck.tables import Picked
from firedeck.trace import Context, Limit, Rank


def flatness_limit(job: Job, joint: Joint, face: str, direction: str, span: float | None = None) -> Picked:
    """Pick the limit of a direction; diagonals are held to the one for the length.

    With a span only limits that are written for that span are picked.
    """
    part = joint.head if face == "head" else joint.block
    asked = Context(
        part=face,
        material=part.material,
        construction=_construction(joint),
        direction="along" if direction == "diagonal" else direction,
        span=span,
        duty="diesel" if job.engine.fuel == "diesel" else None,
        gasket=joint.gasket.fitted or None,
    )
    found = picked(joint, "face_flatness", asked)
    return found if span is None else _of_the_span(found, span)


def _construction(joint: Joint) -> str | None:
    """Return the construction of the gasket that goes on, or the one all candidates share."""
    chosen = [one for one in joint.gasket.candidates if one.name == joint.gasket.fitted]
    made = {one.construction for one in chosen or joint.gasket.candidates}
    return made.pop() if len(made) == 1 else None


def _of_the_span(found: Picked, span: float) -> Picked:
    """Keep those limits that state the span; they stand in the order in which they win."""
    each: tuple[Limit, ...] = tuple(one for one in (found.winner, *found.rivals) if one is not None)
    written = [one for one in each if one.applies.span == span]
    able = next((one for one in written if one.rank is not Rank.MEMORY), None)
    return Picked(able, tuple(one for one in written if one is not able), found.why)
