"""The dip each sealing ring has to follow on each face, and both faces together: extra figures, no limit of a book."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from firedeck.errors import OutOfRange
from firedeck.findings.faces import Faces
from firedeck.findings.finding import Findings
from firedeck.findings.ring_band import ring_bands
from firedeck.job import Job, Joint
from firedeck.job.frame import Place, layout_frame
from firedeck.surfaces.both import gap_field
from firedeck.surfaces.points import Array
from firedeck.surfaces.ring import ring_dip
from firedeck.trace import Missing, Step

LEAST_DIP = 0.001
"""A dip along a ring that is smaller is not spoken of [mm]."""


@dataclass(frozen=True)
class RingOnFace:
    """Highest less lowest round the ring of one cylinder on one face, any tilt taken out [mm]."""

    face: str
    cylinder: str
    diameter: float
    dip: Step
    lowest_at: Place


@dataclass(frozen=True)
class Rings:
    """The dips along the rings, and the largest gap between both bare faces where both were read."""

    id: ClassVar[str] = "rings"
    dips: tuple[RingOnFace, ...]
    together: Step | None
    together_at: Place | None

    def worst(self, face: str) -> RingOnFace | None:
        """Return the ring with the largest dip of one face, if any can be measured."""
        felt = [ring for ring in self.dips if ring.face == face and ring.dip.value >= LEAST_DIP]
        return max(felt, key=lambda ring: ring.dip.value, default=None)


def find(_job: Job, joint: Joint | None, found: Findings) -> Rings | Missing:
    """Follow every ring on every face that is known by points or by enough lines."""
    assert joint is not None
    faces = found.get(Faces)
    if isinstance(faces, Missing):
        return faces
    known = {face.face: points for face in faces.faces if (points := face.heights()) is not None}
    if not known:
        return Missing(
            paths=(f"joint.{joint.name}.readings.faces",),
            measure="heights of the face round every bore",
            tool="dial in a bridge foot, or straightedge lines with leaves every 15 mm",
            how="Points on both sides of every bore and between bores, or lines along both edges, middle, diagonals "
            "and bridges.",
        )
    dips = tuple(ring for face, points in known.items() for ring in _dips(joint, face, points))
    together = _together(known)
    return Rings(dips, *together)


def _dips(joint: Joint, face: str, points: Array) -> Iterator[RingOnFace]:
    if joint.layout is None:
        return
    frame, band = layout_frame(joint.layout), ring_bands(joint)[0]
    for bore in joint.layout.bores:
        diameter = band.inner(bore.diameter.value) + band.width
        try:
            found = ring_dip(points, frame.place(bore.x.value, bore.y.value), diameter)
        except OutOfRange:
            continue
        yield RingOnFace(face, bore.label, diameter, found.steps[0], found.lowest_at)


def _together(known: dict[str, Array]) -> tuple[Step | None, Place | None]:
    if len(known) < 2:
        return None, None
    try:
        field = gap_field(known["block"], known["head"])
    except OutOfRange:
        return None, None
    return field.steps[-1], field.largest_at
