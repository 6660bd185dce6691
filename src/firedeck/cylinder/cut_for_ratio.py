"""The cut of the head face that gives a wanted compression ratio."""

from dataclasses import dataclass

from firedeck.cylinder.bounds import positive
from firedeck.cylinder.chamber_cut import STRAIGHT_WALLS
from firedeck.cylinder.routes import Route, chosen
from firedeck.errors import OutOfRange
from firedeck.trace import DERIVED, NO_UNIT, Note, Step


@dataclass(frozen=True)
class CutForRatio:
    """Cut [mm] and volume to take off the chamber [mm³] for a wanted ratio."""

    cut: float
    volume: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = (STRAIGHT_WALLS,)
    cautions: tuple[Note, ...] = ()


def cut_for_ratio(
    *,
    swept_volume: float,
    clearance_volume: float,
    ratio: float,
    plan_area: float | None = None,
    volume_per_cut: float | None = None,
) -> CutForRatio:
    """Cut of the head face that gives a wanted compression ratio.

    Parameters
    ----------
    swept_volume, clearance_volume : float
        Volumes of the cylinder as it is now [mm³].
    ratio : float
        Compression ratio wanted [1].
    plan_area : float, optional
        Area of the chamber outline at the face [mm²].
    volume_per_cut : float, optional
        Measured volume per depth of cut instead [mm³/mm].

    Returns
    -------
    CutForRatio
        Cut [mm] and volume [mm³]; negative when volume would have to be added.

    Raises
    ------
    JobError
        If neither or both of plan area and volume per cut are given.
    OutOfRange
        If a size is not above nought or the ratio not above 1.

    Valid for
    ---------
    Chambers whose walls are straight over the depth of the cut.

    Source
    ------
    derived

    Examples
    --------
    >>> found = cut_for_ratio(swept_volume=500000.0, clearance_volume=55000.0, ratio=11.0, plan_area=5000.0)
    >>> found.cut
    1.0
    """
    route = chosen(
        "cut-for-ratio",
        {"plan_area": plan_area, "volume_per_cut": volume_per_cut},
        (Route(("plan_area",)), Route(("volume_per_cut",))),
    )
    area_name = route.needs[0]
    area = plan_area if plan_area is not None else volume_per_cut
    assert area is not None
    positive("swept_volume", swept_volume, "mm³")
    positive("clearance_volume", clearance_volume, "mm³")
    positive(area_name, area, "mm²")
    if ratio <= 1.0:
        raise OutOfRange("ratio", f"{ratio:g}", "more than 1 is wanted")
    volume = Step.work_out(
        "Volume to take off the chamber",
        "clearance_volume - swept_volume / (ratio - 1)",
        {
            "clearance_volume": (clearance_volume, "mm³"),
            "swept_volume": (swept_volume, "mm³"),
            "ratio": (ratio, NO_UNIT),
        },
        ("volume", "mm³"),
        DERIVED,
    )
    cut = Step.work_out(
        "Cut that takes it off",
        f"volume / {area_name}",
        {"volume": volume.figure(), area_name: (area, "mm²")},
        ("cut", "mm"),
        DERIVED,
    )
    cautions: tuple[Note, ...] = ()
    if cut.value < 0.0:
        cautions = (Note("a lower ratio than now: no cut gives it, volume must be added", DERIVED),)
    return CutForRatio(cut.value, volume.value, (volume, cut), (STRAIGHT_WALLS,), cautions)
