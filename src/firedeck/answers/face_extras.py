"""What stands beside the limits of a book: bows, twist, dips along the rings, and both faces together."""

from firedeck.answers.answer import Working
from firedeck.answers.flatness_limits import both_faces_limit
from firedeck.answers.making import Draft, both
from firedeck.findings.face_line import FaceLine
from firedeck.findings.faces import FaceFound, Faces
from firedeck.findings.rings import Rings
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.trace import DERIVED, Step

SHAPES = {"long_bow": "long bow", "cross_bow": "cross bow", "twist": "twist"}


def say_shapes(draft: Draft, faces: Faces) -> None:
    """Add smallest zone, long bow, cross bow and twist: no book limits them, each asks for something else."""
    for face in faces.faces:
        if face.flatness is not None:
            zone = both(face.flatness.minimum_zone, "minimum_zone")
            draft.assumptions.append(
                f"{face.face} face: smallest out-of-flat by any tilt {zone}, for information"
            )
        if face.shape and draft.checks:
            named = {name: step for step in face.shape for name in step.result}
            said = ", ".join(
                f"{words} {both(named[name].value, 'face_flatness')}" for name, words in SHAPES.items()
            )
            draft.assumptions.append(
                f"{face.face} face: {said}; a bow counts positive on a crown, for information"
            )
            draft.steps.extend(Working(_check_of(draft, face.face), step) for step in face.shape)
    if any(line.direction == "diagonal" for face in faces.faces for line in face.lines):
        draft.assumptions.append("diagonals are held to the limit written for the length")


def say_what_the_seal_meets(draft: Draft, rings: Rings) -> None:
    """Add what no book limits: the dip a ring has to follow, and both faces together."""
    for face in ("head", "block"):
        ring = rings.worst(face)
        if ring is not None:
            name = f"{face} face, ring of cylinder {ring.cylinder}"
            draft.steps.append(Working(_check_of(draft, face), ring.dip))
            draft.assumptions.append(
                f"{name}: the face dips {both(ring.dip.value, 'face_flatness')} along it, tilt taken out, the most "
                "of all rings of this face; for information"
            )
    if rings.together is not None:
        draft.steps.append(Working(draft.checks[-1].name, rings.together))
        gap = both(rings.together.value, "both_faces_flatness")
        draft.assumptions.append(f"both bare faces together: largest gap {gap}, for information")


def _check_of(draft: Draft, face: str) -> str:
    """Name the check a further sum of a face stands under."""
    return next((check.name for check in draft.checks if check.name.startswith(face)), draft.checks[-1].name)


def say_both_added(draft: Draft, job: Job, joint: Joint, faces: Faces) -> None:
    """Add the worst gaps of both faces, direction by direction, beside the trade's rule for both together."""
    head, block = faces.face("head"), faces.face("block")
    if head is None or block is None or not draft.checks:
        return
    for direction in ("along", "across"):
        lines = [_worst_of(face, direction) for face in (head, block)]
        if lines[0] is None or lines[1] is None:
            continue
        added = Step.work_out(
            f"Worst gaps of both faces added, {direction}",
            "head_gap + block_gap",
            {"head_gap": lines[0].step.figure(), "block_gap": lines[1].step.figure()},
            ("both_faces", "mm"),
            DERIVED,
        )
        draft.steps.append(Working(_check_of(draft, "head"), added))
        known = not any(line.open_above for line in lines if line)
        draft.assumptions.append(_against_the_rule(job, joint, direction, added, known))


def _worst_of(face: FaceFound, direction: str) -> FaceLine | None:
    return max(face.lines_of(direction), key=lambda line: line.gap, default=None)


def _against_the_rule(job: Job, joint: Joint, direction: str, added: Step, known: bool) -> str:
    least = "" if known else "at least "
    says = f"both faces added, {direction}: {least}{both(added.value, 'both_faces_flatness')}"
    rule = both_faces_limit(job, joint, direction)
    over = rule is not None and meets(added.value, high=rule.high) is Meets.FAILS
    if rule is None or rule.high is None or not (known or over):
        return f"{says}, for information"
    kept = {"holds": "within", "at-limit": "exactly at", "fails": "over"}[
        meets(added.value, high=rule.high).value
    ]
    most = both(rule.high, "both_faces_flatness")
    return f"{says}, {kept} the rule of thumb of {most} for both together; no limit of a book"
