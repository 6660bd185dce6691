"""What a compression gauge should read, the exponent behind a reading, and what altitude takes off."""

import math
from dataclasses import dataclass

from firedeck.cylinder.air import SEA_LEVEL_PRESSURE, standard_atmosphere
from firedeck.cylinder.bounds import not_negative, positive, within
from firedeck.cylinder.routes import Route, chosen
from firedeck.errors import JobError, OutOfRange
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, Band, Note, Step

USUAL_EXPONENT = 1.25
EXPONENT_BAND = (1.20, 1.30)


@dataclass(frozen=True)
class CrankingPressure:
    """Highest pressure when cranked, gauge and absolute [MPa]; the band is on the gauge reading.

    ``low_end`` and ``high_end`` are the written sums of the two ends of the band, empty without one.
    """

    gauge: float
    absolute: float
    band: Band | None
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    low_end: tuple[Step, ...] = ()
    high_end: tuple[Step, ...] = ()


def cranking_pressure(
    *,
    ratio: float,
    exponent: float | None = None,
    altitude: float | None = None,
    barometer: float | None = None,
    valve_closing: float | None = None,
    rod: float | None = None,
    stroke: float | None = None,
) -> CrankingPressure:
    """Cranking compression to be expected from ratio, valve closing and altitude.

    Parameters
    ----------
    ratio : float
        Compression ratio [1].
    exponent : float, optional
        Exponent of the compression; 1.25 when left out, with a band from 1.20 to 1.30 [1].
    altitude : float, optional
        Height above sea level, for the standard air pressure [mm].
    barometer : float, optional
        Air pressure instead of the altitude, absolute [MPa].
    valve_closing : float, optional
        Crank angle after bottom dead centre at which the intake valve closes [rad].
    rod, stroke : float, optional
        Rod length and stroke, needed with valve_closing [mm].

    Returns
    -------
    CrankingPressure
        Gauge and absolute pressure [MPa], and the band of the gauge reading.

    Raises
    ------
    JobError
        If altitude and barometer are both given, or valve_closing without rod and stroke.
    OutOfRange
        If ratio, exponent or air pressure are outside what the sum is valid for.

    Valid for
    ---------
    Throttle open, all plugs out, engine warm, healthy cylinder, enough puffs to reach the top.

    Source
    ------
    derived

    Examples
    --------
    >>> round(cranking_pressure(ratio=9.5, exponent=1.3).gauge / 0.00689476)
    260
    """
    if ratio <= 1.0:
        raise OutOfRange("ratio", f"{ratio:g}", "more than 1 is wanted")
    power = USUAL_EXPONENT if exponent is None else exponent
    within("exponent", power, 1.0, 1.4, "")
    air, air_steps, notes = _outside(altitude, barometer)
    effective, ratio_steps, more = _ratio_that_works(ratio, valve_closing, rod, stroke)
    absolute, gauge = _polytropic(air, effective, power)
    band: Band | None = None
    ends: dict[float, tuple[Step, ...]] = {}
    if exponent is None:
        ends = {end: (*air_steps, *ratio_steps, *_polytropic(air, effective, end)) for end in EXPONENT_BAND}
        low, high = (ends[end][-1].value for end in EXPONENT_BAND)
        band = Band(low, high, why="exponent from 1.20 to 1.30, our own assumption")
        text = "exponent 1.25 assumed; 1.20 to 1.30 gives {:.3g} to {:.3g} bar on the gauge"
        more = (*more, Note(text.format(low * 10, high * 10), GENERIC))
    steps = (*air_steps, *ratio_steps, absolute, gauge)
    low_end, high_end = (ends.get(end, ()) for end in EXPONENT_BAND)
    return CrankingPressure(
        gauge.value, absolute.value, band, steps, (*notes, *more), low_end=low_end, high_end=high_end
    )


def _polytropic(air: tuple[float, str], ratio: tuple[float, str], exponent: float) -> tuple[Step, Step]:
    absolute = Step.work_out(
        "Highest pressure when cranked, absolute",
        "air_pressure * ratio**exponent",
        {"air_pressure": air, "ratio": ratio, "exponent": (exponent, NO_UNIT)},
        ("absolute", "MPa"),
        DERIVED,
    )
    gauge = Step.work_out(
        "What the gauge shows",
        "absolute - air_pressure",
        {"absolute": absolute.figure(), "air_pressure": air},
        ("gauge", "MPa"),
        DERIVED,
    )
    return absolute, gauge


def _outside(
    altitude: float | None, barometer: float | None
) -> tuple[tuple[float, str], tuple[Step, ...], tuple[Note, ...]]:
    if altitude is not None and barometer is not None:
        raise JobError("cranking-pressure", "altitude with barometer", "give one of the two")
    if barometer is not None:
        within("barometer", barometer, 0.02, 0.12, "MPa absolute")
        return (barometer, "MPa"), (), ()
    if altitude is not None:
        air = standard_atmosphere(altitude)
        return (air.pressure, "MPa"), air.steps, (Note("standard air of this altitude", GENERIC),)
    return (SEA_LEVEL_PRESSURE, "MPa"), (), (Note("air pressure of standard sea level", GENERIC),)


def _ratio_that_works(
    ratio: float, valve_closing: float | None, rod: float | None, stroke: float | None
) -> tuple[tuple[float, str], tuple[Step, ...], tuple[Note, ...]]:
    given = {"valve_closing": valve_closing, "rod": rod, "stroke": stroke}
    if all(value is None for value in given.values()):
        note = Note("the whole stroke compresses: late closing of the intake valve is not counted", GENERIC)
        return (ratio, NO_UNIT), (), (note,)
    chosen("cranking-pressure", given, (Route(("valve_closing", "rod", "stroke")),))
    steps = effective_ratio(ratio, valve_closing or 0.0, rod or 0.0, stroke or 0.0)
    return steps[-1].figure(), steps, ()


