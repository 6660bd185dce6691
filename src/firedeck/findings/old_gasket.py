"""The used gasket as a witness: thickness of its ring round each bore, and the signs seen on it."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.trace import DERIVED, Missing, Step


@dataclass(frozen=True)
class OldGasket:
    """Rings of the used gasket [mm], their spread, which is thinnest, and what was seen."""

    id: ClassVar[str] = "old_gasket"
    rings: Mapping[str, float]
    spread: Step | None
    thinnest: str
    signs: tuple[str, ...]
    counted: Step
    track: str
    imprint: str
    unread: tuple[str, ...]


def find(job: Job, joint: Joint | None, _found: Findings) -> OldGasket | Missing:
    """Read the used gasket."""
    assert joint is not None
    old = joint.gasket.old
    if old is None or not (old.ring_thickness or old.signs or old.track or old.imprint):
        return unread(joint)
    rings = {label: thickness.value for label, thickness in old.ring_thickness.items()}
    signs = old.signs
    own = joint.cylinders or job.engine.cylinders
    return OldGasket(
        rings=MappingProxyType(rings),
        spread=_spread(rings),
        thinnest=min(rings, key=lambda label: rings[label]) if rings else "",
        signs=signs,
        counted=_count(len(signs), len(rings), bool(old.track), bool(old.imprint)),
        track=old.track,
        imprint=old.imprint,
        unread=tuple(label for label in own if label not in rings),
    )


def unread(joint: Joint) -> Missing:
    """Say how a used gasket is read."""
    at = f"joint.{joint.name}.gasket.old"
    return Missing(
        paths=(f"{at}.ring_thickness", f"{at}.imprint", f"{at}.track", f"{at}.signs"),
        measure="the used gasket: thickness of its ring round each bore, width of the print, tracks of gas and water",
        tool="micrometer with small faces, and a lamp",
        how="Do not bend, scrape or throw it away; mark front and top, lay it beside the block, read each ring at four "
        "places, draw every black or washed track from where it starts to where it ends.",
    )


def _spread(rings: Mapping[str, float]) -> Step | None:
    if len(rings) < 2:
        return None
    inputs = {f"ring_{place}": (value, "mm") for place, value in enumerate(rings.values(), start=1)}
    names = ", ".join(inputs)
    return Step.work_out(
        "Thickest less thinnest ring of the used gasket",
        f"max({names}) - min({names})",
        inputs,
        ("ring_spread", "mm"),
        DERIVED,
    )


def _count(signs: int, rings: int, track: bool, imprint: bool) -> Step:
    return Step.work_out(
        "Things read on the used gasket",
        "signs + rings + tracks + prints",
        {
            "signs": (float(signs), "1"),
            "rings": (float(rings), "1"),
            "tracks": (float(track), "1"),
            "prints": (float(imprint), "1"),
        },
        ("count", "1"),
        DERIVED,
    )
