"""The explicit list of characters, and the pieces a text is cut into."""

import pytest

from firedeck.errors import BadQuantity
from firedeck.quantity.characters import MAP, plain
from firedeck.quantity.tokens import tokens


def test_everything_on_the_list_becomes_ascii() -> None:
    for character, becomes in MAP.items():
        assert becomes.isascii()
        assert plain(f"1{character}2").isascii()


@pytest.mark.parametrize(
    ("text", "ascii_text"),
    [
        ("65 N·m", "65 N*m"),
        ("−5 °C", "-5 degC"),
        ("1½ µin", "1 1/2 uin"),
        ("0.004”", '0.004"'),
        ("１２，５ mm", "12,5 mm"),
    ],
)
def test_plain(text: str, ascii_text: str) -> None:
    assert plain(text) == ascii_text


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("5 Å", "ANGSTROM|RING ABOVE"),
        ("5\x00mm", "U.0000"),
        ("\u200b5 mm", "ZERO WIDTH SPACE"),
        ("😀", "GRINNING FACE"),
    ],
)
def test_anything_else_is_refused_by_name(text: str, named: str) -> None:
    with pytest.raises(BadQuantity, match=named):
        plain(text)


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("0.004in", ["0.004", "in"]),
        (".005 in", [".005", "in"]),
        ("2.0e-5 mm", ["2.0e-5", "mm"]),
        ("5 e3mm", ["5", "e", "3", "mm"]),
        ("1,2,3", ["1,2,3"]),
        ("1_0", ["1", "_", "0"]),
        ("nan", ["nan"]),
    ],
)
def test_tokens(text: str, pieces: list[str]) -> None:
    assert [token.text for token in tokens(text)] == pieces
