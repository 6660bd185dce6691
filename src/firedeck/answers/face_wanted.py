"""What to measure or to look up next where a face cannot be judged yet."""

from collections.abc import Sequence

from firedeck.answers.flatness_limits import of_other_engines
from firedeck.answers.judging import Judged
from firedeck.answers.making import both
from firedeck.findings.face_line import FaceLine
from firedeck.findings.faces import FaceFound
from firedeck.job import Joint
from firedeck.job.paths import join_path
from firedeck.trace import Missing

WAYS = {"any": "whichever way the edge lies", "diagonal": "from corner to corner"}
"""How a direction is said where the word alone would read badly."""


def find_limit(joint: Joint, face: FaceFound, direction: str) -> Missing:
    """Say where a flatness limit is found, and what the books of other engines print."""
    return Missing(
        paths=(f"joint.{joint.name}.limits",),
        measure=f"flatness limit of the {face.face} {WAYS.get(direction, direction)}: no book limit known",
        tool="the engine's manual or the sheet with the gasket",
        how="Look under cylinder head, inspection; note page, direction and whether it is a gap under the edge. "
        + of_other_engines(face.face, direction),
    )


def which_limit(joint: Joint, face: FaceFound) -> Missing:
    """Ask for the engine's own book where general sources disagree."""
    return Missing(
        paths=(f"joint.{joint.name}.limits",),
        measure=f"flatness limit of the {face.face} in this engine's own book: general sources of one rank disagree",
        tool="the engine's manual or the sheet with the gasket",
        how="Look under cylinder head, inspection; note page, direction and whether it is a gap under the edge.",
    )


def finer_leaf(joint: Joint, face: FaceFound, line: FaceLine, judged: Judged) -> Missing:
    """Name the leaf that settles a line."""
    limit = judged.check.limit
    leaf = both(limit.high, "face_flatness") if limit and limit.high is not None else "of the limit"
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "faces", face.name)),),
        measure=f"the gap {'' if line.span else 'on '}{line.name}, with a leaf of {leaf}",
        tool="feeler leaf or foil of the limit's thickness",
        how="Try the leaf of the limit itself at the same place: if it enters the face is out there, if it stops it is in.",
    )


def leaf_that_stops(joint: Joint, face: str, line: str) -> Missing:
    """Ask for the leaf that stops where only those that go were written down."""
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "faces")),),
        measure=f"the thinnest leaf that stops on {line} of the {face} face: only what goes was written down",
        tool="straightedge and leaves, two together where one is too thin",
        how="Go up leaf by leaf at the same place until one does not enter; how much has to come off hangs on it.",
    )


def which_way(joint: Joint, face: FaceFound) -> Missing:
    """Ask which way the edge lay where the limits differ by it."""
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "faces", face.name)),),
        measure=f"which way the edge lay at the largest gap of the {face.face} face: along or across",
        tool="straightedge and leaves",
        how="Write it as largest_gap_along and largest_gap_across: the two limits differ.",
    )


def lay_again(joint: Joint, face: FaceFound) -> Missing:
    """Ask for lines that stood on something else once more."""
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "faces", face.name, "lines")),),
        measure=f"{', '.join(face.spoilt)} once more: the edge stood on something that is not the face",
        tool="straightedge and leaves",
        how="Take off raised thread mouths and burrs with a fine stone, pull dowels or keep clear of liners, lay again.",
    )


def lay_on_leaves(joint: Joint, face: FaceFound) -> Missing:
    """Ask for lines on which the edge rocked to be laid on two equal leaves."""
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "faces", face.name, "lines")),),
        measure=f"{', '.join(face.rocked)} once more, the edge laid on two equal leaves at its ends",
        tool="straightedge and leaves, two of one thickness",
        how="The thinnest pair that lets a leaf in everywhere: nothing rocks then, and a crown shows as well as a hollow.",
    )


def lay_the_rest(joint: Joint, face: FaceFound, ways: Sequence[str]) -> Missing:
    """Ask for the ways in which the edge has not been laid yet."""
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "faces", face.name, "lines")),),
        measure=f"the {face.face} face {' and '.join(ways)}: it was not laid that way yet",
        tool="straightedge and leaves",
        how="Along both edges and the middle, across the ends and every bridge, both diagonals.",
    )


def clean_and_lay(joint: Joint, face: FaceFound, says: str) -> Missing:
    """Ask for a line that does not fit the others once more."""
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "faces", face.name, "lines")),),
        measure=says,
        tool="straightedge and leaves",
        how="Wipe edge, leaves and face, feel for grit and burrs where the edge stands, lay the line again. "
        "Until then it has no say in the face.",
    )


def lay_next(joint: Joint, face: FaceFound, says: str) -> Missing:
    """Name a laying that tells most."""
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "faces", face.name, "lines")),),
        measure=says,
        tool="straightedge and leaves",
        how="The faces that the leaves still allow differ most there; end leaves keep the edge from rocking.",
    )
