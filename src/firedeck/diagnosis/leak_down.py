"""Leak-down: air through a restrictor into the cylinder and out through the leak."""

from dataclasses import dataclass

from firedeck.diagnosis.ambient import ambient_pressure
from firedeck.errors import DidNotConverge, OutOfRange
from firedeck.quantity import Kind, show_both
from firedeck.trace import RUN, Figure, Note, Step, as_printed, evaluate

_KAPPA: Figure = (1.4, "1")
_CRITICAL = "(2 / (kappa + 1))**(kappa / (kappa - 1))"
_FLOW = (
    "{up} * sqrt(2 * kappa / (kappa - 1) * (max({down} / {up}, {critical})**(2 / kappa)"
    " - max({down} / {up}, {critical})**((kappa + 1) / kappa)))"
)
_IN = _FLOW.format(up="absolute_supply", down="absolute_reading", critical=_CRITICAL)
_OUT = _FLOW.format(up="absolute_reading", down="ambient", critical=_CRITICAL)
_ROUNDS = 200


@dataclass(frozen=True)
class LeakDown:
    """Result of a leak-down reading.

    ``share`` of the supply that is lost [1], ``reading`` above ambient [MPa], ``area`` of the leak
    as an orifice as good as the restrictor [mm²] and ``hole`` its diameter [mm]; None where no
    restrictor is known.
    """

    share: float
    reading: float
    area: float | None
    hole: float | None
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def leak_down(
    supply: float,
    *,
    restrictor: float | None = None,
    reading: float | None = None,
    leak_hole: float | None = None,
    restrictor_length: float | None = None,
    altitude: float = 0.0,
) -> LeakDown:
    """Leak of a cylinder from the two gauges, or the reading a given hole would give.

    Parameters
    ----------
    supply : float
        First gauge, above ambient [MPa].
    restrictor : float, optional
        Diameter of the restrictor in the tester [mm].
    reading : float, optional
        Second gauge, above ambient [MPa].
    leak_hole : float, optional
        Diameter of a hole that leaks as much, in place of the reading [mm].
    restrictor_length : float, optional
        Length of the restrictor; kept for the record, the sum does not use it [mm].
    altitude : float
        Height above the sea [mm].

    Returns
    -------
    LeakDown
        Share lost, reading, leak area and hole with the written sum [core].

    Raises
    ------
    OutOfRange
        If a pressure or size is not positive, the reading is above the supply, or not exactly one
        of reading and leak_hole is given.

    Valid for
    ---------
    Isentropic air, the same discharge coefficient in restrictor and leak, steady gauges.

    Source
    ------
    [derived] flow of a perfect gas through an orifice, choked where it must be.

    Examples
    --------
    >>> psi = 0.00689476
    >>> found = leak_down(supply=80 * psi, reading=60 * psi, restrictor=1.016)
    >>> round(found.share, 3), round(found.area / (0.7853982 * 1.016**2), 3)
    (0.25, 1.059)
    """
    _positive(supply=supply, restrictor=restrictor, leak_hole=leak_hole, restrictor_length=restrictor_length)
    if (reading is None) == (leak_hole is None):
        found = "neither" if reading is None else "both"
        raise OutOfRange("reading", f"{found} of reading and leak_hole", "give exactly one of them")
    ambient = ambient_pressure(altitude)
    before = _absolute("Supply above nothing", "supply", supply, ambient)
    if reading is not None:
        return _from_reading(supply, reading, restrictor, (ambient, before), _notes(restrictor_length))
    if restrictor is None or leak_hole is None:
        raise OutOfRange("restrictor", "nothing", "its diameter is needed to work out the reading of a hole")
    return _from_hole(supply, leak_hole, restrictor, (ambient, before), _notes(restrictor_length))


def _positive(**sizes: float | None) -> None:
    for name, size in sizes.items():
        if size is not None and size <= 0.0:
            raise OutOfRange(name, f"{size:.6g}", "must be above zero")


def _absolute(says: str, name: str, gauge: float, ambient: Step) -> Step:
    inputs = {name: (gauge, "MPa"), "ambient": ambient.figure()}
    return Step.work_out(says, f"{name} + ambient", inputs, (f"absolute_{name}", "MPa"), "derived")


def _lost(supply: float, reading: Figure) -> Step:
    inputs = {"reading": (as_printed(reading[0]), reading[1]), "supply": (as_printed(supply), "MPa")}
    return Step.work_out(
        "Share of the supply lost", "1 - reading / supply", inputs, ("leak_percent", "1"), "derived"
    )


def _hole_area(says: str, name: str, diameter: float) -> Step:
    inputs = {name: (diameter, "mm")}
    return Step.work_out(says, f"pi / 4 * {name}**2", inputs, (f"{name}_area", "mm²"), "derived")


