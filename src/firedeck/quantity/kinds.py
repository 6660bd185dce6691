"""The kinds of quantity, and what each kind is measured in.

A kind says which units a text may carry and in which core unit the number is kept. Kinds that share
a unit but not a meaning stay apart: a temperature and a temperature change, a gauge and an absolute
pressure, a length and a finish.

>>> core_unit(Kind.TORQUE)
'N·mm'
"""

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """What sort of thing a quantity is; the value is the word used in ``terms.toml``."""

    LENGTH = "length"
    FINISH = "finish"
    AREA = "area"
    VOLUME = "volume"
    ANGLE = "angle"
    FORCE = "force"
    TORQUE = "torque"
    STRESS = "stress"
    PRESSURE_GAUGE = "pressure-gauge"
    PRESSURE_ABSOLUTE = "pressure-absolute"
    TEMPERATURE = "temperature"
    TEMPERATURE_CHANGE = "temperature-change"
    STIFFNESS = "stiffness"
    LINE_LOAD = "line-load"
    MASS = "mass"
    SPECIFIC_ENERGY = "specific-energy"
    TIME = "time"
    DISTANCE = "distance"
    SPEED = "speed"
    RATIO = "ratio"
    SHARE = "share"
    COUNT = "count"
    HARDNESS = "hardness"
    CHOICE = "choice"
    TEXT = "text"


@dataclass(frozen=True)
class _Form:
    """How one kind is kept, handed out and asked for."""

    core: str
    json: str | None
    called: str
    ask: tuple[str, ...] = ()
    signed: bool = True


_FORMS = {
    Kind.LENGTH: _Form("mm", "mm", "a length", ("mm", "in")),
    Kind.FINISH: _Form("mm", "µm", "a finish", ("µm", "µin"), signed=False),
    Kind.AREA: _Form("mm²", "mm²", "an area", ("cm²", "sq in"), signed=False),
    Kind.VOLUME: _Form("mm³", "cc", "a volume", ("cc", "cu in")),
    Kind.ANGLE: _Form("rad", "deg", "an angle", ("deg", "turn")),
    Kind.FORCE: _Form("N", "N", "a force", ("N", "lbf")),
    Kind.TORQUE: _Form("N·mm", "N·mm", "a torque", ("N·m", "lb-ft")),
    Kind.STRESS: _Form("MPa", "MPa", "a stress", ("MPa", "psi")),
    Kind.PRESSURE_GAUGE: _Form("MPa", "MPa", "a gauge pressure", ("psi", "bar")),
    Kind.PRESSURE_ABSOLUTE: _Form("MPa", "MPa", "an absolute pressure", ("kPa", "psia"), signed=False),
    Kind.TEMPERATURE: _Form("°C", "°C", "a temperature", ("°C", "°F")),
    Kind.TEMPERATURE_CHANGE: _Form("K", "K", "a temperature change", ("K", "°F")),
    Kind.STIFFNESS: _Form("N/mm", "N/mm", "a stiffness", ("N/mm", "lbf/in"), signed=False),
    Kind.LINE_LOAD: _Form("N/mm", "N/mm", "a load per length", ("N/mm", "lbf/in")),
    Kind.MASS: _Form("kg", "kg", "a mass", ("kg", "lb"), signed=False),
    Kind.SPECIFIC_ENERGY: _Form("kJ/kg", "kJ/kg", "a heat per mass", ("kJ/kg", "BTU/lb"), signed=False),
    Kind.TIME: _Form("s", "s", "a time", ("min", "h"), signed=False),
    Kind.DISTANCE: _Form("mm", "mm", "a distance", ("km", "miles")),
    Kind.SPEED: _Form("rpm", "rpm", "a speed of turning", ("rpm",), signed=False),
    Kind.RATIO: _Form("1", "1", "a plain ratio"),
    Kind.SHARE: _Form("1", "%", "a share"),
    Kind.COUNT: _Form("1", "1", "a count", signed=False),
    Kind.HARDNESS: _Form("as typed", None, "a hardness", ("HB", "HV"), signed=False),
    Kind.CHOICE: _Form("", None, "a choice of words"),
    Kind.TEXT: _Form("", None, "a text"),
}


def core_unit(kind: Kind) -> str:
    """Unit in which the core number of a kind is kept.

    Parameters
    ----------
    kind : Kind
        The kind asked about [kind].

    Returns
    -------
    str
        Name of the unit; ``1`` for plain numbers, ``as typed`` for a hardness, empty for words [text].

    Source
    ------
    [generic-ours] one unit per kind, so that physics never converts.

    Examples
    --------
    >>> core_unit(Kind.PRESSURE_GAUGE), core_unit(Kind.ANGLE), core_unit(Kind.VOLUME)
    ('MPa', 'rad', 'mm³')
    """
    return _FORMS[kind].core


def json_unit(kind: Kind) -> str | None:
    """Unit in which ``--json`` prints a kind.

    Parameters
    ----------
    kind : Kind
        The kind asked about [kind].

    Returns
    -------
    str or None
        Name of the unit; None for words and for a hardness, whose scale stands in its text [text].

    Source
    ------
    [generic-ours] the public list of units of ``firedeck sum --json``.

    Examples
    --------
    >>> json_unit(Kind.VOLUME), json_unit(Kind.FINISH), json_unit(Kind.ANGLE), json_unit(Kind.SHARE)
    ('cc', 'µm', 'deg', '%')
    """
    return _FORMS[kind].json


def called(kind: Kind) -> str:
    """The kind with its article, for a sentence.

    >>> called(Kind.PRESSURE_GAUGE)
    'a gauge pressure'
    """
    return _FORMS[kind].called


def asked_units(kind: Kind) -> tuple[str, ...]:
    """Units offered to somebody who typed a bare number; empty where a bare number is right.

    >>> asked_units(Kind.FINISH)
    ('µm', 'µin')
    """
    return _FORMS[kind].ask


def may_be_negative(kind: Kind) -> bool:
    """Whether a minus sign makes sense for this kind.

    >>> may_be_negative(Kind.LENGTH), may_be_negative(Kind.PRESSURE_ABSOLUTE)
    (True, False)
    """
    return _FORMS[kind].signed


def is_number(kind: Kind) -> bool:
    """Whether the kind has a number at all; choices and texts have none.

    Parameters
    ----------
    kind : Kind
        The kind asked about [kind].

    Returns
    -------
    bool
        False for choices and texts [truth].

    Source
    ------
    [generic-ours] the list of kinds.

    Examples
    --------
    >>> is_number(Kind.CHOICE)
    False
    """
    return kind not in (Kind.CHOICE, Kind.TEXT)
