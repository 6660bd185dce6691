"""The gap the gasket has to fill at every one of its points: both faces as measured, liners, a ring that stands out."""

from dataclasses import dataclass
from math import hypot

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.findings.faces import FaceFound
from firedeck.findings.faces import find as find_faces
from firedeck.findings.finding import Findings
from firedeck.findings.joint_said import Said
from firedeck.job import Job, Joint
from firedeck.joint.geometry.points import GasketPoints
from firedeck.joint.laws import Floats
from firedeck.surfaces.interpolation import covers, heights_at, sheet
from firedeck.surfaces.plane import least_squares_plane
from firedeck.trace import Missing

UNSEEN = {"cut": 0.005, "points": 0.015, "lines": 0.015, "figure": 0.02, "nothing": 0.03}
"""How deep a short dip may be that was not seen, by how the face was read [mm]: fresh from the machine, heights at points
apart, lines with leaves, one figure for a direction, not at all (a leaf of 0.03 mm is the thinnest most sets have)."""


@dataclass(frozen=True)
class Gap:
    """Gap at each gasket point, and how deep a dip may lie there unseen, both faces together [mm]."""

    at: Floats
    dip: float


def flat_gap(joint: Joint, points: GasketPoints, stands: float, said: Said) -> Gap:
    """Gap of the factory's joint: flat faces, every liner as high as the book wants it, or as the mean of them now."""
    gap = np.zeros(points.count)
    read = [stand.value for liner in joint.readings.liners for stand in liner.stands]
    if read:
        wanted = _book_stand(joint)
        stand = wanted if wanted is not None else float(np.mean(read))
        gap[_rings(points)] -= stand
        said(
            f"as it left the factory all liners stood {stand:.3f} mm proud, "
            + ("the middle of the book's range" if wanted is not None else "the mean of what they stand now")
        )
    gap[_rings(points)] -= stands
    said("as it left the factory both faces were flat")
    return Gap(gap, 0.0)


def measured_gap(job: Job, joint: Joint, points: GasketPoints, stands: float, said: Said) -> Gap:
    """Gap of the joint as it is to run: faces as read where they are not cut any more, liners as read."""
    faces = find_faces(job, joint, Findings(job, joint, ()))
    gap, dips = np.zeros(points.count), list[float]()
    for which in ("head", "block"):
        found = None if isinstance(faces, Missing) else faces.face(which)
        heights, how = _heights(joint, which, found, points, said)
        gap -= heights
        dips.append(UNSEEN[how] if how != "allowed" or found is None else _allowed_dip(found))
    for place in dict.fromkeys(points.place):
        liner = next((one for one in joint.readings.liners if one.name == place), None)
        if liner is not None and liner.stands:
            mine = _rings(points) & np.array([name == place for name in points.place])
            gap[mine] -= float(np.mean([stand.value for stand in liner.stands]))
    gap[_rings(points)] -= stands
    return Gap(gap, hypot(*dips))


def _rings(points: GasketPoints) -> np.ndarray:
    return np.array([kind == "ring" for kind in points.kind])


def _heights(
    joint: Joint, which: str, face: FaceFound | None, points: GasketPoints, said: Said
) -> tuple[Floats, str]:
    """Heights of one face at the gasket points over the plane that fits it, and how they were read."""
    planned = joint.cut.head if which == "head" else joint.cut.block
    flat = np.zeros(points.count)
    if planned is not None and planned.value > 0.0 and (face is None or face.when != "after-machining"):
        said(f"{which} face taken as flat after its cut")
        return flat, "cut"
    if face is None:
        said(f"{which} face taken as flat: not read")
        return flat, "nothing"
    read = _points(face)
    if read is None:
        said(f"{which} face taken as flat: its readings give no shape")
        return flat, "figure"
    try:
        found = _spread(read, np.column_stack((points.x, points.y)))
    except OutOfRange:
        said(f"{which} face taken as flat: its readings lie on one line")
        return flat, "figure"
    said(f"{which} face as read, {len(read)} places; beyond the outermost as there")
    return found, "allowed" if face.allowed is not None and not face.points else "points"


def _points(face: FaceFound) -> Floats | None:
    if len(face.points) >= 4:
        return np.array(face.points, dtype=np.float64)
    if face.allowed is None:
        return None
    return np.column_stack((face.allowed.places, face.allowed.heights))


def _spread(read: Floats, places: Floats) -> Floats:
    """Heights over the best plane, straight between readings; beyond them as at the nearest reading."""
    plane = least_squares_plane(read).plane
    level = read.copy()
    level[:, 2] -= plane.at(read[:, :2])
    joined = sheet(level)
    inside = covers(joined, places)
    found = np.empty(len(places))
    if inside.any():
        found[inside] = heights_at(joined, places[inside], "gasket point")
    for place in np.flatnonzero(~inside):
        away = np.hypot(level[:, 0] - places[place, 0], level[:, 1] - places[place, 1])
        found[place] = level[int(away.argmin()), 2]
    return found


def _allowed_dip(face: FaceFound) -> float:
    """Half the width of what the leaves allow, at most places."""
    assert face.allowed is not None
    return float(np.median(face.allowed.high - face.allowed.low) / 2.0)


def _book_stand(joint: Joint) -> float | None:
    """Middle of the book's range of liner stand."""
    from firedeck.quantity import Kind, parse

    for limit in joint.limits:
        if limit.quantity == "liner_protrusion" and limit.low and limit.high:
            low, high = (parse(text, Kind.LENGTH).value for text in (limit.low, limit.high))
            return (low + high) / 2.0
    return None
