"""Peak firing pressure with its band, and beside it that of the same engine as standard."""

import math
from dataclasses import dataclass

from firedeck.cylinder.air import SEA_LEVEL_PRESSURE, SEA_LEVEL_TEMPERATURE, ZERO_CELSIUS, standard_atmosphere
from firedeck.cylinder.bounds import not_negative, within
from firedeck.cylinder.firing_cycle import Burn, FiringCycle, firing_cycle
from firedeck.errors import JobError
from firedeck.quantity import Kind, show_both
from firedeck.tables import Row, one, rows
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, RUN, Band, Note, Step

FUELS = ("petrol", "diesel")
SETTINGS = ("mild", "middle", "hard")
FULLY_BOOSTED = 0.05
"""Boost from which the settings are wholly those of a boosted engine [MPa]."""

_WORDS = ("fuel", "charging", "setting", "source")


@dataclass(frozen=True)
class Firing:
    """What the firing pressure hangs on; pressures [MPa], altitude [mm], temperature [°C], angle [rad]."""

    ratio: float
    boost: float = 0.0
    altitude: float = 0.0
    charge_temperature: float | None = None
    fuel: str = "petrol"
    phasing: float | None = None


@dataclass(frozen=True)
class PeakPressure:
    """Peaks above ambient with the band, compression end, absolute [MPa]; peak over standard peak [1]."""

    peak: float
    band: Band
    against_stock: float
    stock_peak: float
    compression_end: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


def peak_pressure(firing: Firing, stock: Firing | None = None) -> PeakPressure:
    """Peak firing pressure above ambient, its band, and how it compares with standard.

    Parameters
    ----------
    firing : Firing
        Ratio, boost and the rest of the engine as it will run [core].
    stock : Firing, optional
        The same of the engine as standard; without it the same engine without boost, at the same
        place and on the same fuel [core].

    Returns
    -------
    PeakPressure
        Peak, mildest and hardest setting above ambient [MPa], share of the standard peak [1].

    Raises
    ------
    OutOfRange
        If ratio, boost, altitude, temperature or phasing are outside what the model is valid for.
    JobError
        If the fuel is another word.

    Valid for
    ---------
    Four-stroke petrol and diesel engines at full load without detonation; an order of size with a
    wide band. The share of standard is surer than either figure.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> found = peak_pressure(Firing(ratio=10.0))
    >>> 5.5 < found.peak < 9.5 and found.band.low < found.peak < found.band.high
    True
    """
    runs = {setting: _run(firing, setting) for setting in SETTINGS}
    standard = stock if stock is not None else Firing(
        firing.ratio, 0.0, firing.altitude, None, firing.fuel, None if firing.boost > 0.0 else firing.phasing
    )  # fmt: skip
    air = _outside(firing)
    peak = _above(runs["middle"].peak, air)
    low, high = (_above(runs[setting].peak, air).value for setting in ("mild", "hard"))
    stock_peak = _above(_run(standard, "middle").peak, _outside(standard))
    against = Step.work_out(
        "Peak against the same engine as standard",
        "peak / stock_peak",
        {"peak": peak.figure(), "stock_peak": stock_peak.figure()},
        ("against_stock", NO_UNIT),
        DERIVED,
    )
    band = Band(low, high, why="mild and hard settings of filling, mixture, burn and wall loss, our own")
    return PeakPressure(
        peak.value,
        band,
        against.value,
        stock_peak.value,
        runs["middle"].compression_end,
        (*_written(firing, runs["middle"]), peak, stock_peak, against),
        _assumed(firing, standard, stock is None),
        _cautions(),
    )


def _check(firing: Firing) -> None:
    if firing.fuel not in FUELS:
        raise JobError("peak-pressure fuel", repr(firing.fuel), f"allowed: {', '.join(FUELS)}")
    within("ratio", firing.ratio, 3.0, 26.0, "")
    not_negative("boost", firing.boost, "MPa")
    within("boost", firing.boost, 0.0, 0.6, "MPa")
    if firing.phasing is not None:
        within("phasing", firing.phasing, -0.2, 0.9, "rad after top dead centre")


def _outside(firing: Firing) -> float:
    return standard_atmosphere(firing.altitude).pressure if firing.altitude else SEA_LEVEL_PRESSURE