def _from_reading(
    supply: float, reading: float, restrictor: float | None, air: tuple[Step, Step], notes: tuple[Note, ...]
) -> LeakDown:
    if not 0.0 <= reading <= supply:
        most = show_both(supply, Kind.PRESSURE_GAUGE)
        found = show_both(reading, Kind.PRESSURE_GAUGE)
        raise OutOfRange("reading", found, f"allowed: 0 to the supply, {most}")
    lost = _lost(supply, (reading, "MPa"))
    if restrictor is None or reading == 0.0:
        why = "The restrictor is not stated" if restrictor is None else "Nothing is held"
        note = Note(f"{why}: no size of hole can be worked out.", "derived")
        return LeakDown(1 - reading / supply, reading, None, None, (lost,), (*notes, note))
    ambient, before = air
    held = _absolute("Reading above nothing", "reading", reading, ambient)
    flow_in = Step.work_out(
        "Flow through each mm² of restrictor (times a constant of the air)",
        _IN,
        {"absolute_supply": before.figure(), "absolute_reading": held.figure(), "kappa": _KAPPA},
        ("flow_in", "MPa"),
        "derived",
    )
    flow_out = Step.work_out(
        "Flow through each mm² of leak (times the same constant)",
        _OUT,
        {"absolute_reading": held.figure(), "ambient": ambient.figure(), "kappa": _KAPPA},
        ("flow_out", "MPa"),
        "derived",
    )
    bore = _hole_area("Area of the restrictor", "restrictor", restrictor)
    area = Step.work_out(
        "Leak area: what goes in comes out",
        "restrictor_area * flow_in / flow_out",
        {"restrictor_area": bore.figure(), "flow_in": flow_in.figure(), "flow_out": flow_out.figure()},
        ("leak_area", "mm²"),
        "derived",
    )
    hole = Step.work_out(
        "One round hole of that area",
        "sqrt(4 * leak_area / pi)",
        {"leak_area": area.figure()},
        ("leak_hole", "mm"),
        "derived",
    )
    steps = (*air, lost, held, flow_in, flow_out, bore, area, hole)
    return LeakDown(1 - reading / supply, reading, area.value, hole.value, steps, notes)


def _from_hole(
    supply: float, leak_hole: float, restrictor: float, air: tuple[Step, Step], notes: tuple[Note, ...]
) -> LeakDown:
    ambient, before = air
    bore = _hole_area("Area of the restrictor", "restrictor", restrictor)
    leak = _hole_area("Area of the leak", "leak_hole", leak_hole)
    held = _balance(before.value, ambient.value, bore.value, leak.value)
    solved: Figure = (held, "MPa")
    inputs = {
        "restrictor_area": bore.figure(),
        "leak_hole_area": leak.figure(),
        "kappa": _KAPPA,
        "absolute_supply": before.figure(),
        "absolute_reading": solved,
        "ambient": ambient.figure(),
    }
    # worked out by halving; printed as the flow in over the flow out, which must be one
    balance = Step.work_out(
        "Flow in over flow out at that reading: must be 1",
        f"(restrictor_area * {_IN}) / (leak_hole_area * {_OUT})",
        inputs,
        ("balance", "1"),
        f"{RUN}halving",
    )
    reading = Step.work_out(
        "Reading above ambient",
        "absolute_reading - ambient",
        {"absolute_reading": solved, "ambient": ambient.figure()},
        ("reading", "MPa"),
        f"{RUN}halving",
    )
    lost = _lost(supply, reading.figure())
    steps = (*air, bore, leak, balance, reading, lost)
    return LeakDown(1 - reading.value / supply, reading.value, leak.value, leak_hole, steps, notes)


def _balance(supply: float, ambient: float, restrictor_area: float, leak_area: float) -> float:
    """Absolute reading at which as much air goes out as comes in, by halving."""
    low, high = ambient, supply
    for _ in range(_ROUNDS):
        middle = (low + high) / 2
        values = {
            "absolute_supply": supply,
            "absolute_reading": middle,
            "ambient": ambient,
            "kappa": _KAPPA[0],
        }
        left = restrictor_area * evaluate(_IN, values) - leak_area * evaluate(_OUT, values)
        low, high = (middle, high) if left > 0.0 else (low, middle)
        if high - low <= 1e-13 * supply:
            return (low + high) / 2
    raise DidNotConverge("reading of the second gauge", _ROUNDS, high - low)


def _notes(restrictor_length: float | None) -> tuple[Note, ...]:
    compare = Note(
        "Testers with other restrictors or supplies do not compare by reading, only by leak area.", "derived"
    )
    equal = Note("Air without loss or heat exchange, restrictor and leak equally good orifices.", "derived")
    if restrictor_length is None:
        return (equal, compare)
    kept = Note("The length of the restrictor is kept but not part of the sum.", "derived")
    return (equal, compare, kept)
