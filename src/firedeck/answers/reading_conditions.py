"""How a face was read, and what each condition, ticked or not, and each tool means for the figures."""

from collections.abc import Iterator

from firedeck.answers.making import Draft
from firedeck.findings.faces import FaceFound, Faces
from firedeck.job import Job
from firedeck.quantity import Kind, show
from firedeck.tables import rows
from firedeck.trace import Missing

BY_EDGE = {
    "leaves": "",
    "foil": "",
    "paper": "read with paper: soft, it grips a little before the gap is as thin as it is",
    "light": "read by light beside slits of known width: from about 0.002 mm light shows at all, its width is judged by eye",
}
"""What is read under an edge, and what there is to say of it."""

ROOM = (15.0, 25.0)
"""Within this nobody asks for the temperature [°C]."""


def say_how_taken(draft: Draft, job: Job, faces: Faces) -> None:
    """Say of each face what its conditions mean, and of edge, leaves and instrument how far they may be out."""
    for face in faces.faces:
        said = [*_of_conditions(face), *_of_temperature(face), *_of_instrument(face)]
        draft.assumptions.extend(f"{face.face} face: {line}" for line in said)
    if any(line.by in BY_EDGE for face in faces.faces for line in face.lines):
        _say_of_edge(draft, job)


def _of_conditions(face: FaceFound) -> Iterator[str]:
    if face.shops_word is not None:
        return
    for row in rows("reading_conditions"):
        ticked = row["word"] in face.conditions
        if row["part"] in ("", face.face) and ticked == (row["when"] == "given"):
            yield row["says"]


def _of_temperature(face: FaceFound) -> Iterator[str]:
    if face.temperature is not None and not ROOM[0] <= face.temperature <= ROOM[1]:
        yield (
            f"read at {show(face.temperature, Kind.TEMPERATURE, 'mm')}: part and tools must have stood together "
            "until both were at that temperature"
        )


def _of_instrument(face: FaceFound) -> Iterator[str]:
    if face.points and face.error is None:
        yield "not said how far the instrument may be out: its readings are taken as true"
    for by in dict.fromkeys(line.by for line in face.lines):
        if BY_EDGE.get(by):
            yield BY_EDGE[by]
        elif by == "bridge-dial":
            yield "read with a dial between two feet: a nought set wrongly bends the whole line, it is in the band"
        elif by in ("autocollimator", "level"):
            yield f"read with {'an' if by[0] == 'a' else 'a'} {by} on a foot: what lies under the foot is not seen"
    if face.points:
        yield "dips narrower than the points are apart are not seen"


def _say_of_edge(draft: Draft, job: Job) -> None:
    """Name what the edge and the leaves themselves put into a reading."""
    tools = job.document.tools
    draft.assumptions.append(
        "a leaf that sticks reads up to 0.005 mm (0.0002 in) too little; feel each one slide"
    )
    if tools.straightedge_height is None:
        draft.assumptions.append(
            "edge taken as stiff: one 25 mm high sags 0.002 mm over 400 mm and 0.012 mm over 600 mm, so hollows read less"
        )
    if tools.straightedge != "checked" and tools.straightedge_error is None:
        draft.assumptions.append(
            "the straightedge itself has not been checked: its own error is not in the figures"
        )
        draft.need(
            Missing(
                paths=("tools.straightedge", "tools.straightedge_error"),
                measure="how true the straightedge is",
                tool="a surface plate at the shop, or two more edges",
                how="Light or the thinnest foil between edge and plate; or three edges held together in pairs: if all three "
                "pairs close, all are true. Turning one end for end does not show its bow.",
            )
        )