def _run(firing: Firing, setting: str) -> FiringCycle:
    _check(firing)
    figure, usual = _settings(firing, setting), _settings(firing, "middle")
    phasing = figure["phasing"]
    if firing.phasing is not None:
        phasing = firing.phasing * 180.0 / math.pi + (phasing - usual["phasing"]) / 3.0
    burn = Burn(phasing, figure["duration"], figure["shape"], _charge_heat(figure), figure["wall_share"])
    pressure = (_outside(firing) + firing.boost) * figure["filling"]
    kelvin = _charge_kelvin(firing) + figure["warming"]
    within("charge_temperature", kelvin, 230.0, 480.0, "K at the start of compression")
    return firing_cycle(firing.ratio, pressure, kelvin, burn)


def _settings(firing: Firing, setting: str) -> dict[str, float]:
    """Settings of the table, sliding from those without boost to those with it."""
    natural, boosted = (_row(firing.fuel, charging, setting) for charging in ("natural", "boosted"))
    share = min(firing.boost / FULLY_BOOSTED, 1.0)
    return {
        name: (1.0 - share) * float(natural[name]) + share * float(boosted[name])
        for name in natural
        if name not in _WORDS
    }


def _row(fuel: str, charging: str, setting: str) -> Row:
    wanted = (fuel, charging, setting)
    return one("burn", " ".join(wanted), lambda row: (row["fuel"], row["charging"], row["setting"]) == wanted)


def _charge_kelvin(firing: Firing) -> float:
    if firing.charge_temperature is not None:
        return firing.charge_temperature + ZERO_CELSIUS
    return SEA_LEVEL_TEMPERATURE + 10.0 + 100.0 * min(firing.boost, 0.3)


def _charge_heat(figure: dict[str, float]) -> float:
    """Heat set free per mass of charge: rich mixtures burn only what the air allows."""
    air = figure["excess_air"] * figure["enough_air"]
    burns = min(1.0, figure["excess_air"])
    return figure["heating_value"] * burns * figure["burnt_share"] / (1.0 + air)


def _above(peak: float, air: float) -> Step:
    return Step.work_out(
        "Peak above ambient",
        "peak_absolute - air_pressure",
        {"peak_absolute": (peak, "MPa"), "air_pressure": (air, "MPa")},
        ("peak", "MPa"),
        RUN + "firing-cycle",
    )


def _written(firing: Firing, run: FiringCycle) -> tuple[Step, ...]:
    start = Step.work_out(
        "Manifold pressure, absolute",
        "air_pressure + boost",
        {"air_pressure": (_outside(firing), "MPa"), "boost": (firing.boost, "MPa")},
        ("manifold_pressure", "MPa"),
        DERIVED,
    )
    balance = Step.work_out(
        "Share of the heat set free that the steps account for",
        "(heat_to_walls + work + energy_rise) / heat_released",
        {
            "heat_to_walls": (run.heat_to_walls, "kJ/kg"),
            "work": (run.work, "kJ/kg"),
            "energy_rise": (run.energy_rise, "kJ/kg"),
            "heat_released": (run.heat_released, "kJ/kg"),
        },
        ("energy_balance", NO_UNIT),
        RUN + "firing-cycle",
    )
    return start, balance


def _assumed(firing: Firing, standard: Firing, guessed_stock: bool) -> tuple[Note, ...]:
    notes = [
        Note(
            f"fuel {firing.fuel}, full load, middle settings of our own model, not measured on this engine",
            GENERIC,
        ),
        Note(
            "one even gas; dissociation, residual gas and the shape of the chamber are in the band only",
            GENERIC,
        ),
    ]
    if firing.charge_temperature is None:
        notes.append(
            Note(f"charge at {_charge_kelvin(firing) - ZERO_CELSIUS:.0f} °C in the manifold", GENERIC)
        )
    if firing.phasing is None:
        notes.append(
            Note("burn phasing of our own table; knock control or injection may put it later", GENERIC)
        )
    if guessed_stock:
        notes.append(
            Note(f"standard taken as ratio {standard.ratio:g} without boost, same place and fuel", GENERIC)
        )
    return tuple(notes)


def _cautions() -> tuple[Note, ...]:
    swings = {row["severity"]: row for row in rows("knock")}
    said = {
        name: " to ".join(show_both(float(row[end]), Kind.PRESSURE_GAUGE) for end in ("low", "high"))
        for name, row in swings.items()
    }
    text = f"holds only without detonation: light adds {said['light']}, heavy {said['heavy']} and more"
    return (Note(text, swings["light"]["source"]),)
