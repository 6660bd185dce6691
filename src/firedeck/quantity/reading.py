"""From what a person types to one exact quantity.

Nothing guesses a unit: a text is read in one way or refused in one line that offers the readings it
could have. The text stays as typed; the number is converted once, exactly.

>>> parse("2 1/2 in", Kind.LENGTH).value
63.5
"""

from dataclasses import dataclass
from fractions import Fraction

from firedeck.errors import BadQuantity
from firedeck.quantity import refusals
from firedeck.quantity.amounts import Amount, read_amount
from firedeck.quantity.characters import plain
from firedeck.quantity.factors import Unit
from firedeck.quantity.kinds import Kind, asked_units, called, is_number, may_be_negative
from firedeck.quantity.tokens import tokens
from firedeck.quantity.units import find, to_core

LONGEST = 120
LARGEST = 10**12
SMALLEST = Fraction(1, 10**18)
_FINISH_PARAMETERS = ("ra", "rz", "rq", "rms", "rt", "cla", "aa")
_HARDNESS_SCALES = ("hb", "hbw", "bhn", "hv", "hrb", "hrc")
_NEED_UNIT_AT_NOUGHT = (Kind.TEMPERATURE, Kind.HARDNESS)


@dataclass(frozen=True)
class Quantity:
    """A quantity as typed and as worked with.

    ``text`` is what was typed and is what ``str`` gives back. ``value`` is the number in the core unit of
    ``kind``; ``exact`` is the same number as an exact fraction, except for angles, whose ``exact`` is in
    degrees while ``value`` is in radians. ``unit`` is the name of the unit that was typed, empty for a
    plain number.
    """

    text: str
    kind: Kind
    value: float
    exact: Fraction
    unit: str

    def __str__(self) -> str:
        return self.text


def parse(text: str, kind: Kind) -> Quantity:
    """Read one quantity.

    Parameters
    ----------
    text : str
        What was typed: a number and its unit [text].
    kind : Kind
        What sort of quantity the field holds [kind].

    Returns
    -------
    Quantity
        The text, and its number in the core unit of the kind [core unit].

    Raises
    ------
    BadQuantity
        If the text is not one clear quantity of this kind; the message is one line and offers the
        readings it could have.

    Source
    ------
    [si-brochure] and [nist-sp811] for the factors; [generic-ours] for the grammar.

    Examples
    --------
    >>> parse("a thou and a half", Kind.LENGTH).value
    0.0381
    >>> parse("48 ft-lb", Kind.TORQUE).unit
    'lbf·ft'
    >>> parse("1,100 psi", Kind.PRESSURE_GAUGE)
    Traceback (most recent call last):
    ...
    firedeck.errors.BadQuantity: found '1,100 psi'; the comma can part thousands or decimals: \
1100 psi or 1.100 psi?
    """
    amount = _amount(text, kind)
    unit, worth = _unit_and_worth(text, amount, kind)
    return quantity(text, kind, worth, unit)


def is_bare(text: str, kind: Kind) -> bool:
    """Whether a text is a number without any unit, as the members of a list may be.

    Parameters
    ----------
    text : str
        What was typed [text].
    kind : Kind
        What sort of quantity the field holds [kind].

    Returns
    -------
    bool
        True for a bare number [truth].

    Source
    ------
    [generic-ours] the grammar.

    Examples
    --------
    >>> is_bare("160", Kind.PRESSURE_GAUGE), is_bare("160 psi", Kind.PRESSURE_GAUGE)
    (True, False)
    """
    return not _amount(text, kind).rest


def unit_text(text: str, kind: Kind) -> str:
    """The unit part of a text, as typed in ASCII.

    Parameters
    ----------
    text : str
        What was typed [text].
    kind : Kind
        What sort of quantity the field holds [kind].

    Returns
    -------
    str
        The unit without the number [text].

    Source
    ------
    [generic-ours] the grammar.

    Examples
    --------
    >>> unit_text("168 psi", Kind.PRESSURE_GAUGE)
    'psi'
    """
    return _amount(text, kind).rest


