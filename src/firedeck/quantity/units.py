"""Finding a unit by what was typed, and going between units and core numbers.

>>> find("ft-lbs", Kind.TORQUE).name
'lbf·ft'
"""

import math
import re
from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType

from firedeck.errors import BadQuantity
from firedeck.quantity.characters import plain
from firedeck.quantity.factors import ROWS, Unit
from firedeck.quantity.kinds import Kind, called

UNITS: Mapping[Kind, tuple[Unit, ...]] = MappingProxyType(
    {kind: tuple(row for row in ROWS if kind in row.kinds) for kind in Kind}
)

_SPELT = {(kind, spelling): row for row in ROWS for kind in row.kinds for spelling in row.spellings or ("",)}
_FOLDED = {
    (kind, spelling.casefold()): row
    for row in ROWS
    if not row.exact_case
    for kind in row.kinds
    for spelling in row.spellings
}


def key(written: str) -> str:
    """The bare form of a unit: words joined by ``.``, divided by ``/``, powers as digits.

    >>> key("ft - lbs"), key("cu. in."), key("kgf/cm^2"), key("lbf per in")
    ('ft.lbs', 'cu.in', 'kgf/cm2', 'lbf/in')
    """
    joined = re.sub(r"\bper\b", "/", written.replace("^", ""))
    joined = re.sub(r"[\s.*-]+", ".", joined).strip(".")
    return re.sub(r"\.?([/:])\.?", r"\1", joined)


@lru_cache(maxsize=2048)
def find(written: str, kind: Kind) -> Unit | None:
    """The unit of this kind that somebody spelt so, or None.

    Parameters
    ----------
    written : str
        The unit as typed, without its number.
    kind : Kind
        The kind of quantity it belongs to.

    Returns
    -------
    Unit or None
        Capitals do not matter, unless they change the size (MPa, MN/m).

    Source
    ------
    [generic-ours] spellings of the table of factors.

    Examples
    --------
    >>> find("PSI", Kind.PRESSURE_GAUGE).name
    'psi'
    >>> find("mpa", Kind.STRESS) is None
    True
    """
    bare = key(plain(written))
    return _SPELT.get((kind, bare)) or _FOLDED.get((kind, bare.casefold()))


def kinds_of(written: str) -> tuple[Kind, ...]:
    """Every kind that knows a unit spelt so.

    >>> [str(kind) for kind in kinds_of("psia")]
    ['pressure-absolute']
    """
    return tuple(kind for kind in Kind if written.strip() and find(written, kind))


def to_core(exact: Fraction, kind: Kind) -> float:
    """The core number of an exact one; angles go from exact degrees to radians.

    >>> to_core(Fraction(180), Kind.ANGLE) == math.pi
    True
    """
    number = float(exact)
    return math.radians(number) if kind is Kind.ANGLE else number


def in_unit(value: float, kind: Kind, unit: str) -> float:
    """A core number in another unit.

    Parameters
    ----------
    value : float
        The number in the core unit of its kind [core unit].
    kind : Kind
        Its kind.
    unit : str
        The unit wanted, in any spelling; ``1`` for a plain number.

    Returns
    -------
    float
        The number in that unit [unit].

    Raises
    ------
    BadQuantity
        If the unit is not one of this kind.

    Source
    ------
    [si-brochure] and [nist-sp811], by the table of factors.

    Examples
    --------
    >>> in_unit(0.1016, Kind.LENGTH, "in")
    0.004
    >>> round(in_unit(65000.0, Kind.TORQUE, "lb-ft"), 3)
    47.942
    >>> in_unit(20.0, Kind.TEMPERATURE, "°F")
    68.0
    """
    row = _row(kind, unit)
    exact = Fraction(math.degrees(value) if kind is Kind.ANGLE else value)
    return float(exact / row.factor + row.zero)


def from_unit(number: float | Fraction, kind: Kind, unit: str) -> float:
    """The core number of a number in a stated unit; for columns of figures with the unit in the header.

    Parameters
    ----------
    number : float or Fraction
        The number in that unit [unit].
    kind : Kind
        Its kind.
    unit : str
        The unit, in any spelling; ``1`` for a plain number.

    Returns
    -------
    float
        The number in the core unit of the kind [core unit].

    Raises
    ------
    BadQuantity
        If the unit is not one of this kind.

    Source
    ------
    [si-brochure] and [nist-sp811], by the table of factors.

    Examples
    --------
    >>> from_unit(4, Kind.LENGTH, "thou")
    0.1016
    >>> from_unit(90, Kind.ANGLE, "deg") == math.pi / 2
    True
    """
    row = _row(kind, unit)
    return to_core((Fraction(number) - row.zero) * row.factor, kind)


def _row(kind: Kind, unit: str) -> Unit:
    row = find("" if unit == "1" else unit, kind)
    if row is None:
        names = ", ".join(row.name for row in UNITS[kind] if row.name) or "no unit"
        raise BadQuantity(unit, f"units of {called(kind)}: {names}")
    return row
