"""face-flat: the gap under the edge of each face, judged by the limit that was written for it."""

import math
from collections.abc import Sequence
from dataclasses import replace

from firedeck.answers.answer import Answer
from firedeck.answers.blue import judge_blue, say_of_patterns
from firedeck.answers.counting import clip
from firedeck.answers.face_extras import say_both_added, say_shapes, say_what_the_seal_meets
from firedeck.answers.face_wanted import (
    clean_and_lay,
    find_limit,
    finer_leaf,
    lay_again,
    lay_next,
    lay_on_leaves,
    lay_the_rest,
    which_limit,
    which_way,
)
from firedeck.answers.flatness_limits import flatness_limit
from firedeck.answers.judging import Judged, disputed, judge
from firedeck.answers.limits_ahead import gap_of, say_limits_ahead, without_limit
from firedeck.answers.making import Draft, both, worst
from firedeck.answers.reading_conditions import say_how_taken
from firedeck.findings.face_line import ANY, FaceLine
from firedeck.findings.faces import FaceFound, Faces, unread
from firedeck.findings.finding import Findings
from firedeck.findings.rings import Rings
from firedeck.job import Job, Joint
from firedeck.tables import Picked
from firedeck.trace import COMMON_PRACTICE, NO_UNIT, Check, Limit, Missing, Note, Outcome, Rank, Step

QUESTION = "face-flat"
DIRECTIONS = ("along", "across", "diagonal")
HANGS = "over the tighter limit: along or across?"
UNSEEN = {"along": "long bow and twist", "across": "cross bow and twist"}
"""What a face that was not read in a direction does not show."""
OF_THE_PAPERS = (Rank.BULLETIN, Rank.PART_SHEET, Rank.MANUAL)


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge every line of both faces; a face nobody read leaves the answer open."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    faces = found.get(Faces)
    _say_of_light(draft, joint)
    light = "Light or blue alone is not a reading: lay the edge on each face"
    unread_yet = light if draft.notes else "Neither face has been read yet"
    say_limits_ahead(draft, job, joint, faces)
    if isinstance(faces, Missing):
        return draft.open(unread_yet, faces, unread(joint, "block"))
    for face in faces.faces:
        _judge_face(draft, job, joint, face)
    draft.need(*faces.missing)
    say_how_taken(draft, job, faces)
    say_shapes(draft, faces)
    rings = found.get(Rings)
    if draft.checks and not isinstance(rings, Missing):
        say_what_the_seal_meets(draft, rings)
    say_both_added(draft, job, joint, faces)
    return _ending(draft, faces)


def _say_of_light(draft: Draft, joint: Joint) -> None:
    if any(face.light for face in joint.readings.faces):
        says = "Light under a bare head on a bare block shows the sum of both faces, neither for itself."
        draft.notes.append(Note(says, COMMON_PRACTICE))
    say_of_patterns(draft, joint)


def _judge_face(draft: Draft, job: Job, joint: Joint, face: FaceFound) -> None:
    for direction in DIRECTIONS:
        lines = face.lines_of(direction)
        for line in _worst_and_open(lines):
            _judge_line(draft, joint, face, line, flatness_limit(job, joint, face.face, direction))
        for span in face.spans():
            limit = flatness_limit(job, joint, face.face, direction, span)
            short = face.lines_of(direction, span)
            if short and limit.winner is not None:
                _judge_line(draft, joint, face, max(short, key=lambda line: line.gap), limit)
    for line in face.lines_of(ANY):
        _judge_whichever_way(draft, job, joint, face, line)
    judge_blue(draft, job, joint, face)
    if face.shops_word is not None:
        _take_the_shops_word(draft, job, joint, face, face.shops_word)
    if face.spoilt:
        draft.need(lay_again(joint, face))
    lacking = not_laid(face)
    if lacking:
        _say_what_is_not_known(draft, job, joint, face, lacking)
    if face.rocked:
        draft.need(lay_on_leaves(joint, face))
        draft.assumptions.append(
            f"{face.face} face: the edge rocked on {', '.join(face.rocked)}: on a crown leaves show little of what it is"
        )
    if face.unused:
        draft.assumptions.append(
            f"{face.face} face: judged by the set {face.name!r}; {', '.join(face.unused)} of the same face and time "
            "is not in it: write lines and points into one set"
        )
    if face.unmapped:
        draft.assumptions.append(
            f"{face.face} face: each line stands for itself, the whole face cannot be worked out: {face.unmapped}"
        )
    draft.need(*(clean_and_lay(joint, face, says) for says in face.disagree))
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


def not_laid(face: FaceFound) -> list[str]:
    """Name the ways in which a face that was read was not read."""
    if face.allowed is not None or not face.lines or face.lines_of(ANY):
        return []
    return [way for way in UNSEEN if not face.lines_of(way)]


