"""The gap the gasket has to fill at every one of its points: both faces as measured, liners, a ring that stands out."""

from dataclasses import dataclass
from math import hypot

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.findings.faces import FaceFound, Faces
from firedeck.findings.faces import find as find_faces
from firedeck.findings.finding import Findings
from firedeck.findings.joint_said import Said
from firedeck.job import Job, Joint
from firedeck.joint.assumed import assumed
from firedeck.joint.geometry.points import GasketPoints
from firedeck.joint.laws import Floats
from firedeck.surfaces.interpolation import covers, heights_at, sheet
from firedeck.surfaces.plane import least_squares_plane
from firedeck.trace import Missing

DIAL = assumed("dial")
"""What a reading of a face may be off where nobody said [mm]."""


@dataclass(frozen=True)
class Gap:
    """Gap at each gasket point, and by how much what was read may be off at one place, both faces together [mm].

    A short dip that no reading came near is not in it: the check of the faces has to find it.
    """

    at: Floats
    doubt: float


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


def measured_gap(
    of: tuple[Job, Joint], faces: Faces | Missing | None, points: GasketPoints, stands: float, said: Said
) -> Gap:
    """Gap of the joint as it is to run: faces as read where they are not cut any more, liners as read."""
    joint = of[1]
    if faces is None:
        faces = find_faces(*of, Findings(*of, ()))
    gap, doubts = np.zeros(points.count), list[float]()
    for which in ("head", "block"):
        found = None if isinstance(faces, Missing) else faces.face(which)
        heights, doubt = _heights(joint, which, found, points, said)
        gap -= heights
        doubts.append(doubt)
    for place in dict.fromkeys(points.place):
        liner = next((one for one in joint.readings.liners if one.name == place), None)
        if liner is not None and liner.stands:
            mine = _rings(points) & np.array([name == place for name in points.place])
            gap[mine] -= float(np.mean([stand.value for stand in liner.stands]))
    gap[_rings(points)] -= stands
    return Gap(gap, hypot(*doubts))


def _rings(points: GasketPoints) -> np.ndarray:
    return np.array([kind == "ring" for kind in points.kind])


def _heights(
    joint: Joint, which: str, face: FaceFound | None, points: GasketPoints, said: Said
) -> tuple[Floats, float]:
    """Heights of one face at the gasket points over the plane that fits it, and by how much each may be off."""
    planned = joint.cut.head if which == "head" else joint.cut.block
    flat = np.zeros(points.count)
    if planned is not None and planned.value > 0.0 and (face is None or face.when != "after-machining"):
        said(f"{which} face taken as flat after its cut")
        return flat, 0.0
    read = None if face is None else _points(face)
    if face is None or read is None:
        said(f"{which} face taken as flat: " + ("not read" if face is None else "its readings give no shape"))
        return flat, 0.0
    try:
        found = _spread(read, np.column_stack((points.x, points.y)))
    except OutOfRange:
        said(f"{which} face taken as flat: its readings lie on one line")
        return flat, 0.0
    said(f"{which} face as read, {len(read)} places; between them smooth, beyond the outermost as there")
    if face.points or face.allowed is None:
        return found, DIAL if face.error is None else face.error
    return found, float(np.median(face.allowed.high - face.allowed.low) / 2.0)


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


def _book_stand(joint: Joint) -> float | None:
    """Middle of the book's range of liner stand."""
    from firedeck.quantity import Kind, parse

    for limit in joint.limits:
        if limit.quantity == "liner_protrusion" and limit.low and limit.high:
            low, high = (parse(text, Kind.LENGTH).value for text in (limit.low, limit.high))
            return (low + high) / 2.0
    return None
