"""Core numbers in the words of one family of units, metric or inch, with digits that make sense.

>>> show(0.1016, Kind.LENGTH, "inch"), show(65000.0, Kind.TORQUE, "inch")
('0.0040 in', '48 lbf·ft')
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from firedeck.errors import BadQuantity
from firedeck.quantity.kinds import Kind, called, is_number
from firedeck.quantity.units import in_unit

System = Literal["mm", "inch"]


@dataclass(frozen=True)
class _Style:
    """One unit on show: used up to ``most`` of itself; ``digits`` = pairs (below this size, decimals)."""

    unit: str
    digits: tuple[tuple[float, int], ...]
    most: float = math.inf
    keep_noughts: bool = False
    label: str = ""


_ANY = math.inf
_FORCE_LIKE = ((100.0, 1), (_ANY, 0))

_MM: Mapping[Kind, tuple[_Style, ...]] = {
    Kind.LENGTH: (_Style("mm", ((10, 3), (100, 2), (_ANY, 1)), keep_noughts=True),),
    Kind.FINISH: (_Style("µm", ((10, 2), (100, 1), (_ANY, 0))),),
    Kind.AREA: (_Style("mm²", ((10, 2), (_ANY, 1)), most=1000), _Style("cm²", ((100, 2), (_ANY, 1)))),
    Kind.VOLUME: (_Style("cc", ((10, 2), (1000, 1), (_ANY, 0))),),
    Kind.FORCE: (_Style("N", _FORCE_LIKE, most=1000), _Style("kN", ((100, 2), (_ANY, 1)))),
    Kind.TORQUE: (_Style("N·m", ((25, 1), (_ANY, 0))),),
    Kind.STRESS: (_Style("MPa", ((10, 2), (100, 1), (_ANY, 0)), most=10000), _Style("GPa", ((_ANY, 1),))),
    Kind.PRESSURE_GAUGE: (_Style("bar", ((10, 2), (100, 1), (_ANY, 0))),),
    Kind.PRESSURE_ABSOLUTE: (_Style("bar abs", ((10, 3), (100, 1), (_ANY, 0))),),
    Kind.TEMPERATURE: (_Style("°C", ((_ANY, 1),)),),
    Kind.TEMPERATURE_CHANGE: (_Style("K", ((_ANY, 1),)),),
    Kind.STIFFNESS: (_Style("N/mm", _FORCE_LIKE, most=1000), _Style("kN/mm", ((100, 1), (_ANY, 0)))),
    Kind.LINE_LOAD: (_Style("N/mm", _FORCE_LIKE),),
    Kind.MASS: (_Style("kg", ((10, 3), (100, 1), (_ANY, 0))),),
    Kind.DISTANCE: (_Style("m", ((_ANY, 0),), most=10000), _Style("km", ((100, 1), (_ANY, 0)))),
}
_INCH: Mapping[Kind, tuple[_Style, ...]] = {
    Kind.LENGTH: (_Style("in", ((10, 4), (_ANY, 3)), keep_noughts=True),),
    Kind.FINISH: (_Style("µin", ((10, 1), (_ANY, 0))),),
    Kind.AREA: (_Style("in²", ((1, 4), (10, 3), (_ANY, 2)), label="sq in"),),
    Kind.VOLUME: (_Style("cu in", ((10, 3), (100, 2), (_ANY, 1))),),
    Kind.FORCE: (_Style("lbf", _FORCE_LIKE),),
    Kind.TORQUE: (_Style("lbf·in", _FORCE_LIKE, most=300), _Style("lbf·ft", ((25, 1), (_ANY, 0)))),
    Kind.STRESS: (
        _Style("psi", _FORCE_LIKE, most=10000),
        _Style("ksi", ((100, 1), (_ANY, 0)), most=1000),
        _Style("Mpsi", ((_ANY, 1),)),
    ),
    Kind.PRESSURE_GAUGE: (_Style("psi", ((10, 1), (_ANY, 0))),),
    Kind.PRESSURE_ABSOLUTE: (_Style("psia", ((100, 1), (_ANY, 0))),),
    Kind.TEMPERATURE: (_Style("°F", ((_ANY, 1),)),),
    Kind.TEMPERATURE_CHANGE: (_Style("°F", ((_ANY, 1),)),),
    Kind.STIFFNESS: (_Style("lbf/in", _FORCE_LIKE, most=100000), _Style("Mlbf/in", ((10, 2), (_ANY, 1)))),
    Kind.LINE_LOAD: (_Style("lbf/in", _FORCE_LIKE),),
    Kind.MASS: (_Style("lb", ((10, 2), (_ANY, 1))),),
    Kind.DISTANCE: (
        _Style("ft", ((_ANY, 0),), most=26400),
        _Style("mile", ((100, 1), (_ANY, 0)), label="miles"),
    ),
}
_BOTH: Mapping[Kind, tuple[_Style, ...]] = {
    Kind.ANGLE: (_Style("deg", ((10, 2), (_ANY, 1)), label="°"),),
    Kind.TIME: (
        _Style("s", ((10, 2), (_ANY, 0)), most=120),
        _Style("min", ((_ANY, 1),), most=120),
        _Style("h", ((_ANY, 1),), most=72),
        _Style("day", ((_ANY, 1),), label="days"),
    ),
    Kind.SPECIFIC_ENERGY: (_Style("kJ/kg", ((100, 1), (_ANY, 0))),),
    Kind.SPEED: (_Style("rpm", ((_ANY, 0),)),),
    Kind.RATIO: (_Style("1", ((1, 3), (_ANY, 2)), label="-"),),
    Kind.SHARE: (_Style("%", ((10, 1), (_ANY, 0))),),
    Kind.COUNT: (_Style("1", ((_ANY, 0),), label="-"),),
    Kind.HARDNESS: (_Style("HB", ((_ANY, 1),), label="-"),),
}


def show(value: float, kind: Kind, system: System) -> str:
    """A core number for people, in the metric or the inch family.

    Parameters
    ----------
    value : float
        The number [core unit].
    kind : Kind
        Its kind.
    system : "mm" or "inch"
        The family of units.

    Returns
    -------
    str
        Number and unit; at least two significant digits, so that a small reading is never shown as
        nought. A hardness shows its number only, its scale stands in the text that was typed [text].

    Raises
    ------
    BadQuantity
        If the number is not finite or the kind has no number.

    Source
    ------
    [common-practice] digits a mechanic can measure.

    Examples
    --------
    >>> show(0.1016, Kind.LENGTH, "mm"), show(0.1016, Kind.LENGTH, "inch")
    ('0.102 mm', '0.0040 in')
    >>> show(1.2, Kind.PRESSURE_GAUGE, "mm"), show(1.2, Kind.PRESSURE_GAUGE, "inch")
    ('12 bar', '174 psi')
    >>> show(0.0008, Kind.FINISH, "mm"), show(0.0008, Kind.FINISH, "inch")
    ('0.8 µm', '31 µin')
    """
    if not is_number(kind):
        raise BadQuantity(str(value), f"{called(kind)} is shown as it is and has no number")
    _finite(value)
    styles = _BOTH.get(kind) or (_MM if system == "mm" else _INCH)[kind]
    style, shown = _fitting(value, kind, styles)
    figures = _figures(shown, style)
    if style.label == "-":
        return figures
    label = style.label or style.unit
    return f"{figures}{label}" if label == "°" else f"{figures} {label}"


def show_both(value: float, kind: Kind, first: System = "mm") -> str:
    """A core number in both families, the second in brackets; once where both say the same.

    Parameters
    ----------
    value : float
        The number [core unit].
    kind : Kind
        Its kind.
    first : "mm" or "inch"
        Which family leads.

    Returns
    -------
    str
        Such as ``0.102 mm (0.0040 in)`` [text].

    Source
    ------
    [common-practice] digits a mechanic can measure.

    Examples
    --------
    >>> show_both(0.1016, Kind.LENGTH), show_both(0.1016, Kind.LENGTH, first="inch")
    ('0.102 mm (0.0040 in)', '0.0040 in (0.102 mm)')
    >>> show_both(0.75, Kind.SHARE)
    '75 %'
    """
    leading = show(value, kind, first)
    other = show(value, kind, "inch" if first == "mm" else "mm")
    return leading if leading == other else f"{leading} ({other})"


def number(value: float, digits: int = 6) -> str:
    """A number with so many significant digits, written out, without noughts at its end.

    Parameters
    ----------
    value : float
        Any number [any unit].
    digits : int
        Significant digits [1].

    Returns
    -------
    str
        Plain decimals from 1e-6 up to 1e12, else with an exponent [text].

    Raises
    ------
    BadQuantity
        If the number is not finite.

    Source
    ------
    [generic-ours] six digits, so that a printed sum can be done again to five.

    Examples
    --------
    >>> number(1234567.8), number(0.00012345678), number(24.0)
    ('1234570', '0.000123457', '24')
    """
    _finite(value)
    rounded = Decimal(f"{value:.{digits - 1}e}")
    if rounded == 0:
        return "0"
    if not -6 <= rounded.adjusted() < 12:
        return f"{rounded.normalize():e}".replace("e+", "e")
    return f"{rounded.normalize():f}"


def _fitting(value: float, kind: Kind, styles: tuple[_Style, ...]) -> tuple[_Style, float]:
    for style in styles:
        shown = in_unit(value, kind, style.unit)
        if abs(shown) < style.most:
            return style, shown
    return styles[-1], in_unit(value, kind, styles[-1].unit)


def _figures(shown: float, style: _Style) -> str:
    decimals = next(count for below, count in style.digits if abs(shown) < below or below == _ANY)
    if shown != 0 and style.unit != "1":
        decimals = max(decimals, 1 - math.floor(math.log10(abs(shown))))
    text = f"{shown:.{decimals}f}"
    if "." in text and not style.keep_noughts:
        text = text.rstrip("0").rstrip(".")
    return "0" if float(text) == 0 else text


def _finite(value: float) -> None:
    if not math.isfinite(value):
        raise BadQuantity(str(value), "a finite number")
