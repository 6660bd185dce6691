"""Textbook cycles: heat at constant volume (otto), at constant pressure (diesel), or both (dual)."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from firedeck.cylinder.air import ZERO_CELSIUS
from firedeck.cylinder.bounds import positive, within
from firedeck.cylinder.routes import Route, chosen
from firedeck.cylinder.working_gas import ColdAir, WorkingGas
from firedeck.errors import JobError, OutOfRange
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, Note, Step

KINDS = ("otto", "diesel", "dual")
_HEAT = Route(("heat",))
_FUEL = Route(("lower_heating_value", "air_fuel_ratio"))
_TOP = Route(("temperature_limit",))
_ROUTES = {
    "otto": (_HEAT, _FUEL, _TOP, Route(("pressure_ratio",)), Route(())),
    "diesel": (_HEAT, _FUEL, _TOP, Route(("cutoff_ratio",))),
    "dual": (
        Route(("heat", "pressure_ratio")),
        Route(("lower_heating_value", "air_fuel_ratio", "pressure_ratio")),
        Route(("temperature_limit", "pressure_ratio")),
        Route(("cutoff_ratio", "pressure_ratio")),
    ),
}


@dataclass(frozen=True)
class CycleState:
    """One corner of the cycle: pressure, absolute [MPa], temperature [K], volume over the smallest [1]."""

    corner: int
    pressure: float
    kelvin: float
    volume_ratio: float

    @property
    def celsius(self) -> float:
        """Temperature [°C]."""
        return self.kelvin - ZERO_CELSIUS


@dataclass(frozen=True)
class IdealCycle:
    """Corners, peak and mean effective pressure [MPa], efficiency and cut-off [1], heats and work [kJ/kg].

    Without any heat, only the compression of a cold-air otto cycle and its efficiency are known: then
    peak and mean effective pressure are None.
    """

    states: tuple[CycleState, ...]
    peak_pressure: float | None
    efficiency: float
    mean_effective_pressure: float | None
    heat_in: float
    heat_out: float
    work: float
    cutoff_share: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()


def ideal_cycle(
    *,
    kind: str,
    ratio: float,
    pressure: float,
    temperature: float,
    gas: WorkingGas | None = None,
    heat: float | None = None,
    lower_heating_value: float | None = None,
    air_fuel_ratio: float | None = None,
    temperature_limit: float | None = None,
    cutoff_ratio: float | None = None,
    pressure_ratio: float | None = None,
) -> IdealCycle:
    """Work out a textbook cycle.

    Parameters
    ----------
    kind : str
        otto, diesel or dual [text].
    ratio : float
        Compression ratio [1].
    pressure : float
        At the start of compression, absolute [MPa].
    temperature : float
        At the start of compression [°C].
    gas : WorkingGas, optional
        Cold air when left out [core].
    heat : float, optional
        Heat per mass of charge [kJ/kg].
    lower_heating_value : float, optional
        Of the fuel, per mass of fuel [kJ/kg].
    air_fuel_ratio : float, optional
        Mass of air per mass of fuel [1].
    temperature_limit : float, optional
        Highest temperature of the cycle [°C].
    cutoff_ratio : float, optional
        Volume after over volume before the heat at constant pressure [1].
    pressure_ratio : float, optional
        Pressure after over pressure before the heat at constant volume [1].

    Returns
    -------
    IdealCycle
        Corners, peak pressure, absolute [MPa], efficiency [1], mean effective pressure [MPa].

    Raises
    ------
    JobError
        If the kind is another word, or the ways of giving the heat are mixed or incomplete.
    OutOfRange
        If a figure is outside what the cycle can do.

    Valid for
    ---------
    No losses, no leaks, heat at once: real peaks are lower.

    Source
    ------
    [cengel-boles] chapter 9.

    Examples
    --------
    >>> found = ideal_cycle(kind="otto", ratio=8.0, pressure=0.1, temperature=16.85, heat=800.0)
    >>> round(found.efficiency, 3)
    0.565
    """
    given = {
        "heat": heat,
        "lower_heating_value": lower_heating_value,
        "air_fuel_ratio": air_fuel_ratio,
        "temperature_limit": temperature_limit,
        "cutoff_ratio": cutoff_ratio,
        "pressure_ratio": pressure_ratio,
    }
    if kind not in KINDS:
        raise JobError("ideal-cycle kind", repr(kind), f"allowed: {', '.join(KINDS)}")
    chosen("ideal-cycle", given, _ROUTES[kind])
    figures = {name: value for name, value in given.items() if value is not None}
    within("ratio", ratio, 1.01, 60.0, "")
    positive("pressure", pressure, "MPa")
    air = gas if gas is not None else ColdAir()
    start = CycleState(1, pressure, temperature + ZERO_CELSIUS, ratio)
    within("temperature", start.kelvin, 200.0, 1000.0, "K")
    if not figures:
        return _compression_only(start, air)
    return _sums(_corners(kind, start, figures, air), air)


def _compression_only(start: CycleState, gas: WorkingGas) -> IdealCycle:
    """What is known of an otto cycle of cold air before any heat is given."""
    if not isinstance(gas, ColdAir):
        raise JobError(
            "ideal-cycle", "no heat", "with heat capacities that grow, the efficiency hangs on the heat"
        )
    squeezed = _next(start, gas.squeezed(start.kelvin, start.volume_ratio), 1.0)
    efficiency = Step.work_out(
        "Efficiency, whatever the heat",
        "1 - kelvin_1 / kelvin_2",
        {"kelvin_1": (start.kelvin, "K"), "kelvin_2": (squeezed.kelvin, "K")},
        ("efficiency", NO_UNIT),
        "cengel-boles",
    )
    note = Note("no heat given: only compression and efficiency are known", GENERIC)
    return IdealCycle(
        (start, squeezed), None, efficiency.value, None, 0.0, 0.0, 0.0, 0.0, (efficiency,), (note,)
    )


def _next(state: CycleState, kelvin: float, volume_ratio: float) -> CycleState:
    pressure = state.pressure * (kelvin / state.kelvin) * (state.volume_ratio / volume_ratio)
    return CycleState(state.corner + 1, pressure, kelvin, volume_ratio)


def _corners(
    kind: str, start: CycleState, figures: Mapping[str, float], gas: WorkingGas
) -> tuple[CycleState, ...]:
    squeezed = _next(start, gas.squeezed(start.kelvin, start.volume_ratio), 1.0)
    heat = _heat_given(figures)
    top = figures["temperature_limit"] + ZERO_CELSIUS if "temperature_limit" in figures else None
    states = [start, squeezed]
    if kind != "diesel":
        states.append(_at_constant_volume(squeezed, figures, heat, top, gas))
    if kind != "otto":
        left = None if heat is None else heat - (gas.energy(states[-1].kelvin) - gas.energy(squeezed.kelvin))
        states.append(_at_constant_pressure(states[-1], figures, left, top, gas))
    hot = states[-1]
    if hot.kelvin <= squeezed.kelvin:
        raise OutOfRange("temperature_limit", f"{hot.celsius:.4g} °C", f"above {squeezed.celsius:.4g} °C")
    within("cutoff_ratio", hot.volume_ratio, 1.0, start.volume_ratio, "")
    widened = gas.squeezed(hot.kelvin, hot.volume_ratio / start.volume_ratio)
    return (*states, _next(hot, widened, start.volume_ratio))


def _heat_given(figures: Mapping[str, float]) -> float | None:
    if "heat" in figures:
        positive("heat", figures["heat"], "kJ/kg")
        return figures["heat"]
    if "lower_heating_value" in figures:
        positive("lower_heating_value", figures["lower_heating_value"], "kJ/kg")
        positive("air_fuel_ratio", figures["air_fuel_ratio"], "")
        return figures["lower_heating_value"] / (1.0 + figures["air_fuel_ratio"])
    return None


def _at_constant_volume(
    state: CycleState,
    figures: Mapping[str, float],
    heat: float | None,
    top: float | None,
    gas: WorkingGas,
) -> CycleState:
    if "pressure_ratio" in figures:
        within("pressure_ratio", figures["pressure_ratio"], 1.0, 20.0, "")
        return _next(state, state.kelvin * figures["pressure_ratio"], 1.0)
    if top is not None:
        return _next(state, top, 1.0)
    return _next(state, gas.of_energy(gas.energy(state.kelvin) + (heat or 0.0)), 1.0)


def _at_constant_pressure(
    state: CycleState,
    figures: Mapping[str, float],
    heat: float | None,
    top: float | None,
    gas: WorkingGas,
) -> CycleState:
    if "cutoff_ratio" in figures:
        within("cutoff_ratio", figures["cutoff_ratio"], 1.0, 20.0, "")
        kelvin = state.kelvin * figures["cutoff_ratio"]
    elif top is not None:
        kelvin = top
    else:
        left = heat or 0.0
        if left < 0.0:
            found = f"{figures['pressure_ratio']:g}"
            raise OutOfRange("pressure_ratio", found, "takes more heat than is given")
        kelvin = gas.of_enthalpy(gas.energy(state.kelvin) + gas.gas_constant * state.kelvin + left)
    return _next(state, kelvin, state.volume_ratio * kelvin / state.kelvin)


def _sums(states: tuple[CycleState, ...], gas: WorkingGas) -> IdealCycle:
    first, squeezed, hot, last = states[0], states[1], states[-2], states[-1]
    compression = Step.work_out(
        "Pressure at the end of compression, absolute",
        "pressure_1 * ratio * kelvin_2 / kelvin_1",
        {
            "pressure_1": (first.pressure, "MPa"),
            "ratio": (first.volume_ratio, NO_UNIT),
            "kelvin_2": (squeezed.kelvin, "K"),
            "kelvin_1": (first.kelvin, "K"),
        },
        ("pressure_2", "MPa"),
        DERIVED,
    )
    peak = Step.work_out(
        "Peak pressure, absolute",
        "pressure_2 * kelvin_hot / kelvin_2 / cutoff_ratio",
        {
            "pressure_2": compression.figure(),
            "kelvin_hot": (hot.kelvin, "K"),
            "kelvin_2": (squeezed.kelvin, "K"),
            "cutoff_ratio": (hot.volume_ratio, NO_UNIT),
        },
        ("peak_pressure", "MPa"),
        DERIVED,
    )
    heat_in, heat_out = _heat_in(states, gas), gas.energy(last.kelvin) - gas.energy(first.kelvin)
    heats = {"heat_in": (heat_in, "kJ/kg"), "heat_out": (heat_out, "kJ/kg")}
    efficiency = Step.work_out(
        "Efficiency", "1 - heat_out / heat_in", heats, ("efficiency", NO_UNIT), "cengel-boles"
    )
    work = Step.work_out("Work per mass", "heat_in - heat_out", heats, ("work", "kJ/kg"), DERIVED)
    mean = mean_effective_pressure(
        work.value, first.pressure, first.kelvin, first.volume_ratio, gas.gas_constant
    )
    share = (hot.volume_ratio - 1.0) / (first.volume_ratio - 1.0)
    notes = (Note("ideal cycle: no loss of heat or gas, heat put in at once; real peaks are lower", GENERIC),)
    steps = (compression, peak, efficiency, work, mean)
    return IdealCycle(
        states, peak.value, efficiency.value, mean.value, heat_in, heat_out, work.value, share, steps, notes
    )


def _heat_in(states: tuple[CycleState, ...], gas: WorkingGas) -> float:
    whole = 0.0
    for before, after in pairwise(states[1:-1]):
        whole += gas.energy(after.kelvin) - gas.energy(before.kelvin)
        if after.volume_ratio != before.volume_ratio:
            whole += gas.gas_constant * (after.kelvin - before.kelvin)
    return whole


def mean_effective_pressure(
    work: float, pressure: float, kelvin: float, ratio: float, gas_constant: float = 0.287
) -> Step:
    """Written sum of the mean effective pressure of a cycle.

    Parameters
    ----------
    work : float
        Work per mass of gas [kJ/kg].
    pressure : float
        At the start of compression, absolute [MPa].
    kelvin : float
        Temperature there [K].
    ratio : float
        Compression ratio [1].
    gas_constant : float, optional
        Gas constant [kJ/(kg K)].

    Returns
    -------
    Step
        The sum; its value is the mean effective pressure [MPa].

    Source
    ------
    derived

    Examples
    --------
    >>> round(mean_effective_pressure(800.0, 0.1, 300.0, 10.0).value, 3)
    1.032
    """
    return Step.work_out(
        "Mean effective pressure: work over the volume swept",
        "work / 1000 / (gas_constant * kelvin_1 / (1000 * pressure_1) * (1 - 1 / ratio))",
        {
            "work": (work, "kJ/kg"),
            "gas_constant": (gas_constant, "kJ/(kg K)"),
            "kelvin_1": (kelvin, "K"),
            "pressure_1": (pressure, "MPa"),
            "ratio": (ratio, NO_UNIT),
        },
        ("mean_effective_pressure", "MPa"),
        DERIVED,
    )
