"""face-flat: the gap under the edge of each face, judged by the limit that was written for it."""

from firedeck.answers.answer import Answer, Working
from firedeck.answers.flatness_limits import flatness_limit
from firedeck.answers.judging import Judged, disputed, judge
from firedeck.answers.making import Draft, both, worst
from firedeck.answers.reading_conditions import say_how_taken
from firedeck.findings.face_line import FaceLine
from firedeck.findings.faces import FaceFound, Faces, unread
from firedeck.findings.finding import Findings
from firedeck.findings.rings import Rings
from firedeck.job import Job, Joint
from firedeck.tables import Picked
from firedeck.trace import COMMON_PRACTICE, Check, Missing, Note, Outcome, Step

QUESTION = "face-flat"
DIRECTIONS = ("along", "across", "diagonal")


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge every line of both faces; a face nobody read leaves the answer open."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    faces = found.get(Faces)
    _say_of_light(draft, joint)
    if isinstance(faces, Missing):
        light = "Light or blue alone is not a reading: lay the edge on each face"
        return draft.open(
            light if draft.notes else "Neither face has been read yet", faces, unread(joint, "block")
        )
    for face in faces.faces:
        _judge_face(draft, job, joint, face)
    draft.need(*faces.missing)
    say_how_taken(draft, job, faces)
    _say_shapes(draft, faces)
    rings = found.get(Rings)
    if draft.checks and not isinstance(rings, Missing):
        _say_what_the_seal_meets(draft, rings)
    return _ending(draft, faces)


def _say_of_light(draft: Draft, joint: Joint) -> None:
    if any(face.light for face in joint.readings.faces):
        says = "Light under a bare head on a bare block shows the sum of both faces, neither for itself."
        draft.notes.append(Note(says, COMMON_PRACTICE))
    for face in joint.readings.faces:
        if face.blue:
            says = (
                f"Marking blue on the {face.face} face ({face.blue.replace('-', ' ')}) shows where it touches the plate, "
                "not how deep the rest lies: lay the edge over what stayed bare."
            )
            draft.notes.append(Note(says, COMMON_PRACTICE))


def _judge_face(draft: Draft, job: Job, joint: Joint, face: FaceFound) -> None:
    for direction in DIRECTIONS:
        lines = face.lines_of(direction)
        if lines:
            worst_line = max(lines, key=lambda line: line.gap)
            _judge_line(draft, joint, face, worst_line, flatness_limit(job, joint, face.face, direction))
        for span in face.spans():
            limit = flatness_limit(job, joint, face.face, direction, span)
            short = face.lines_of(direction, span)
            if short and limit.winner is not None:
                _judge_line(draft, joint, face, max(short, key=lambda line: line.gap), limit)
    if face.shops_word is not None:
        _take_the_shops_word(draft, job, joint, face, face.shops_word)
    if face.spoilt:
        draft.need(_lay_again(joint, face))
    draft.need(*(_clean_and_lay(joint, face, says) for says in face.disagree))
    if face.allowed is not None:
        _say_what_is_allowed(draft, joint, face)


def _take_the_shops_word(draft: Draft, job: Job, joint: Joint, face: FaceFound, word: Step) -> None:
    """A shop that measured and said over or within is taken at its word, and asked for the figure."""
    limit = flatness_limit(job, joint, face.face, "any").winner
    outcome = Outcome.FAILS if face.found_by_shop == "over-limit" else Outcome.HOLDS
    name = f"{face.face} face, as the shop found it"
    text = face.found_by_shop.replace("-", " the ")
    draft.add_check(Check(name, "face_flatness", None, outcome, limit, text=text), (word,), COMMON_PRACTICE)
    if limit is not None:
        draft.source(limit.source)
    draft.assumptions.append(f"{face.face} face: the shop's word, without its figure")
    draft.need(unread(joint, face.face))


def _judge_line(draft: Draft, joint: Joint, face: FaceFound, line: FaceLine, limit: Picked) -> None:
    if limit.winner is None:
        draft.need(_find_limit(joint, face, line.direction))
        return
    name = f"{face.face} face, {line.name}"
    judged = disputed(judge(name, "face_flatness", line.gap, limit, line.band))
    draft.add(judged, (line.step, *line.more))
    if judged.outcome is Outcome.CANNOT_TELL and face.allowed is None:
        draft.need(_which_limit(joint, face) if judged.differ else _finer_leaf(joint, face, line, judged))


def _say_what_is_allowed(draft: Draft, joint: Joint, face: FaceFound) -> None:
    """Say how flat the face may be by any tilt, what was not seen, and where to lay while a limit is in doubt."""
    allowed = face.allowed
    assert allowed is not None
    zone = allowed.flatness
    low, high = (both(end, "minimum_zone") for end in (zone.low, zone.high))
    draft.assumptions.append(
        f"{face.face} face: smallest out-of-flat by any tilt {both(zone.value, 'minimum_zone')}, the leaves "
        f"allow {low} to {high}, for information"
    )
    dark = int((~allowed.seen).sum())
    if dark:
        draft.assumptions.append(
            f"{face.face} face: {dark} of {allowed.seen.size} places lie away from every leaf that was tried; "
            "a dip there is not seen"
        )
    doubt = any(
        check.outcome is Outcome.CANNOT_TELL and check.name.startswith(face.face) for check in draft.checks
    )
    draft.need(*(_lay_next(joint, face, says) for says in face.lay_next if doubt))


