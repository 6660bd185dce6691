"""One figure of a procedure: a torque or a turn, alone, as a range, with a tolerance, in two units."""

import re

from firedeck.errors import BadQuantity
from firedeck.fasteners.procedure_lines import Setting
from firedeck.quantity import Kind, parse

_NUMBER = r"\d+/\d+|\d+(?:[.,]\d+)?"
_RANGE = re.compile(
    rf"^(?P<low>{_NUMBER})\s*(?P<unit>[^\d\s±][^\d±]*?)?\s*(?:-|–|—|−|\.{{2,3}}|…|\bto\b)\s*"
    rf"(?P<high>{_NUMBER})\s*(?P<last>[^\d\s].*)$"
)
_TOLERANCE = re.compile(
    rf"^(?P<middle>{_NUMBER})\s*(?P<unit>[^\d±]*?)\s*±\s*(?P<give>{_NUMBER})\s*(?P<last>[^\d]*)$"
)
_TWIN = re.compile(r"^(?P<main>[^()\[\]]+?)\s*[(\[]\s*(?P<twin>[^()\[\]]*?)\s*[)\]]$")
TWINS_AGREE = 0.05


def read_setting(text: str, kind: Kind) -> Setting:
    """Read one figure.

    Parameters
    ----------
    text : str
        As typed: ``40 N·m``, ``25-32 lb-ft``, ``60 ± 5 N·m``, ``30 N·m (22 lbf·ft)``, ``1/4 turn`` [text].
    kind : Kind
        Torque, angle, time or distance.

    Returns
    -------
    Setting
        The figure with its text [core].

    Raises
    ------
    BadQuantity
        If it is not one clear figure, not above nought, or the two units of a torque do not agree within
        five per cent.

    Source
    ------
    [generic-ours] the grammar of a procedure; manuals round the second unit, some by as much as 3 %.

    Examples
    --------
    >>> read_setting("25-32 lbf·ft", Kind.TORQUE).text
    '25-32 lbf·ft'
    >>> round(read_setting("60 ± 5 N·m", Kind.TORQUE).high)
    65000
    """
    flat = " ".join(text.split())
    twin = _TWIN.match(flat)
    if twin is None:
        return _one(flat, kind)
    setting, other = _one(twin["main"], kind), _one(twin["twin"], kind)
    for here, there in ((setting.low, other.low), (setting.high, other.high)):
        if abs(here - there) > TWINS_AGREE * here:
            raise BadQuantity(text, "the figure in brackets is another torque: keep the one the papers mean")
    return Setting(setting.low, setting.high, setting.text, kind, setting.unit, twin["twin"])


def _one(text: str, kind: Kind) -> Setting:
    low, high = _ends(text)
    first, second = parse(low, kind), parse(high, kind)
    if not 0 < first.value <= second.value:
        allowed = "above nought" if first.value <= 0 else "the smaller figure first"
        raise BadQuantity(text, f"{allowed}, such as {_EXAMPLES[kind]}")
    return Setting(first.value, second.value, text, kind, second.unit)


def _ends(text: str) -> tuple[str, str]:
    """Write both ends of a range or a tolerance as figures with their unit."""
    if match := _RANGE.match(text):
        return f"{match['low']} {match['unit'] or match['last']}", f"{match['high']} {match['last']}"
    if match := _TOLERANCE.match(text):
        unit = match["unit"].strip() or match["last"].strip()
        middle, give = _decimal(match["middle"]), _decimal(match["give"])
        if match["last"].strip() not in ("", unit):
            raise BadQuantity(text, f"one unit for both: {match['middle']} ± {match['give']} {unit}?")
        return f"{middle - give:.10g} {unit}", f"{middle + give:.10g} {unit}"
    return text, text


def _decimal(text: str) -> float:
    top, _, bottom = text.replace(",", ".").partition("/")
    if bottom and not float(bottom):
        raise BadQuantity(text, "a fraction does not divide by nought")
    return float(top) / float(bottom or 1)


_EXAMPLES = {Kind.TORQUE: "40 N·m", Kind.ANGLE: "90°", Kind.TIME: "10 min", Kind.DISTANCE: "1000 km"}