def _say_what_is_not_known(
    draft: Draft, job: Job, joint: Joint, face: FaceFound, lacking: Sequence[str]
) -> None:
    """Say what one direction alone cannot know; a limit that asks for the other too cannot be told."""
    draft.need(lay_the_rest(joint, face, lacking))
    for way in lacking:
        draft.assumptions.append(
            f"{face.face} face: not read {way}, so {UNSEEN[way]} is not known; it is in only where it was read"
        )
        limit = flatness_limit(job, joint, face.face, way).winner
        if limit is not None and limit.rank in OF_THE_PAPERS:
            counted = Step.work_out(
                f"Lines of the {face.face} face read {way}",
                "lines",
                {"lines": (0.0, NO_UNIT)},
                ("read", NO_UNIT),
                COMMON_PRACTICE,
            )
            name = f"{face.face} face, {way}"
            text = f"not read {way}, and the limit asks for it"
            check = Check(name, "face_flatness", None, Outcome.CANNOT_TELL, limit, text=text)
            draft.add_check(check, (counted,), limit.source)


def _judge_line(draft: Draft, joint: Joint, face: FaceFound, line: FaceLine, limit: Picked) -> None:
    if limit.winner is None:
        draft.need(find_limit(joint, face, line.direction))
        draft.assumptions.append(f"{face.face} face, {line.name}: {gap_of(line)}; no limit for it")
        return
    judged = _judged(face, line, limit)
    if line.open_above:
        judged = replace(judged, check=replace(judged.check, band=None, text=_at_least(line)))
    draft.add(judged, (line.step, *line.more))
    if judged.outcome is Outcome.CANNOT_TELL and face.allowed is None:
        draft.need(which_limit(joint, face) if judged.differ else finer_leaf(joint, face, line, judged))


def _worst_and_open(lines: Sequence[FaceLine]) -> list[FaceLine]:
    """Return the line with the largest gap, and those on which nothing stopped: they may be larger still."""
    worst = max(lines, key=lambda line: line.gap, default=None)
    return [line for line in lines if line is worst or line.open_above]


def _at_least(line: FaceLine) -> str:
    return f"{AT_LEAST} {both(line.gap, 'face_flatness')}: nothing stopped"


AT_LEAST = "at least"
"""How a gap is said that is known from below only."""


def _judged(face: FaceFound, line: FaceLine, limit: Picked) -> Judged:
    return disputed(judge(f"{face.face} face, {line.name}", "face_flatness", line.gap, limit, line.band))


def _judge_whichever_way(draft: Draft, job: Job, joint: Joint, face: FaceFound, line: FaceLine) -> None:
    """Hold a gap of unsaid direction against the tighter limit; between two limits it hangs on the direction."""
    limits = [flatness_limit(job, joint, face.face, way) for way in UNSEEN]
    tight, loose = sorted(limits, key=lambda one: _most(one.winner))
    between = loose.winner is not None and line.gap <= _most(loose.winner)
    if tight.winner is not None and between:
        judged = _judged(face, line, tight)
        if judged.outcome is Outcome.FAILS:
            check = replace(judged.check, outcome=Outcome.CANNOT_TELL, text=HANGS)
            draft.add(replace(judged, check=check), (line.step, *line.more))
            draft.need(which_way(joint, face))
            return
    _judge_line(draft, joint, face, line, tight)


def _most(limit: Limit | None) -> float:
    return math.inf if limit is None or limit.high is None else limit.high


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
    draft.need(*(lay_next(joint, face, says) for says in face.lay_next if doubt))


def _ending(draft: Draft, faces: Faces) -> Answer:
    if not draft.checks:
        return draft.open(without_limit(faces))
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
    if bad.value is None and bad.outcome is Outcome.CANNOT_TELL:
        return draft.open(_not_read(draft, bad))
    if bad.value is None:
        return _by_word(draft, faces, bad)
    gap = both(bad.value, "face_flatness")
    match bad.outcome:
        case Outcome.FAILS:
            return draft.decided(_action(draft, bad.name), _headline(bad.name, gap, "over the limit"))
        case Outcome.AT_LIMIT:
            return draft.close("leave", _headline(bad.name, gap, "exactly at the limit"))
        case Outcome.CANNOT_TELL if bad.text.startswith(AT_LEAST):
            return draft.open(clip(_headline(bad.name, f"{AT_LEAST} {gap}", "no leaf stopped")))
        case Outcome.CANNOT_TELL if bad.text == HANGS:
            return draft.open(clip(_headline(bad.name, gap, HANGS)))
        case Outcome.CANNOT_TELL:
            return draft.close("leave", _headline(bad.name, gap, _why_not_told(bad)))
    if faces.missing:
        return draft.open(f"{faces.faces[0].face.capitalize()} is in, the other face has not been read")
    where = " where they were read" if any(not_laid(face) for face in faces.faces) else ""
    return draft.decided("leave", f"Both faces are in{where}: worst is {bad.name.split(',')[0]}, {gap}")


def _not_read(draft: Draft, bad: Check) -> str:
    """Say what is not read yet, beside the worst that is."""
    read = [check for check in draft.checks if check.value is not None]
    start = f"{bad.name.split(',', maxsplit=1)[0].capitalize()}: {bad.text.split(',', maxsplit=1)[0]}"
    if not read:
        return clip(start)
    most = worst(read)
    return clip(f"{start}; worst read: {most.name.split(',')[0]}, {both(most.value or 0.0, 'face_flatness')}")


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
