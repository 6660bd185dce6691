"""What marking blue says of a face: bounds with a film of known thickness, words only without."""

from collections.abc import Iterator

from firedeck.answers.answer import Working
from firedeck.answers.flatness_limits import flatness_limit
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both
from firedeck.findings.blue import BlueFound, Spot
from firedeck.findings.faces import FaceFound
from firedeck.job import Job, Joint
from firedeck.job.paths import join_path
from firedeck.job.schema.readings import FaceReadings
from firedeck.trace import COMMON_PRACTICE, Band, Check, Missing, Note, Outcome

TAKES = {"all-round": "takes all round", "parts": "takes in parts only", "nowhere": "takes nowhere"}


def say_of_patterns(draft: Draft, joint: Joint) -> None:
    """Say of a pattern without a film that it is no figure, and ask for the film."""
    for face in joint.readings.faces:
        if face.blue and (face.touched is None or face.touched.film is None):
            draft.notes.append(Note(_pattern_only(face), COMMON_PRACTICE))


def _pattern_only(face: FaceReadings) -> str:
    assert face.blue is not None
    return (
        f"Marking blue on the {face.face} face ({face.blue.replace('-', ' ')}) shows where it touches the plate, "
        "not how deep the rest lies: say how thick the film is, or lay the edge over what stayed bare."
    )


def judge_blue(draft: Draft, job: Job, joint: Joint, face: FaceFound) -> None:
    """Judge a face that took blue all over; say what rings and single places tell, and where the blue is contradicted."""
    blue = face.blue
    if blue is None or blue.within is None or blue.beyond is None:
        return
    if blue.even:
        _judge_even(draft, job, joint, face, blue)
    elif not face.lines:
        _judge_bare(draft, job, joint, face, blue)
    name = next((one.name for one in draft.checks if one.name.startswith(face.face)), "")
    told = [*_of_rings(face, blue), *_of_places(face, blue)]
    draft.assumptions.extend(told)
    if told and name:
        draft.steps.extend(Working(name, step) for step in (blue.within, blue.beyond))
    if blue.bare and face.allowed is None and not face.points:
        draft.need(_lay_over(joint, face, blue))
    if face.blue_otherwise:
        draft.need(_once_more(joint, face))


def _judge_even(draft: Draft, job: Job, joint: Joint, face: FaceFound, blue: BlueFound) -> None:
    assert blue.within is not None
    band = Band(0.0, blue.within.value, 1.0, "no more than the film and the error of the plate")
    for way in ("along", "across"):
        limit = flatness_limit(job, joint, face.face, way)
        if limit.winner is not None:
            name = f"{face.face} face, {way}, took blue all over: at most"
            draft.add(judge(name, "face_flatness", blue.within.value, limit, band), (blue.within,))


def _judge_bare(draft: Draft, job: Job, joint: Joint, face: FaceFound, blue: BlueFound) -> None:
    """A face known by its blue only, with places bare: further off than the film, how far nobody knows."""
    assert blue.beyond is not None
    limit = flatness_limit(job, joint, face.face, "any").winner
    text = f"more than {both(blue.beyond.value, 'face_flatness')} where it stayed bare, not told how deep"
    name = f"{face.face} face by blue"
    check = Check(name, "face_flatness", None, Outcome.CANNOT_TELL, limit, text=text)
    draft.add_check(check, (blue.beyond,), limit.source if limit else COMMON_PRACTICE)


def _of_rings(face: FaceFound, blue: BlueFound) -> Iterator[str]:
    assert blue.within is not None
    assert blue.beyond is not None
    for cylinder, how in blue.rings.items():
        says = f"{face.face} face, ring of cylinder {cylinder}: blue {TAKES[how]}"
        if how == "all-round":
            yield f"{says}, so it lies within {both(blue.within.value, 'face_flatness')} of the {blue.against} all along it"
        elif how == "parts":
            yield f"{says}, the rest lies more than {both(blue.beyond.value, 'face_flatness')} below the {blue.against}"
        else:
            yield f"{says}, all of it lies more than {both(blue.beyond.value, 'face_flatness')} below the {blue.against}"


def _of_places(face: FaceFound, blue: BlueFound) -> Iterator[str]:
    assert blue.beyond is not None
    if blue.bare:
        yield (
            f"{face.face} face: bare of blue at {_said(blue.bare)}, more than "
            f"{both(blue.beyond.value, 'face_flatness')} below the {blue.against} there"
        )
    for one in face.blue_otherwise:
        yield (
            f"{face.face} face: blue {'takes' if one.takes else 'stays bare'} at {one.spot.says}, but the readings put the "
            f"face {both(one.gap, 'face_flatness')} below a plate there: one of the two is wrong"
        )


def _said(spots: tuple[Spot, ...]) -> str:
    return " and ".join(spot.says for spot in spots)


def _path(joint: Joint, face: FaceFound, *more: str) -> str:
    return join_path(("joint", joint.name, "readings", "faces", face.name, *more))


def _lay_over(joint: Joint, face: FaceFound, blue: BlueFound) -> Missing:
    return Missing(
        paths=(_path(joint, face, "lines"),),
        measure=f"the gap where the {face.face} stayed bare of blue, {_said(blue.bare)}",
        tool="straightedge and feeler leaves",
        how="Lay the edge along and across over the bare place; blue tells that it is low, the leaf how low.",
    )


def _once_more(joint: Joint, face: FaceFound) -> Missing:
    return Missing(
        paths=(_path(joint, face, "touched"), _path(joint, face, "lines")),
        measure=f"blue on the {face.face} face once more, and the edge over the same places: they disagree",
        tool="plate and blue, straightedge and leaves",
        how="Clean both, rub the blue thinner, lower the part straight and do not rock it: a rocked part smears blue "
        "where it does not lie.",
    )
