"""Lists and rows: what parts them, and what a slash means."""

import pytest

from firedeck.errors import BadQuantity
from firedeck.quantity import Kind, parse, parse_list, parse_rows, split_rows

LENGTHS_3 = (Kind.LENGTH,) * 3

LISTS = [
    (Kind.PRESSURE_GAUGE, "160,128,168 psi", ("160 psi", "128 psi", "168 psi")),
    (Kind.PRESSURE_GAUGE, "160, 128, 168 psi", ("160 psi", "128 psi", "168 psi")),
    (Kind.PRESSURE_GAUGE, "160/128/168 psi", ("160 psi", "128 psi", "168 psi")),
    (Kind.PRESSURE_GAUGE, "160 psi, 11 bar", ("160 psi", "11 bar")),
    (Kind.PRESSURE_GAUGE, "11.5 / 12 / 12.5 bar", ("11.5 bar", "12 bar", "12.5 bar")),
    (Kind.PRESSURE_GAUGE, "11,5; 12; 12,5 bar", ("11.5 bar", "12 bar", "12.5 bar")),
    (Kind.PRESSURE_GAUGE, "1,100 psi", ("1 psi", "100 psi")),
    (Kind.SHARE, "8/16/4 %", ("8 %", "16 %", "4 %")),
    (Kind.LENGTH, "1/16, 3/32 in", ("1/16 in", "3/32 in")),
    (Kind.LENGTH, "1/16 in", ("1/16 in",)),
    (Kind.LENGTH, "2/4 thou", ("2 thou", "4 thou")),
    (Kind.LENGTH, "0, 0, 3 thou", ("0 thou", "0 thou", "3 thou")),
    (Kind.LENGTH, "0.02 mm/0.03 mm", ("0.02 mm", "0.03 mm")),
    (Kind.STIFFNESS, "5 lbf/in, 6 lbf/in", ("5 lbf/in", "6 lbf/in")),
    (Kind.STIFFNESS, "5 lbf/in/6 lbf/in", ("5 lbf/in", "6 lbf/in")),
    (Kind.ANGLE, "1/4 turn", ("90 deg",)),
    (Kind.RATIO, "0.12, 0.14", ("0.12", "0.14")),
]

ROWS = [
    ((Kind.LENGTH,) * 2, "13 mm/30 mm, 10.1 mm/60 mm", [("13 mm", "30 mm"), ("10.1 mm", "60 mm")]),
    (LENGTHS_3, "0.91 mm/1.00 mm/1.53 mm", [("0.91 mm", "1 mm", "1.53 mm")]),
    (LENGTHS_3, "0,91 mm/1,00 mm/1,53 mm; 1 mm/2 mm/3 mm",
     [("0.91 mm", "1 mm", "1.53 mm"), ("1 mm", "2 mm", "3 mm")]),
    ((Kind.STRESS, Kind.LENGTH, Kind.LENGTH), "30 Mpsi/1.125 in/0.134 in",
     [("30 Mpsi", "1.125 in", "0.134 in")]),
    ((Kind.LENGTH,) * 2, "1/16 in/1 1/2 in", [("1/16 in", "1.5 in")]),
    ((Kind.STIFFNESS, Kind.LENGTH), "16 Mlbf/in/1/2 in", [("16 Mlbf/in", "0.5 in")]),
    ((Kind.STRESS, Kind.LENGTH), "640 N/mm²/2 mm", [("640 MPa", "2 mm")]),
    ((Kind.PRESSURE_GAUGE, Kind.LENGTH), "5 lbs/sq in/1/2 in", [("5 psi", "0.5 in")]),
]  # fmt: skip

REFUSED = [
    (Kind.LENGTH, "", "nothing is written"),
    (Kind.LENGTH, "1,,2 mm", "number 2 of 3 is empty"),
    (Kind.LENGTH, "1, 2,", "number 3 of 3 is empty"),
    (Kind.LENGTH, "1 mm, 2, 3 in", "number 2 of 3: say the unit: 2 mm or 2 in?"),
    (Kind.LENGTH, "3/4 thou", "0.75 thou or 3, 4 thou?"),
    (Kind.LENGTH, "1/16/1/8 in", "parted by commas"),
    (Kind.PRESSURE_GAUGE, "160/128, 168 psi", "no usual fraction"),
    (Kind.PRESSURE_GAUGE, "160, 128, 168", "160 psi or 160 bar?"),
    (Kind.PRESSURE_GAUGE, "160 128 psi", "not two numbers"),
    (Kind.PRESSURE_GAUGE, "1,100; 1,2 bar", "1100 bar or 1.100 bar?"),
    (Kind.PRESSURE_GAUGE, "1/" * 5000, "too many for one row"),
    (Kind.PRESSURE_GAUGE, "9" * 5000 + ", 4 bar", "too many"),
]


@pytest.mark.parametrize(("kind", "text", "members"), LISTS)
def test_lists(kind: Kind, text: str, members: tuple[str, ...]) -> None:
    assert [item.exact for item in parse_list(text, kind)] == [parse(each, kind).exact for each in members]


@pytest.mark.parametrize(("kinds", "text", "rows"), ROWS)
def test_rows(kinds: tuple[Kind, ...], text: str, rows: list[tuple[str, ...]]) -> None:
    wanted = [[parse(cell, kind).exact for cell, kind in zip(row, kinds, strict=True)] for row in rows]
    assert [[cell.exact for cell in row] for row in parse_rows(text, kinds)] == wanted


@pytest.mark.parametrize(("kind", "text", "says"), REFUSED)
def test_refused_in_one_line(kind: Kind, text: str, says: str) -> None:
    with pytest.raises(BadQuantity) as refused:
        parse_list(text, kind)
    assert says in str(refused.value)
    assert "\n" not in str(refused.value)


def test_a_borrowed_unit_stands_in_the_text() -> None:
    assert [str(item) for item in parse_list("1; 2,5 mm", Kind.LENGTH)] == ["1 mm", "2,5 mm"]


def test_each_cell_of_a_row_needs_its_unit() -> None:
    with pytest.raises(BadQuantity, match="13 mm or 13 in"):
        parse_rows("13/30 mm", (Kind.LENGTH, Kind.LENGTH))


def test_a_row_with_decimal_commas_gets_a_hint() -> None:
    with pytest.raises(BadQuantity, match="row 1 has 1 cells, 2 are wanted; part rows by ;"):
        parse_rows("0,91 mm/1,00 mm", (Kind.LENGTH, Kind.LENGTH))


def test_words_may_be_cells() -> None:
    assert split_rows("aluminium/90 mm; grey-iron/12,5 mm") == (
        ("aluminium", "90 mm"),
        ("grey-iron", "12,5 mm"),
    )