def effective_ratio(ratio: float, valve_closing: float, rod: float, stroke: float) -> tuple[Step, Step]:
    """Ratio that works from the closing of the intake valve on.

    Parameters
    ----------
    ratio : float
        Compression ratio over the whole stroke [1].
    valve_closing : float
        Crank angle after bottom dead centre [rad].
    rod, stroke : float
        Rod length and stroke [mm].

    Returns
    -------
    tuple of Step
        Piston travel left to top dead centre [mm], and the effective ratio [1].

    Raises
    ------
    OutOfRange
        If the closing is outside 0 to 120 degrees or the rod shorter than 0.6 strokes.

    Valid for
    ---------
    Crank and pin without offset.

    Source
    ------
    derived

    Examples
    --------
    >>> import math
    >>> round(effective_ratio(9.8, math.radians(48), 143.0, 86.0)[-1].value, 2)
    8.71
    """
    positive("stroke", stroke, "mm")
    within("valve_closing", valve_closing * 180.0 / math.pi, 0.0, 120.0, "deg")
    within("rod", rod / stroke, 0.6, 10.0, "strokes")
    travel = Step.work_out(
        "Piston travel left when the intake valve closes",
        "stroke / 2 * (1 + cos(valve_closing)) + rod - sqrt(rod**2 - (stroke / 2 * sin(valve_closing))**2)",
        {"stroke": (stroke, "mm"), "rod": (rod, "mm"), "valve_closing": (valve_closing, "rad")},
        ("travel", "mm"),
        DERIVED,
    )
    works = Step.work_out(
        "Ratio that works from there on",
        "1 + (ratio - 1) * travel / stroke",
        {"ratio": (ratio, NO_UNIT), "travel": travel.figure(), "stroke": (stroke, "mm")},
        ("effective_ratio", NO_UNIT),
        DERIVED,
    )
    return travel, works


@dataclass(frozen=True)
class CrankingExponent:
    """Exponent behind a gauge reading [1]."""

    exponent: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()


def cranking_exponent(ratio: float, gauge: float, air_pressure: float | None = None) -> CrankingExponent:
    """Exponent that a gauge reading says the compression had.

    Parameters
    ----------
    ratio : float
        Compression ratio [1].
    gauge : float
        Reading of the compression gauge [MPa].
    air_pressure : float, optional
        Air pressure, absolute; standard sea level when left out [MPa].

    Returns
    -------
    CrankingExponent
        The exponent; a healthy warm engine gives about 1.2 to 1.3 [1].

    Raises
    ------
    OutOfRange
        If the ratio is not above 1 or the reading negative.

    Source
    ------
    derived

    Examples
    --------
    >>> round(cranking_exponent(9.5, 1.7926).exponent, 2)
    1.3
    """
    if ratio <= 1.0:
        raise OutOfRange("ratio", f"{ratio:g}", "more than 1 is wanted")
    not_negative("gauge", gauge, "MPa")
    air = SEA_LEVEL_PRESSURE if air_pressure is None else air_pressure
    step = Step.work_out(
        "Exponent of the compression",
        "log((gauge + air_pressure) / air_pressure) / log(ratio)",
        {"gauge": (gauge, "MPa"), "air_pressure": (air, "MPa"), "ratio": (ratio, NO_UNIT)},
        ("exponent", NO_UNIT),
        DERIVED,
    )
    notes = () if air_pressure is not None else (Note("air pressure of standard sea level", GENERIC),)
    return CrankingExponent(step.value, (step,), notes)


@dataclass(frozen=True)
class AltitudeCompression:
    """Gauge reading to be expected at another altitude [MPa]."""

    gauge: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()


BY_DENSITY = Note(
    "a gauge goes with the pressure of the air; printed tables of altitude factors go by its density and leave "
    "the reading 1 % higher at 500 m and 3 % at 1500 m",
    "compression-altitude-table",
)


def altitude_compression(gauge: float, altitude: float, from_altitude: float = 0.0) -> AltitudeCompression:
    """Compression reading carried from one altitude to another.

    Parameters
    ----------
    gauge : float
        Reading at from_altitude [MPa].
    altitude : float
        Where it is to be compared [mm].
    from_altitude : float, optional
        Where it was read, sea level when left out [mm].

    Returns
    -------
    AltitudeCompression
        Reading to be expected at altitude [MPa].

    Raises
    ------
    OutOfRange
        If an altitude is outside the standard atmosphere or the reading negative.

    Valid for
    ---------
    Same engine, temperature and cranking speed: the whole pressure goes with the air outside.

    Source
    ------
    derived

    Examples
    --------
    >>> round(altitude_compression(1.2, 1_500_000.0).gauge, 3)
    1.001
    """
    not_negative("gauge", gauge, "MPa")
    there, here = standard_atmosphere(altitude), standard_atmosphere(from_altitude)
    step = Step.work_out(
        "Reading goes with the air pressure",
        "gauge * pressure_there / pressure_here",
        {
            "gauge": (gauge, "MPa"),
            "pressure_there": (there.pressure, "MPa"),
            "pressure_here": (here.pressure, "MPa"),
        },
        ("gauge_there", "MPa"),
        DERIVED,
    )
    return AltitudeCompression(
        step.value, (*there.steps, *here.steps, step), (Note("standard air", GENERIC), BY_DENSITY)
    )