def quantity(text: str, kind: Kind, worth: Fraction, unit: Unit) -> Quantity:
    """A quantity from a number in a unit, with the checks every quantity must pass."""
    exact = (worth - unit.zero) * unit.factor
    if 0 < abs(exact) < SMALLEST:
        raise BadQuantity(text, "smaller than anything that can be measured")
    if worth < 0 and not may_be_negative(kind):
        raise BadQuantity(text, f"{called(kind)} cannot be below nought")
    if kind is Kind.TEMPERATURE and exact < Fraction("-273.15"):
        raise BadQuantity(text, "nothing is colder than -273.15 °C")
    if kind is Kind.COUNT and exact.denominator != 1:
        raise BadQuantity(text, "a count is a whole number, such as 6")
    return Quantity(text, kind, to_core(exact, kind), exact, unit.name)


def _amount(text: str, kind: Kind) -> Amount:
    """The number and the unit text, after the checks of the text itself."""
    if not isinstance(text, str):
        raise BadQuantity(repr(text), f"write {called(kind)} as a text in quotes, with its unit")
    if not is_number(kind):
        raise BadQuantity(text, f"{called(kind)} is kept as it is and has no number")
    if not text.strip():
        raise BadQuantity(text, f"nothing is written: {refusals.nothing_to_read(kind)}")
    if len(text) > LONGEST:
        raise BadQuantity(text, f"{len(text)} characters are too many for one quantity (at most {LONGEST})")
    ascii_text, label = _without_label(plain(text), kind)
    amount = read_amount(ascii_text, kind)
    if amount is None:
        raise BadQuantity(text, refusals.no_number(ascii_text, kind))
    if abs(amount.worth) > LARGEST:
        raise BadQuantity(text, "larger than anything in an engine: the most read here is 10 to the 12th")
    if label and kind is Kind.HARDNESS:
        return Amount(amount.typed, amount.worth, f"{label} {amount.rest}".strip())
    if label and amount.rest:
        raise BadQuantity(text, f"leave {label} out, the field says which: {amount.typed} {amount.rest}")
    return amount


def _without_label(text: str, kind: Kind) -> tuple[str, str]:
    """Take the ``Ra`` of ``Ra 30`` and the scale of ``HB 95`` off the front."""
    labels = {Kind.FINISH: _FINISH_PARAMETERS, Kind.HARDNESS: _HARDNESS_SCALES}.get(kind, ())
    pieces = tokens(text)
    if len(pieces) > 1 and pieces[0].text.lower() in labels:
        return text[pieces[0].end :].strip(" :="), pieces[0].text
    return text, ""


def _unit_and_worth(text: str, amount: Amount, kind: Kind) -> tuple[Unit, Fraction]:
    """The unit that was typed and the number in it; refuses what is not clear."""
    if not amount.rest:
        return _bare_unit(text, amount, kind), amount.worth
    if unit := find(amount.rest, kind):
        return unit, amount.worth
    shop = refusals.shop_fraction(amount, kind)
    if isinstance(shop, tuple) and (unit := find(shop[1], kind)):
        return unit, amount.worth * shop[0]
    if isinstance(shop, str):
        raise BadQuantity(text, shop)
    raise BadQuantity(text, refusals.unknown_unit(amount, kind))


def _bare_unit(text: str, amount: Amount, kind: Kind) -> Unit:
    """What a number without a unit means: plain numbers need none, and nought is nought in any unit."""
    if kind is Kind.SHARE and abs(amount.worth) > 1:
        per_cent = refusals.plain_decimal(amount.worth / 100)
        raise BadQuantity(text, f"a share is a part of one: {amount.typed} %, that is {per_cent}?")
    plain_unit = find("", kind)
    if plain_unit is not None:
        return plain_unit
    if amount.worth == 0 and kind not in _NEED_UNIT_AT_NOUGHT:
        return Unit("", Fraction(1), (kind,), (), "generic-ours")
    assert asked_units(kind)
    raise BadQuantity(text, refusals.bare(amount, kind))
