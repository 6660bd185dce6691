"""Gaskets and spacer plates on one another, and what a change of thickness adds to the clearance."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.cylinder.bounds import positive
from firedeck.errors import JobError
from firedeck.trace import DERIVED, Step


@dataclass(frozen=True)
class StackedGaskets:
    """Gaskets and plates on one another as one: thickness [mm], volume [mm³], equal bore [mm]."""

    thickness: float
    volume: float
    bore: float
    steps: tuple[Step, ...]


def stacked_gaskets(layers: Sequence[tuple[float, float]]) -> StackedGaskets:
    """Gaskets and spacer plates on one another, as one gasket of the same thickness and volume.

    Parameters
    ----------
    layers : sequence of (float, float)
        Compressed thickness and bore of each layer [mm].

    Returns
    -------
    StackedGaskets
        Whole thickness [mm], volume [mm³] and the equal bore [mm].

    Raises
    ------
    JobError
        If there is no layer.
    OutOfRange
        If a size is not above nought.

    Source
    ------
    derived

    Examples
    --------
    >>> stacked_gaskets([(1.0, 80.0), (1.0, 82.0)]).thickness
    2.0
    """
    if not layers:
        raise JobError("stacked gaskets", "no layer", "give thickness and bore of each")
    for thickness, bore in layers:
        positive("gasket_thickness", thickness, "mm")
        positive("gasket_bore", bore, "mm")
    each = range(1, len(layers) + 1)
    sizes = {f"thickness_{n}": (layers[n - 1][0], "mm") for n in each}
    bores = {f"bore_{n}": (layers[n - 1][1], "mm") for n in each}
    whole = Step.work_out(
        "Thickness of the stack", " + ".join(sizes), sizes, ("gasket_thickness", "mm"), DERIVED
    )
    terms = " + ".join(f"thickness_{n} * bore_{n}**2" for n in each)
    volume = Step.work_out("Volume inside the stack", f"pi / 4 * ({terms})", sizes | bores,
                           ("gasket_volume", "mm³"), DERIVED)  # fmt: skip
    equal = Step.work_out(
        "Bore of one gasket with the same volume",
        "sqrt(4 * gasket_volume / (pi * gasket_thickness))",
        {"gasket_volume": volume.figure(), "gasket_thickness": whole.figure()},
        ("gasket_bore", "mm"),
        DERIVED,
    )
    return StackedGaskets(whole.value, volume.value, equal.value, (whole, volume, equal))


@dataclass(frozen=True)
class ThicknessChange:
    """What another class does: change of thickness [mm] and of the ratio's clearance volume [mm³]."""

    volume: float
    steps: tuple[Step, ...]


def thickness_change(gasket_bore: float, gasket_change: float) -> ThicknessChange:
    """Clearance volume that a thicker gasket adds.

    Parameters
    ----------
    gasket_bore : float
        Bore of the gasket [mm].
    gasket_change : float
        New compressed thickness less the old [mm].

    Returns
    -------
    ThicknessChange
        Volume added, negative when thinner [mm³].

    Raises
    ------
    OutOfRange
        If the bore is not above nought.

    Source
    ------
    derived

    Examples
    --------
    >>> round(thickness_change(87.0, 0.5).volume)
    2972
    """
    positive("gasket_bore", gasket_bore, "mm")
    step = Step.work_out(
        "Clearance volume added by the gasket",
        "pi / 4 * gasket_bore**2 * gasket_change",
        {"gasket_bore": (gasket_bore, "mm"), "gasket_change": (gasket_change, "mm")},
        ("volume", "mm³"),
        DERIVED,
    )
    return ThicknessChange(step.value, (step,))
