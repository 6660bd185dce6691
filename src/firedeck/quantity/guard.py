"""The plausibility guard: names the classic slips of units, and changes nothing.

Micro-inch read as millimetre, thou for millimetre, the factor 25.4, inch-pounds as foot-pounds, psi
for bar: each makes a number that no engine has, and another unit puts it right.
"""

from collections.abc import Mapping

from firedeck.errors import BadQuantity
from firedeck.quantity.kinds import Kind
from firedeck.quantity.reading import Quantity
from firedeck.quantity.showing import show_both
from firedeck.quantity.units import find, from_unit, in_unit

_PRESSURE = {
    "psi": ("bar", "kPa"), "bar": ("psi", "kPa", "mbar"), "kPa": ("psi", "bar"), "MPa": ("bar", "psi"),
    "mbar": ("bar",), "psig": ("bar", "kPa"), "bar gauge": ("psi",), "psia": ("bar abs", "kPa"),
    "bar abs": ("psia", "kPa"), "hPa": ("kPa",), "inHg": ("mmHg", "psi"), "mmHg": ("inHg", "hPa"),
}  # fmt: skip
SLIPS: Mapping[Kind, Mapping[str, tuple[str, ...]]] = {
    Kind.LENGTH: {
        "mm": ("in", "thou", "µm", "µin", "cm"), "in": ("mm", "thou", "µin"), "thou": ("mm", "in", "µin"),
        "µm": ("mm", "thou"), "µin": ("thou", "mm"), "cm": ("mm", "in"), "m": ("mm",), "ft": ("in",),
    },
    Kind.FINISH: {
        "mm": ("µm", "µin"), "in": ("µin", "µm"), "thou": ("µin", "µm"), "µm": ("µin", "nm"),
        "µin": ("µm",), "nm": ("µm",),
    },
    Kind.AREA: {"mm²": ("cm²", "in²"), "cm²": ("mm²", "in²"), "in²": ("cm²", "mm²"), "m²": ("cm²",)},
    Kind.VOLUME: {
        "cc": ("cu in", "l", "mm³"), "cu in": ("cc", "l"), "l": ("cc", "cu in"), "mm³": ("cc",),
    },
    Kind.TORQUE: {
        "lbf·ft": ("lbf·in", "N·m"), "lbf·in": ("lbf·ft", "N·m"),
        "N·m": ("lbf·ft", "lbf·in", "kgf·m", "N·mm"),
        "kgf·m": ("N·m", "lbf·ft", "kgf·cm"), "daN·m": ("N·m",), "kgf·cm": ("kgf·m",), "N·mm": ("N·m",),
        "N·cm": ("N·m",), "kN·m": ("N·m",),
    },
    Kind.FORCE: {"N": ("lbf", "kN", "kgf"), "lbf": ("N", "kip"), "kN": ("N", "lbf"), "kgf": ("N", "lbf"),
                 "kip": ("lbf",), "daN": ("N",)},
    Kind.STRESS: {"MPa": ("psi", "ksi", "GPa"), "psi": ("MPa", "ksi"), "ksi": ("MPa", "psi"),
                  "GPa": ("MPa", "Mpsi"), "Mpsi": ("GPa", "psi"), "bar": ("MPa",), "kPa": ("MPa",)},
    Kind.PRESSURE_GAUGE: _PRESSURE,
    Kind.PRESSURE_ABSOLUTE: _PRESSURE,
    Kind.TEMPERATURE: {"°C": ("°F", "K"), "°F": ("°C",), "K": ("°C", "°F")},
    Kind.TEMPERATURE_CHANGE: {"K": ("°F",), "°C": ("°F",), "°F": ("K",)},
    Kind.STIFFNESS: {"N/mm": ("kN/mm", "lbf/in"), "kN/mm": ("N/mm", "lbf/in"), "lbf/in": ("N/mm", "Mlbf/in"),
                     "Mlbf/in": ("lbf/in",), "MN/m": ("N/mm",)},
    Kind.MASS: {"kg": ("lb", "g"), "lb": ("kg",), "g": ("kg",)},
    Kind.DISTANCE: {"km": ("mile", "m"), "mile": ("km",), "m": ("km", "ft"), "ft": ("m",)},
    Kind.TIME: {"s": ("min", "h"), "min": ("h", "s"), "h": ("min", "day")},
    Kind.ANGLE: {"deg": ("turn", "rad"), "turn": ("deg",), "rad": ("deg",), "arcsec": ("deg",)},
    Kind.SHARE: {"": ("%",), "%": ("",)},
}  # fmt: skip
"""For each unit that was typed, the units it is confused with, the commonest first."""


def slips(q: Quantity, low: float, high: float) -> str | None:
    """Say if a quantity is not plausible, and which slip of units would explain it.

    Parameters
    ----------
    q : Quantity
        The quantity as typed; it is not changed.
    low, high : float
        The plausible range [core unit].

    Returns
    -------
    str or None
        None inside the range (ends included), else one line [text].

    Raises
    ------
    BadQuantity
        If the range is crossed.

    Source
    ------
    [common-practice] slips seen again and again in workshops.

    Examples
    --------
    >>> from firedeck.quantity import parse
    >>> slips(parse("5 thou", Kind.LENGTH), -1.0, 3.0) is None
    True
    >>> slips(parse("5 mm", Kind.LENGTH), 0.0, 0.3)
    '5 mm is outside what is usual, 0 mm to 0.300 mm (0 in to 0.0118 in): was 5 thou or 5 µm meant?'
    """
    if low > high:
        raise BadQuantity(f"{low} to {high}", "a plausible range from the lower to the higher end")
    if low <= q.value <= high:
        return None
    usual = _usual(q.kind, low, high)
    meant = [unit for unit in SLIPS.get(q.kind, {}).get(q.unit, ()) if low <= _if_read_as(q, unit) <= high]
    says = f"{' '.join(str(q).split())} is outside what is usual, {usual}"
    if not meant:
        return f"{says}: check the reading and its unit"
    return f"{says}: was {' or '.join(_written(q, unit) for unit in meant[:2])} meant?"


def _usual(kind: Kind, low: float, high: float) -> str:
    ends = [show_both(end, kind) for end in (low, high)]
    pairs = [end.rstrip(")").split(" (") for end in ends]
    if any(len(pair) == 1 for pair in pairs):
        return " to ".join(ends)
    return f"{pairs[0][0]} to {pairs[1][0]} ({pairs[0][1]} to {pairs[1][1]})"


def _typed_number(q: Quantity) -> float:
    return in_unit(q.value, q.kind, q.unit)


def _if_read_as(q: Quantity, unit: str) -> float:
    return from_unit(_typed_number(q), q.kind, unit)


def _written(q: Quantity, unit: str) -> str:
    row = find(unit, q.kind)
    return f"{_typed_number(q):.6g} {row.name if row else unit}".strip()