def _ending(draft: Draft, faces: Faces) -> Answer:
    if not draft.checks:
        return draft.open("The gap is known, no book limit is: find the limit of this engine")
    bad = worst(draft.checks)
    draft.notes.append(
        Note(
            "Long bow that pulls flat under the bolts is still out: cam tunnel and heat movement.",
            COMMON_PRACTICE,
        )
    )
    draft.anyway = (
        "A short dip at a ring leaks first there; a bow leaves the cam tunnel bent. Watch for gas in the coolant "
        "and a hose that goes hard cold. Undoing it costs a second gasket and set of bolts."
    )
    if bad.value is None:
        return _by_word(draft, faces, bad)
    gap = both(bad.value, "face_flatness")
    match bad.outcome:
        case Outcome.FAILS:
            return draft.decided(_action(draft, bad.name), _headline(bad.name, gap, "over the limit"))
        case Outcome.AT_LIMIT:
            return draft.close("leave", _headline(bad.name, gap, "exactly at the limit"))
        case Outcome.CANNOT_TELL:
            return draft.close("leave", _headline(bad.name, gap, _why_not_told(bad)))
    if faces.missing:
        return draft.open(f"{faces.faces[0].face.capitalize()} is in, the other face has not been read")
    return draft.decided("leave", f"Both faces are in: worst is {bad.name.split(',')[0]}, {gap}")


def _by_word(draft: Draft, faces: Faces, bad: Check) -> Answer:
    """End where a shop's word is the worst there is."""
    where = bad.name.split(",", maxsplit=1)[0].capitalize()
    if bad.outcome is Outcome.FAILS:
        return draft.decided(_action(draft, bad.name), f"{where}: over the limit as the shop found it")
    if faces.missing:
        return draft.open(f"{where} is in as the shop found it, the other face has not been read")
    return draft.decided("leave", f"Both faces are in; {where.lower()} by the shop's word only")


def _headline(name: str, gap: str, how: str) -> str:
    return f"{name.split(',', maxsplit=1)[0].capitalize()}: {gap} under the edge, {how}"


def _action(draft: Draft, name: str) -> str:
    """A bent alloy head with a cam tunnel in it is straightened before it is cut."""
    joint = draft.joint
    assert joint is not None
    if name.startswith("head") and joint.head.cam_tunnel == "binds":
        return "straighten-first"
    return "cut"


def _why_not_told(bad: Check) -> str:
    """Say why a check cannot be told: the band holds the limit, or two sources of one rank disagree."""
    held = bad.band is not None and bad.limit is not None and bad.band.straddles(bad.limit)
    return "the readings hold the limit" if held else "sources disagree"


def _say_shapes(draft: Draft, faces: Faces) -> None:
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


SHAPES = {"long_bow": "long bow", "cross_bow": "cross bow", "twist": "twist"}


def _say_what_the_seal_meets(draft: Draft, rings: Rings) -> None:
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


def _find_limit(joint: Joint, face: FaceFound, direction: str) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.limits",),
        measure=f"flatness limit of the {face.face} {direction}: no book limit known",
        tool="the engine's manual or the sheet with the gasket",
        how="Look under cylinder head, inspection; note page, direction and whether it is a gap under the edge.",
    )


def _which_limit(joint: Joint, face: FaceFound) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.limits",),
        measure=f"flatness limit of the {face.face} in this engine's own book: general sources of one rank disagree",
        tool="the engine's manual or the sheet with the gasket",
        how="Look under cylinder head, inspection; note page, direction and whether it is a gap under the edge.",
    )


def _finer_leaf(joint: Joint, face: FaceFound, line: FaceLine, judged: Judged) -> Missing:
    limit = judged.check.limit
    leaf = both(limit.high, "face_flatness") if limit and limit.high is not None else "of the limit"
    return Missing(
        paths=(f"joint.{joint.name}.readings.faces.{face.name}",),
        measure=f"the gap on {line.name} with a leaf of {leaf}",
        tool="feeler leaf or foil of the limit's thickness",
        how="Try the leaf of the limit itself at the same place: if it enters the face is out there, if it stops it is in.",
    )


def _lay_again(joint: Joint, face: FaceFound) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.readings.faces.{face.name}.lines",),
        measure=f"{', '.join(face.spoilt)} once more: the edge stood on something that is not the face",
        tool="straightedge and leaves",
        how="Take off raised thread mouths and burrs with a fine stone, pull dowels or keep clear of liners, lay again.",
    )


def _clean_and_lay(joint: Joint, face: FaceFound, says: str) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.readings.faces.{face.name}.lines",),
        measure=says,
        tool="straightedge and leaves",
        how="Wipe edge, leaves and face, feel for grit and burrs where the edge stands, lay the line again. "
        "Until then it has no say in the face.",
    )


def _lay_next(joint: Joint, face: FaceFound, says: str) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.readings.faces.{face.name}.lines",),
        measure=says,
        tool="straightedge and leaves",
        how="The faces that the leaves still allow differ most there; end leaves keep the edge from rocking.",
    )
