"""What a cut of the head face takes off the chamber."""

from dataclasses import dataclass

from firedeck.cylinder.bounds import positive, within
from firedeck.cylinder.routes import Route, chosen
from firedeck.errors import OutOfRange
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, Note, Step

_AREA = Route(("plan_area", "cut"))
_RIM = Route(("rim_length", "cut"))
_FILLED = Route(("volume_before", "volume_after", "cut"))
STRAIGHT_WALLS = Note("the chamber walls are taken as straight over the depth of the cut", GENERIC)


@dataclass(frozen=True)
class ChamberCut:
    """Volume a cut takes off the chamber [mm³] and that volume per depth, which is an area [mm²]."""

    volume_change: float
    volume_per_cut: float
    cut_per_volume: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


def chamber_cut(
    *,
    cut: float | None = None,
    plan_area: float | None = None,
    rim_length: float | None = None,
    volume_before: float | None = None,
    volume_after: float | None = None,
) -> ChamberCut:
    """Volume that a cut of the head face takes off one chamber.

    Parameters
    ----------
    cut : float
        Metal taken off the face [mm].
    plan_area : float, optional
        Area of the chamber outline at the face; never the bore area [mm²].
    rim_length : float, optional
        Length of the chamber rim; as a circle it bounds the area from above [mm].
    volume_before, volume_after : float, optional
        Chamber volume before and after this cut [mm³].

    Returns
    -------
    ChamberCut
        Volume taken off, positive [mm³], per depth of cut [mm³/mm] and depth per volume [mm/mm³].

    Raises
    ------
    JobError
        If the ways are mixed or one is incomplete.
    OutOfRange
        If a size is not above nought.

    Valid for
    ---------
    Chambers whose walls are straight over the depth of the cut.

    Source
    ------
    derived

    Examples
    --------
    >>> chamber_cut(plan_area=5000.0, cut=0.25).volume_change
    1250.0
    """
    given = {
        "plan_area": plan_area,
        "rim_length": rim_length,
        "volume_before": volume_before,
        "volume_after": volume_after,
        "cut": cut,
    }
    route = chosen("chamber-cut", given, (_AREA, _RIM, _FILLED))
    figures = {name: value for name, value in given.items() if value is not None}
    depth = figures["cut"]
    if route is _FILLED:
        positive("cut", depth, "mm")
        return _from_filling(figures["volume_before"], figures["volume_after"], depth)
    within("cut", depth, -50.0, 50.0, "mm")
    if route is _RIM:
        area = circle_of_rim(figures["rim_length"])
        caution = Note("area from the rim as a circle: an upper bound, the true chamber takes less", DERIVED)
        return _from_area(area.figure(), depth, (area,), (caution,))
    positive("plan_area", figures["plan_area"], "mm²")
    return _from_area((figures["plan_area"], "mm²"), depth, (), ())


def circle_of_rim(rim_length: float) -> Step:
    """Largest area a rim of this length can enclose: that of the circle.

    Parameters
    ----------
    rim_length : float
        Length of the chamber rim at the face [mm].

    Returns
    -------
    Step
        The sum; its value bounds the plan area from above [mm²].

    Raises
    ------
    OutOfRange
        If the length is not above nought.

    Source
    ------
    derived

    Examples
    --------
    >>> round(circle_of_rim(319.186).value, 1)
    8107.3
    """
    positive("rim_length", rim_length, "mm")
    return Step.work_out(
        "Area of the circle with this rim, an upper bound",
        "rim_length**2 / (4 * pi)",
        {"rim_length": (rim_length, "mm")},
        ("plan_area", "mm²"),
        DERIVED,
    )


def _from_area(
    area: tuple[float, str], cut: float, before: tuple[Step, ...], cautions: tuple[Note, ...]
) -> ChamberCut:
    volume = Step.work_out(
        "Volume the cut takes off the chamber",
        "plan_area * cut",
        {"plan_area": area, "cut": (cut, "mm")},
        ("volume_change", "mm³"),
        DERIVED,
    )
    depth = _depth_step("plan_area", area)
    return ChamberCut(
        volume.value, area[0], depth.value, (*before, volume, depth), (STRAIGHT_WALLS,), cautions
    )


def _from_filling(volume_before: float, volume_after: float, cut: float) -> ChamberCut:
    positive("volume_before", volume_before, "mm³")
    positive("volume_after", volume_after, "mm³")
    if volume_after >= volume_before:
        raise OutOfRange("volume_after", f"{volume_after:g} mm³", f"less than before, {volume_before:g} mm³")
    volume = Step.work_out(
        "Volume the cut took off the chamber",
        "volume_before - volume_after",
        {"volume_before": (volume_before, "mm³"), "volume_after": (volume_after, "mm³")},
        ("volume_change", "mm³"),
        DERIVED,
    )
    area = Step.work_out(
        "Volume per depth of cut, which is the plan area",
        "volume_change / cut",
        {"volume_change": volume.figure(), "cut": (cut, "mm")},
        ("volume_per_cut", "mm²"),
        DERIVED,
    )
    depth = _depth_step("volume_per_cut", area.figure())
    return ChamberCut(volume.value, area.value, depth.value, (volume, area, depth), (STRAIGHT_WALLS,))


def _depth_step(name: str, area: tuple[float, str]) -> Step:
    return Step.work_out(
        "Depth of cut per volume", f"1 / {name}", {name: area}, ("cut_per_volume", "mm/mm³"), DERIVED
    )


@dataclass(frozen=True)
class BoreAreaMistake:
    """How far the bore area is from the chamber's plan area, as a share of the plan area [share]."""

    share: float
    steps: tuple[Step, ...]


def bore_area_mistake(bore: float, plan_area: float) -> BoreAreaMistake:
    """How wrong the volume of a cut would be if the bore area were taken for the plan area.

    Parameters
    ----------
    bore : float
        Cylinder bore [mm].
    plan_area : float
        Area of the chamber outline at the face [mm²].

    Returns
    -------
    BoreAreaMistake
        Share by which the bore area is too large, negative when too small [share].

    Raises
    ------
    OutOfRange
        If a size is not above nought.

    Source
    ------
    derived

    Examples
    --------
    >>> round(bore_area_mistake(86.0, 5000.0).share, 3)
    0.162
    """
    positive("bore", bore, "mm")
    positive("plan_area", plan_area, "mm²")
    step = Step.work_out(
        "Bore area against plan area of the chamber",
        "pi / 4 * bore**2 / plan_area - 1",
        {"bore": (bore, "mm"), "plan_area": (plan_area, "mm²")},
        ("mistake", NO_UNIT),
        DERIVED,
    )
    return BoreAreaMistake(step.value, (step,))
