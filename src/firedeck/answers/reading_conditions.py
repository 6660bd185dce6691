"""How a face was read, and what each condition, ticked or not, and each tool means for the figures."""

from collections.abc import Iterator, Sequence

from firedeck.answers.making import Draft, both
from firedeck.findings.faces import FaceFound, Faces
from firedeck.job import Job
from firedeck.job.paths import join_path
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
    by_edge = [face for face in faces.faces if any(line.by in BY_EDGE for line in face.lines)]
    if by_edge:
        _say_of_edge(draft, job, by_edge)


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


def _say_of_edge(draft: Draft, job: Job, faces: Sequence[FaceFound]) -> None:
    """Name what the edge and the leaves themselves put into a reading."""
    tools = job.document.tools
    draft.assumptions.append(
        "a leaf that sticks reads up to 0.005 mm (0.0002 in) too little; feel each one slide"
    )
    if tools.straightedge_height is None:
        draft.assumptions.append(
            "edge taken as stiff: one 25 mm high sags 0.002 mm over 400 mm and 0.012 mm over 600 mm, so hollows read less"
        )
    draft.assumptions.extend(
        _true_to(face) for face in faces if face.edge_true_to is not None or face.allowed
    )
    unsaid = [face for face in faces if face.edge_true_to is None]
    if tools.straightedge != "checked" and unsaid:
        if any(face.allowed is None for face in unsaid):
            draft.assumptions.append(
                "the straightedge itself has not been checked: its own error is not in the figures"
            )
        draft.need(
            Missing(
                paths=("tools.straightedge", "tools.straightedge_error", *_said_at(draft, unsaid)),
                measure="how true the straightedge is",
                tool="a surface plate at the shop, or two more edges",
                how="Light or the thinnest foil between edge and plate; or three edges held together in pairs: if all three "
                "pairs close, all are true. Turning one end for end does not show its bow.",
            )
        )


def _true_to(face: FaceFound) -> str:
    """Say how true the edge was taken to be, and whether anybody said so."""
    true_to = both(face.taken_true_to, "edge_true_to")
    if face.edge_true_to is not None:
        return f"{face.face} face: edge true to {true_to} over its length, as written: it is in the band"
    return (
        f"{face.face} face: edge taken as true to {true_to} over its length, our own assumption: it is in the band, and one "
        "that was checked to less makes it narrower"
    )


def _said_at(draft: Draft, faces: Sequence[FaceFound]) -> Iterator[str]:
    """Name where a set says how true its edge is."""
    assert draft.joint is not None
    for face in faces:
        yield join_path(("joint", draft.joint.name, "readings", "faces", face.name, "edge_true_to"))
