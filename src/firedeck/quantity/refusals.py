"""What firedeck says when a text is not one clear quantity: one line, with every reading it could have.

Each function returns the second half of the line, what would be clear.
"""

from fractions import Fraction

from firedeck.quantity.amounts import Amount
from firedeck.quantity.kinds import Kind, asked_units, called
from firedeck.quantity.units import UNITS, find, key, kinds_of

_MEASURED = (Kind.LENGTH, Kind.FINISH)
_PRESSURES = (Kind.PRESSURE_GAUGE, Kind.PRESSURE_ABSOLUTE, Kind.STRESS)
_TEMPERATURES = (Kind.TEMPERATURE, Kind.TEMPERATURE_CHANGE)
_DEGREES = ("deg", "degs", "degree", "degrees")
_POUNDS = ("lb", "lbs", "pound", "pounds", "#")
_SHOP = {
    "tenth": (Fraction(1, 10), "mm", Fraction(1, 10**4), "in"),
    "hundredth": (Fraction(1, 100), "mm", Fraction(1, 100), "in"),
    "thousandth": (Fraction(1, 1000), "mm", Fraction(1, 1000), "in"),
    "mil": (Fraction(1), "mm", Fraction(1), "thou"),
}
_OF_WHAT = {
    "mm": "mm", "in": "in", "inch": "in",
    "of.a.mm": "mm", "of.mm": "mm", "of.a.millimetre": "mm", "of.a.millimeter": "mm",
    "of.an.inch": "in", "of.inch": "in", "of.a.inch": "in", "of.a.thou": "thou", "of.thou": "thou",
}  # fmt: skip


def nothing_to_read(kind: Kind) -> str:
    """For a text that does not begin with a number.

    >>> nothing_to_read(Kind.TORQUE)
    'write a number and its unit, such as 10 N·m or 10 lb-ft'
    """
    units = asked_units(kind)
    if not units:
        return "write a plain number, such as 0.75"
    return "write a number and its unit, such as " + " or ".join(f"10 {unit}" for unit in units)


def no_number(text: str, kind: Kind) -> str:
    """For a text without a number; a lone ``tenths`` still has its two readings.

    >>> no_number("tenths", Kind.LENGTH)
    'two trades read this differently: 0.1 mm or 0.0001 in?'
    """
    shop = shop_fraction(Amount("", Fraction(1), text), kind)
    return shop if isinstance(shop, str) else nothing_to_read(kind)


def bare(amount: Amount, kind: Kind) -> str:
    """For a number without a unit where the unit matters.

    >>> bare(Amount("0.15", Fraction(3, 20), ""), Kind.LENGTH)
    'say the unit: 0.15 mm or 0.15 in?'
    """
    return "say the unit: " + " or ".join(f"{amount.typed} {unit}" for unit in asked_units(kind)) + "?"


def shop_fraction(amount: Amount, kind: Kind) -> tuple[Fraction, str] | str | None:
    """Tenths, hundredths, thousandths and mils: the factor and unit if said of what, else both readings.

    >>> shop_fraction(Amount("3", Fraction(3), "tenths"), Kind.LENGTH)
    'two trades read this differently: 0.3 mm or 0.0003 in?'
    >>> shop_fraction(Amount("3", Fraction(3), "tenths of a mm"), Kind.LENGTH)
    (Fraction(1, 10), 'mm')
    """
    word, _, of_what = key(amount.rest.lower()).partition(".")
    entry = _SHOP.get(word.removesuffix("s"))
    if entry is None or kind not in _MEASURED:
        return None
    part, first, other, second = entry
    if of_what in _OF_WHAT and word.removesuffix("s") != "mil":
        return part, _OF_WHAT[of_what]
    one, two = plain_decimal(amount.worth * part), plain_decimal(amount.worth * other)
    return f"two trades read this differently: {one} {first} or {two} {second}?"


def unknown_unit(amount: Amount, kind: Kind) -> str:
    """For a unit that this kind does not know: pounds of what, another kind's unit, or no unit at all.

    >>> unknown_unit(Amount("60", Fraction(60), "pounds"), Kind.TORQUE)
    'pounds of what? 60 lb-ft or 60 lb-in?'
    """
    typed, rest = amount.typed, amount.rest
    if key(rest.lower()) in _POUNDS:
        return _pounds(typed, kind)
    if kind in _TEMPERATURES and key(rest.lower()) in _DEGREES:
        return f"degrees of which scale? {typed} °C or {typed} °F?"
    if rest[:1] in "-+/" or rest[:1].isdigit() or rest.lower().startswith("to "):
        return f"write one number with one unit for {called(kind)}, not two numbers"
    if other := _other_kind(rest, kind):
        return other
    if _more_than_one(rest, kind):
        return f"write {called(kind)} as one number with one unit"
    return _near_miss(typed, rest, kind)


def _more_than_one(rest: str, kind: Kind) -> bool:
    """A unit followed by more: ``5 mm mm``, ``5 ft 6 in``."""
    words = rest.split()
    return any(find(" ".join(words[:count]), kind) for count in range(1, len(words)))


def _other_kind(rest: str, kind: Kind) -> str | None:
    if kind is Kind.PRESSURE_GAUGE and find(rest, Kind.PRESSURE_ABSOLUTE):
        return f"{rest} counts from vacuum, but this is a gauge pressure: write what the gauge shows"
    if kind is Kind.PRESSURE_ABSOLUTE and find(rest, Kind.PRESSURE_GAUGE):
        return f"{rest} counts from the air outside, but this is an absolute pressure: psia or bar abs?"
    if others := kinds_of(rest):
        return f"{rest} is a unit of {called(others[0])}, this is {called(kind)}: {nothing_to_read(kind)}"
    return None


def _near_miss(typed: str, rest: str, kind: Kind) -> str:
    if close := [row.name for row in UNITS[kind] if row.exact_case and _same_letters(rest, row.spellings)]:
        return f"capitals change the size of this unit: {typed} {close[0]}?"
    return f"{rest!r} is no unit of {called(kind)} known here: {nothing_to_read(kind)}"


def plain_decimal(worth: Fraction) -> str:
    """A fraction as a decimal without exponent, to ten significant digits.

    >>> plain_decimal(Fraction(3, 10000))
    '0.0003'
    """
    return f"{float(worth):.15f}".rstrip("0").rstrip(".") if abs(worth) < 1000 else f"{float(worth):.10g}"


def _pounds(typed: str, kind: Kind) -> str:
    if kind is Kind.TORQUE:
        return f"pounds of what? {typed} lb-ft or {typed} lb-in?"
    if kind in _PRESSURES:
        return f"pounds on what? {typed} psi if pounds per square inch are meant, {typed} lbf if a force"
    readings = f"{typed} lb-ft, {typed} lb-in, {typed} psi or {typed} lbf"
    return f"pounds of what? {readings}; but this is {called(kind)}: {nothing_to_read(kind)}"


def _same_letters(rest: str, spellings: tuple[str, ...]) -> bool:
    return key(rest).casefold() in {spelling.casefold() for spelling in spellings}
