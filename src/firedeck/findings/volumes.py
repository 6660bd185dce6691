"""Volumes and ratio of each cylinder as it is now, and the area a cut of the head face takes from."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from firedeck.cylinder.chamber_cut import bore_area_mistake, chamber_cut, circle_of_rim
from firedeck.cylinder.volumes import CompressionRatio, compression_ratio, swept_volume_step
from firedeck.errors import OutOfRange
from firedeck.findings.doubted import doubted
from firedeck.findings.finding import Findings
from firedeck.job import Engine, Job, Joint
from firedeck.job.schema.joint import Candidate, Chamber
from firedeck.quantity import Quantity
from firedeck.trace import DERIVED, NO_UNIT, Missing, Step


@dataclass(frozen=True)
class Gasket:
    """The gasket a figure was taken with: compressed thickness and bore [mm]."""

    name: str
    thickness: float
    bore: float | None


@dataclass(frozen=True)
class Area:
    """Volume a head cut takes per depth [mm²], and how it was got; an upper bound from the rim."""

    value: float
    how: str
    steps: tuple[Step, ...]
    upper_bound: bool = False


@dataclass(frozen=True)
class Volumes:
    """Ratio of each measured cylinder, or one of the papers, with the gasket they belong to."""

    id: ClassVar[str] = "volumes"
    swept: Step | None
    stated: float | None
    measured: Mapping[str, CompressionRatio]
    gasket: Gasket | None
    area: Area | None
    area_missing: Missing
    mistake: Step | None


def find(job: Job, joint: Joint | None, _found: Findings) -> Volumes | Missing:
    """Work out swept and clearance volume of each cylinder."""
    assert joint is not None
    engine, chamber = job.engine, joint.chamber
    swept = (
        swept_volume_step(engine.bore.value, engine.stroke.value) if engine.bore and engine.stroke else None
    )
    gasket = gasket_then(joint)
    try:
        measured = _measured(engine, joint, gasket) if swept else {}
    except OutOfRange as fault:
        return doubted(joint, fault, "chamber")
    if not measured and engine.ratio is None:
        return unmeasured(joint)
    area = area_of(chamber)
    return Volumes(
        swept=swept,
        stated=engine.ratio.value if engine.ratio else None,
        measured=MappingProxyType(measured),
        gasket=gasket,
        area=area,
        area_missing=area_unknown(joint),
        mistake=bore_area_mistake(engine.bore.value, area.value).steps[0] if area and engine.bore else None,
    )


def gasket_then(joint: Joint) -> Gasket | None:
    """Return the gasket the engine had: the old one, else one of the candidates."""
    old = joint.gasket.old
    if old and old.thickness:
        return Gasket("old", old.thickness.value, _value(old.bore))
    return gasket_chosen(joint)


def gasket_chosen(joint: Joint) -> Gasket | None:
    """Return the gasket to be fitted: the one named, else the thinnest candidate."""
    with_thickness = [one for one in joint.gasket.candidates if one.thickness]
    named = [one for one in with_thickness if one.name == joint.gasket.fitted]
    if not with_thickness:
        return None
    one = named[0] if named else min(with_thickness, key=lambda each: _value(each.thickness) or 0.0)
    return as_gasket(one)


def as_gasket(candidate: Candidate) -> Gasket:
    """Return a candidate whose thickness is known as the gasket of a sum."""
    assert candidate.thickness is not None
    return Gasket(candidate.name, candidate.thickness.value, _value(candidate.bore))


def area_of(chamber: Chamber) -> Area | None:
    """Return the area a cut takes from: traced, filled before and after, or bounded by the rim; never the bore."""
    if chamber.plan_area:
        return Area(chamber.plan_area.value, "chamber outline as traced", ())
    if chamber.volume_before and chamber.volume_after and chamber.measured_cut:
        cut = chamber_cut(
            volume_before=chamber.volume_before.value,
            volume_after=chamber.volume_after.value,
            cut=chamber.measured_cut.value,
        )
        return Area(cut.volume_per_cut, "filled before and after a cut", cut.steps[:2])
    if chamber.rim_length:
        rim = circle_of_rim(chamber.rim_length.value)
        return Area(
            rim.value, "rim of the chamber taken as a circle, an upper bound", (rim,), upper_bound=True
        )
    return None


def clearance_of(stated: float, swept: Step) -> Step:
    """Work out the clearance volume that goes with a stated ratio."""
    return Step.work_out(
        "Volume left at top dead centre, from the stated ratio",
        "swept_volume / (ratio - 1)",
        {"swept_volume": swept.figure(), "ratio": (stated, NO_UNIT)},
        ("clearance_volume", "mm³"),
        DERIVED,
    )


def unmeasured(joint: Joint) -> Missing:
    """Say how a chamber is measured."""
    return Missing(
        paths=(f"joint.{joint.name}.chamber.volumes", "engine.ratio"),
        measure="volume of each combustion chamber, or the ratio the papers state",
        tool="burette or syringe and a clear plate with a hole",
        how="Plug and valves in, face level, plate sealed with grease; fill with thin coloured fluid until no bubble "
        "is left under the plate; a cylinder that differs by more than 1 cc is measured again.",
    )


def area_unknown(joint: Joint) -> Missing:
    """Say how the area of a chamber at the face is got; the bore is not it."""
    return Missing(
        paths=(f"joint.{joint.name}.chamber.plan_area", f"joint.{joint.name}.chamber.volume_before"),
        measure="what a cut takes from the chamber: its volume before and after a known cut, or its traced outline",
        tool="burette and clear plate, or paper and squares",
        how="Fill one chamber before and after the first pass and note the pass; or rub the outline through paper and "
        "count squares. Chamber outline and bore are different areas.",
    )


def _measured(engine: Engine, joint: Joint, gasket: Gasket | None) -> dict[str, CompressionRatio]:
    chamber = joint.chamber
    if gasket is None or gasket.bore is None or engine.bore is None or engine.stroke is None:
        return {}
    decks = joint.block.deck_clearance
    return {
        label: compression_ratio(
            bore=engine.bore.value,
            stroke=engine.stroke.value,
            chamber_volume=volume.value,
            gasket_thickness=gasket.thickness,
            gasket_bore=gasket.bore,
            deck_clearance=decks[label].value,
            dish_volume=_value(chamber.dish_volume),
            dome_volume=_value(chamber.dome_volume),
            crevice_volume=_value(chamber.crevice_volume),
        )
        for label, volume in chamber.volumes.items()
        if label in decks
    }


def _value(quantity: Quantity | None) -> float | None:
    return quantity.value if quantity else None
