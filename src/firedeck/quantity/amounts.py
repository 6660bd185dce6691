"""The number at the front of a quantity: decimals, fractions, and the words of the workshop.

``1 1/2``, ``2-1/2``, ``.005``, ``2,5``, ``half a``, ``a ... and a half``, ``three quarters of a``.
What can be read in two ways is refused and both readings are offered.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

from firedeck.errors import BadQuantity
from firedeck.quantity.kinds import Kind
from firedeck.quantity.tokens import Token, tokens

DENOMINATORS = (2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64, 100, 1000)
"""Fractions people write; ``160/168 psi`` is two readings, not a fraction."""

_COUNTING = (
    ("zero", "nought"), ("a", "an", "one"), ("two",), ("three",), ("four",), ("five",), ("six",),
    ("seven",), ("eight",), ("nine",), ("ten",), ("eleven",), ("twelve",),
)  # fmt: skip
_WHOLE = {word: Fraction(number) for number, words in enumerate(_COUNTING) for word in words}
_PART = {
    "half": Fraction(1, 2), "halves": Fraction(1, 2),
    "third": Fraction(1, 3), "thirds": Fraction(1, 3),
    "quarter": Fraction(1, 4), "quarters": Fraction(1, 4),
    "eighth": Fraction(1, 8), "eighths": Fraction(1, 8),
}  # fmt: skip
_AND_PART = re.compile(r"\band\s+(?:an?\s+|one\s+|(three)\s+)?(half|quarters?|third|eighth)\b")
_MIXED = re.compile(r"(\d+)(?:\s+|-)(\d+)/(\d+)(?![\d.,])")
_FRACTION = re.compile(r"(\d+)/(\d+)(?![\d.,])")


@dataclass(frozen=True)
class Amount:
    """A number as typed, what it is worth, and the text that follows it (the unit)."""

    typed: str
    worth: Fraction
    rest: str


def read_amount(text: str, kind: Kind) -> Amount | None:
    """Read the number at the front of an ASCII text.

    Parameters
    ----------
    text : str
        ASCII text, see ``characters.plain``.
    kind : Kind
        The kind wanted; only turns may be improper fractions.

    Returns
    -------
    Amount or None
        The number and the rest; None if the text does not begin with a number.

    Raises
    ------
    BadQuantity
        If the number is not clear.

    Source
    ------
    [generic-ours] the grammar above.

    Examples
    --------
    >>> read_amount("1 1/2 thou", Kind.LENGTH)
    Amount(typed='1 1/2', worth=Fraction(3, 2), rest='thou')
    >>> read_amount("a thou and a half", Kind.LENGTH)
    Amount(typed='a and a half', worth=Fraction(3, 2), rest='thou')
    """
    sign = re.match(r"([+-]?)\s*", text)
    lead = sign.group() if sign else ""
    body = text[len(lead) :]
    found = _figures(text, body, kind) or _words(body)
    if found is None:
        return None
    found = _with_part(found)
    worth = -found.worth if lead.startswith("-") else found.worth
    return Amount(f"{lead.strip()}{found.typed}", worth, found.rest)


def _figures(text: str, body: str, kind: Kind) -> Amount | None:
    """A number in figures: mixed, fraction or decimal."""
    if mixed := _MIXED.match(body):
        whole, top, bottom = mixed.groups()
        part = _fraction(text, top, bottom, improper=False)
        return Amount(mixed.group(), int(whole) + part, body[mixed.end() :].strip())
    if match := _FRACTION.match(body):
        worth = _fraction(text, match[1], match[2], improper=kind is Kind.ANGLE)
        return Amount(match.group(), worth, body[match.end() :].strip())
    pieces = tokens(body)
    if not pieces or pieces[0].what != "number":
        return None
    rest = body[pieces[0].end :]
    return Amount(pieces[0].text, _decimal(text, pieces[0].text, rest), rest.strip())


def _fraction(text: str, top: str, bottom: str, improper: bool) -> Fraction:
    if int(bottom) == 0:
        raise BadQuantity(text, f"{top}/{bottom} divides by nought")
    if int(bottom) not in DENOMINATORS or (int(top) >= int(bottom) and not improper):
        advice = f"write it as a decimal, or as two readings {top}, {bottom}"
        raise BadQuantity(text, f"{top}/{bottom} is no usual fraction: {advice}")
    return Fraction(int(top), int(bottom))


def _decimal(text: str, number: str, rest: str) -> Fraction:
    """The worth of one decimal number; one comma is a decimal comma unless three digits follow it."""
    digits, exponent, power = number.lower().partition("e")
    if digits.count(",") + digits.count(".") > 1:
        raise BadQuantity(text, f"{digits} has more than one decimal mark: write one number, such as 1.25")
    whole, comma, after = digits.partition(",")
    if comma and len(after) == 3:
        decimal = f"{whole or 0}.{after}{rest}"
        if not whole.strip("0"):
            raise BadQuantity(text, f"before three digits write a point, not a comma: {decimal}")
        thousands = f"{whole}{after}{rest}"
        raise BadQuantity(text, f"the comma can part thousands or decimals: {thousands} or {decimal}?")
    whole, _, after = digits.replace(",", ".").partition(".")
    return Fraction(f"{whole or 0}.{after or 0}{exponent}{power}")


def _words(body: str) -> Amount | None:
    """A number in words, with what follows; ``half a``, ``three quarters of a``, ``an``."""
    pieces = [piece for piece in tokens(body) if piece.text != "-"]
    worth, used = _counted(pieces)
    if worth is None:
        return None
    rest = body[pieces[used - 1].end :].strip()
    return Amount(body[: pieces[used - 1].end], worth, rest)


def _counted(pieces: list[Token]) -> tuple[Fraction | None, int]:
    words = [piece.text.lower() for piece in pieces] + ["", "", "", ""]
    if words[0] in _WHOLE and words[1] not in _PART:
        return _WHOLE[words[0]], 1
    many, at = (_WHOLE[words[0]], 1) if words[0] in _WHOLE else (Fraction(1), 0)
    if words[at] not in _PART:
        return None, 0
    worth = many * _PART[words[at]]
    at += 1
    at += words[at] == "of"
    at += words[at] in ("a", "an")
    return worth, at


def _with_part(amount: Amount) -> Amount:
    """Add an ``and a half`` that follows the number or its unit; only to a whole number."""
    match = _AND_PART.search(amount.rest.lower())
    if match is None or amount.worth.denominator != 1:
        return amount
    part = (3 if match.group(1) else 1) * _PART[match.group(2)]
    rest = f"{amount.rest[: match.start()]} {amount.rest[match.end() :]}"
    typed = f"{amount.typed} {match.group()}"
    return Amount(typed, amount.worth + part, " ".join(rest.split()))
