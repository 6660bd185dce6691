"""Swept and clearance volume, compression ratio, and how it differs from cylinder to cylinder."""

from collections.abc import Mapping
from dataclasses import dataclass

from firedeck.cylinder.bounds import not_negative, positive
from firedeck.cylinder.routes import Route, chosen
from firedeck.errors import OutOfRange
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, Note, Step

_MEASURED = Route(
    ("bore", "stroke", "chamber_volume", "gasket_thickness", "gasket_bore", "deck_clearance"),
    ("dish_volume", "dome_volume", "crevice_volume"),
)
_VOLUMES = Route(("swept_volume", "clearance_volume"))


@dataclass(frozen=True)
class CompressionRatio:
    """Volumes of one cylinder and their ratio [mm³, 1], with the written sums."""

    swept_volume: float
    clearance_volume: float
    ratio: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


def compression_ratio(
    *,
    bore: float | None = None,
    stroke: float | None = None,
    chamber_volume: float | None = None,
    gasket_thickness: float | None = None,
    gasket_bore: float | None = None,
    deck_clearance: float | None = None,
    dish_volume: float | None = None,
    dome_volume: float | None = None,
    crevice_volume: float | None = None,
    swept_volume: float | None = None,
    clearance_volume: float | None = None,
) -> CompressionRatio:
    """Compression ratio of one cylinder, from measured parts or from its two volumes.

    Parameters
    ----------
    bore, stroke : float, optional
        Bore and stroke [mm].
    chamber_volume : float, optional
        Chamber of the head up to its face, valves and plug in place [mm³].
    gasket_thickness, gasket_bore : float, optional
        Compressed thickness and bore of the gasket [mm].
    deck_clearance : float, optional
        Flat of the piston below the block face, negative when it stands proud [mm].
    dish_volume, dome_volume, crevice_volume : float, optional
        Hollow of the crown, what stands above its flat, and the gap above the top ring; none when
        left out, which is said [mm³].
    swept_volume, clearance_volume : float, optional
        The other way in: both volumes [mm³].

    Returns
    -------
    CompressionRatio
        Swept and clearance volume [mm³] and ratio [1].

    Raises
    ------
    JobError
        If the two ways are mixed or one is incomplete.
    OutOfRange
        If a size is not above nought or no clearance is left.

    Valid for
    ---------
    Round bores; gasket bore taken as a round hole.

    Source
    ------
    derived

    Examples
    --------
    >>> found = compression_ratio(
    ...     bore=86.0, stroke=86.0, chamber_volume=45000.0,
    ...     gasket_thickness=1.2, gasket_bore=87.0, deck_clearance=0.0)
    >>> round(found.ratio, 3)
    10.582
    """
    given = {
        "bore": bore,
        "stroke": stroke,
        "chamber_volume": chamber_volume,
        "gasket_thickness": gasket_thickness,
        "gasket_bore": gasket_bore,
        "deck_clearance": deck_clearance,
        "dish_volume": dish_volume,
        "dome_volume": dome_volume,
        "crevice_volume": crevice_volume,
        "swept_volume": swept_volume,
        "clearance_volume": clearance_volume,
    }
    route = chosen("compression-ratio", given, (_MEASURED, _VOLUMES))
    figures = {name: value for name, value in given.items() if value is not None}
    if route is _VOLUMES:
        return ratio_of_volumes(figures["swept_volume"], figures["clearance_volume"])
    return _from_parts(figures)


def ratio_of_volumes(swept_volume: float, clearance_volume: float) -> CompressionRatio:
    """Compression ratio from swept and clearance volume.

    Parameters
    ----------
    swept_volume, clearance_volume : float
        Volume the piston sweeps, and what is left at top dead centre [mm³].

    Returns
    -------
    CompressionRatio
        The volumes [mm³] and the ratio [1].

    Raises
    ------
    OutOfRange
        If a volume is not above nought.

    Source
    ------
    derived

    Examples
    --------
    >>> ratio_of_volumes(500000.0, 50000.0).ratio
    11.0
    """
    positive("swept_volume", swept_volume, "mm³")
    positive("clearance_volume", clearance_volume, "mm³")
    step = _ratio_step((swept_volume, "mm³"), (clearance_volume, "mm³"))
    return CompressionRatio(swept_volume, clearance_volume, step.value, (step,))


