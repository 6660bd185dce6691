"""What a face that nobody has read yet will be held against, and the gap of one no limit is known for."""

from firedeck.answers.counting import clip
from firedeck.answers.flatness_limits import flatness_limit
from firedeck.answers.making import Draft, both
from firedeck.findings.face_line import FaceLine
from firedeck.findings.faces import Faces
from firedeck.job import Job, Joint
from firedeck.tables import Picked
from firedeck.trace import Limit, Missing, Note, Rank, spoken

WAYS = ("along", "across")


def say_limits_ahead(draft: Draft, job: Job, joint: Joint, faces: Faces | Missing) -> None:
    """Name the limit of every face that was not read, the papers first, with what others print."""
    read = set() if isinstance(faces, Missing) else {face.face for face in faces.faces}
    for face in ("head", "block"):
        if face not in read:
            _say(draft, job, joint, face)


def _say(draft: Draft, job: Job, joint: Joint, face: str) -> None:
    found = {way: flatness_limit(job, joint, face, way) for way in WAYS}
    told: dict[tuple[str, str], list[str]] = {}
    for way, one in found.items():
        if one.winner is not None:
            says = f"will be held against {_limit(one.winner)}{_others(one)}"
            told.setdefault((says, one.winner.source), []).append(way)
    for (says, source), ways in told.items():
        draft.notes.append(Note(f"{face.capitalize()} face, {' and '.join(ways)}: {says}.", source))


def _limit(limit: Limit) -> str:
    return f"at most {both(limit.high or 0.0, limit.quantity)}"


def _others(found: Picked) -> str:
    others = [f"{_limit(one)} ({spoken(one.source)})" for one in found.rivals if one.rank is not Rank.MEMORY]
    return f"; others print {', '.join(dict.fromkeys(others))}" if others else ""


def gap_of(line: FaceLine) -> str:
    """Write the gap of a line in both families of units, with what the readings allow."""
    gap = f"{both(line.gap, 'face_flatness')} under the edge"
    if line.band is None:
        return gap
    low, high = (both(end, "face_flatness") for end in (line.band.low, line.band.high))
    return f"{gap}, the readings allow {low} to {high}"


def without_limit(faces: Faces) -> str:
    """Say the largest gap where no limit is known for any."""
    lines = [(line, face.face) for face in faces.faces for line in face.lines]
    if not lines:
        return "No book limit is known: find the limit of this engine"
    line, which = max(lines, key=lambda one: one[0].gap)
    gap = both(line.gap, "face_flatness")
    return clip(f"{which.capitalize()} face: {gap} under the edge; no book limit known, find it")
