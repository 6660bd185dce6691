"""From what keyboards and documents contain to plain ASCII, by an explicit list.

Only the characters listed here are understood. Any other is refused by its name: a digit of another
script or a look-alike letter must never be read by accident.
"""

import unicodedata

from firedeck.errors import BadQuantity

MAP = {
    "\u00a0": " ", "\u2002": " ", "\u2003": " ", "\u2007": " ", "\u2009": " ", "\u200a": " ",
    "\u202f": " ", "\u3000": " ", "\t": " ", "\n": " ", "\r": " ",
    "\u2212": "-", "\u2010": "-", "\u2011": "-", "\u2013": "-", "\uff0d": "-",
    "\u00b7": "*", "\u22c5": "*", "\u2219": "*", "\u2022": "*", "\u00d7": "*",
    "\u00b5": "u", "\u03bc": "u",
    "\u00b0": "deg", "\u00ba": "deg", "\u02da": "deg", "\u2103": "degC", "\u2109": "degF",
    "\u201c": '"', "\u201d": '"', "\u201f": '"', "\u2033": '"', "\uff02": '"',
    "\u2018": "'", "\u2019": "'", "\u2032": "'", "\u00b4": "'",
    "\u00b9": "^1", "\u00b2": "^2", "\u00b3": "^3", "\u207b": "^-",
    "\u2044": "/", "\u2215": "/", "\uff0f": "/",
    "\u2236": ":", "\uff1a": ":", "\uff05": "%", "\uff0e": ".", "\uff0c": ",", "\uff1b": ";",
    "\u00bd": " 1/2", "\u00bc": " 1/4", "\u00be": " 3/4", "\u2153": " 1/3", "\u2154": " 2/3",
    "\u215b": " 1/8", "\u215c": " 3/8", "\u215d": " 5/8", "\u215e": " 7/8",
    **{chr(0xFF10 + digit): str(digit) for digit in range(10)},
}  # fmt: skip


def plain(text: str) -> str:
    """The text in ASCII.

    Parameters
    ----------
    text : str
        What was typed.

    Returns
    -------
    str
        The same in ASCII, without blanks at the ends.

    Raises
    ------
    BadQuantity
        If a character is neither ASCII nor in the list; it is named.

    Source
    ------
    [generic-ours] the list above.

    Examples
    --------
    >>> plain("1½ µin")
    '1 1/2 uin'
    >>> plain("65 N·m"), plain("20 °C"), plain("10 cm²")
    ('65 N*m', '20 degC', '10 cm^2')
    """
    ascii_text = "".join(_ascii(character, text) for character in text)
    return ascii_text.strip()


def _ascii(character: str, text: str) -> str:
    if character in MAP:
        return MAP[character]
    if " " <= character <= "~":
        return character
    name = unicodedata.name(character, f"character U+{ord(character):04X}")
    raise BadQuantity(text, f"{name} is not understood here: use plain letters, digits and unit signs")