def swept_volume_step(bore: float, stroke: float) -> Step:
    """Written sum of the volume a piston sweeps.

    Parameters
    ----------
    bore, stroke : float
        Bore and stroke [mm].

    Returns
    -------
    Step
        The sum; its value is the swept volume [mm³].

    Raises
    ------
    OutOfRange
        If a size is not above nought.

    Source
    ------
    derived

    Examples
    --------
    >>> round(swept_volume_step(86.0, 86.0).value)
    499557
    """
    positive("bore", bore, "mm")
    positive("stroke", stroke, "mm")
    return Step.work_out(
        "Volume the piston sweeps",
        "pi / 4 * bore**2 * stroke",
        {"bore": (bore, "mm"), "stroke": (stroke, "mm")},
        ("swept_volume", "mm³"),
        DERIVED,
    )


def _from_parts(figures: Mapping[str, float]) -> CompressionRatio:
    for name in ("bore", "stroke", "chamber_volume", "gasket_thickness", "gasket_bore"):
        positive(name, figures[name], "mm³" if name == "chamber_volume" else "mm")
    for name in _MEASURED.may:
        not_negative(name, figures.get(name, 0.0), "mm³")
    swept = swept_volume_step(figures["bore"], figures["stroke"])
    gasket = Step.work_out(
        "Volume inside the gasket",
        "pi / 4 * gasket_bore**2 * gasket_thickness",
        {name: (figures[name], "mm") for name in ("gasket_bore", "gasket_thickness")},
        ("gasket_volume", "mm³"),
        DERIVED,
    )
    deck = Step.work_out(
        "Volume above the piston in the bore; negative when it stands proud",
        "pi / 4 * bore**2 * deck_clearance",
        {name: (figures[name], "mm") for name in ("bore", "deck_clearance")},
        ("deck_volume", "mm³"),
        DERIVED,
    )
    clearance = _clearance_step(figures, gasket, deck)
    if clearance.value <= 0.0:
        raise OutOfRange("clearance_volume", f"{clearance.value:g} mm³", "the parts leave no room for gas")
    ratio = _ratio_step(swept.figure(), clearance.figure())
    return CompressionRatio(
        swept.value,
        clearance.value,
        ratio.value,
        (swept, gasket, deck, clearance, ratio),
        _assumed(figures),
        _doubts(figures),
    )


def _clearance_step(figures: Mapping[str, float], gasket: Step, deck: Step) -> Step:
    inputs = {
        "chamber_volume": (figures["chamber_volume"], "mm³"),
        "gasket_volume": gasket.figure(),
        "deck_volume": deck.figure(),
    }
    inputs |= {name: (figures[name], "mm³") for name in _MEASURED.may if name in figures}
    signs = {"dome_volume": " - "}
    formula = "".join(f"{signs.get(name, ' + ')}{name}" for name in inputs).removeprefix(" + ")
    return Step.work_out(
        "Volume left at top dead centre", formula, inputs, ("clearance_volume", "mm³"), DERIVED
    )


def _ratio_step(swept: tuple[float, str], clearance: tuple[float, str]) -> Step:
    return Step.work_out(
        "Compression ratio",
        "(swept_volume + clearance_volume) / clearance_volume",
        {"swept_volume": swept, "clearance_volume": clearance},
        ("ratio", NO_UNIT),
        DERIVED,
    )


def _assumed(figures: Mapping[str, float]) -> tuple[Note, ...]:
    left_out = [name for name in _MEASURED.may if name not in figures]
    notes = [Note("gasket_thickness is the compressed thickness, not the free one", GENERIC)]
    if left_out:
        words = ", ".join(name.removesuffix("_volume") for name in left_out)
        notes.append(Note(f"not given and taken as none: {words}", GENERIC))
    return tuple(notes)


def _doubts(figures: Mapping[str, float]) -> tuple[Note, ...]:
    notes = []
    if figures["gasket_bore"] < figures["bore"]:
        notes.append(Note("the gasket bore is smaller than the cylinder bore", DERIVED))
    if -figures["deck_clearance"] >= figures["gasket_thickness"]:
        notes.append(Note("the piston stands as high as the gasket: it reaches the head face", DERIVED))
    return tuple(notes)
