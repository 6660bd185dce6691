"""A gasket of which only the free thickness is written: what it may come to when it is pressed."""

from dataclasses import dataclass

from firedeck.cylinder.thickness import CompressedThickness, compressed_thickness
from firedeck.errors import TableGap
from firedeck.findings.groups import gasket_that_goes_on
from firedeck.job import Joint
from firedeck.trace import Missing


@dataclass(frozen=True)
class FreeGasket:
    """Name and free thickness [mm], what that may be pressed to (None: construction unknown to our table), what to ask."""

    name: str
    free: float
    pressed: CompressedThickness | None
    missing: Missing


def free_gasket(joint: Joint) -> FreeGasket | None:
    """Return the gasket that goes on where its pressed thickness is not written but its free one is."""
    new = gasket_that_goes_on(joint)
    if new is None or new.thickness is not None or new.free_thickness is None:
        return None
    known = new.construction if new.construction not in ("none", "unknown") else None
    try:
        pressed = compressed_thickness(new.free_thickness.value, "free", known)
    except TableGap:
        pressed = None
    missing = Missing(
        (f"joint.{joint.name}.gasket.candidates.{new.name}.thickness",),
        f"pressed thickness of gasket {new.name}: only its free thickness is written",
        "sheet with the gasket, or a micrometer beside the ring of a used one",
        "Ratio, squish and valve gaps go by the thickness with the head tightened down; the free one flatters all three.",
    )
    return FreeGasket(new.name, new.free_thickness.value, pressed, missing)
