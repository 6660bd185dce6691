"""The flatness limit of a face and direction: the papers first, then what is published for its like."""

from firedeck.answers.given import picked
from firedeck.answers.making import both
from firedeck.job import Job, Joint
from firedeck.quantity import Kind, parse
from firedeck.tables import Picked, rows
from firedeck.tables.bank import bank_flatness_limits
from firedeck.trace import Context, Limit, Rank

MOST_IN_A_BANK = 8


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


def of_other_engines(face: str, direction: str) -> str:
    """Say from where to where the books of other engines go for such a face; none of them is this engine's."""
    way = "across" if direction == "across" else "along"
    printed = [parse(row[way], Kind.LENGTH).value for row in rows("flatness_examples") if row["part"] == face]
    low, high = (both(end, "face_flatness") for end in (min(printed), max(printed)))
    return f"Public manuals of {len(printed)} other engines print {low} to {high} {way} for a {face}: none is yours."


def both_faces_limit(job: Job, joint: Joint, direction: str) -> Limit | None:
    """Return the trade's rule for both faces added: along by the cylinders in the bank, across one figure."""
    if direction == "along":
        cylinders = len(joint.cylinders or job.engine.cylinders)
        return bank_flatness_limits(cylinders)[0] if 1 <= cylinders <= MOST_IN_A_BANK else None
    return picked(joint, "both_faces_flatness", Context(direction=direction)).winner


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
