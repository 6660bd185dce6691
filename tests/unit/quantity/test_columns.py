"""CSV texts with units in their header."""

import math

import pytest

from firedeck.errors import BadQuantity
from firedeck.quantity import read_columns


def test_units_in_brackets_and_after_an_underscore() -> None:
    read = read_columns("x [in], y_mm, z [µm], tilt_arcsec\n1, 2, 3, 3600\n")
    assert read.column("x") == (25.4,)
    assert read.column("y") == (2.0,)
    assert read.column("z") == (0.003,)
    assert read.column("tilt") == pytest.approx((math.radians(1.0),), rel=1e-15)
    assert read.assumptions == ()


def test_bare_x_y_z_are_mm_and_say_so() -> None:
    read = read_columns("X,y,z\n1,2,-0.003\n")
    assert read.column("z") == (-0.003,)
    assert read.assumptions == ("x, y and z have no unit: read as mm",)


@pytest.mark.parametrize(
    "text",
    [
        "\ufeffx_mm,z_um\r\n1.5,3\r\n2,4\r\n",
        "x_mm;z_um\n1,5;3\n2;4\n",
        "x_mm\tz_um\r1,5\t3\r2\t4\r",
        '\n# pencilled in the garage\n"x [mm]", "z [um]"\n\n1.50, 3.0,\n2e0, +4\n\n',
    ],
)
def test_newlines_separators_and_blanks_do_not_matter(text: str) -> None:
    read = read_columns(text)
    assert read.column("x") == (1.5, 2.0)
    assert read.column("z") == (0.003, 0.004)


def test_labels_stay_text_and_count_the_rows() -> None:
    read = read_columns("line,angle_arcsec\nNW-SE,1\nNE-SW,2\n")
    assert read.labels["line"] == ("NW-SE", "NE-SW")
    assert read.length == 2
    assert "line" in read
    assert "foot" not in read


def test_thousandths_come_out_as_the_nearest_float() -> None:
    assert read_columns("x [thou]\n4\n").column("x") == (0.1016,)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "a header such as"),
        ("x,y,z\n", "a header such as"),
        ("x,height\n1,2\n", "header: the unit of this column, as in height [mm]"),
        ("x,z [furlong]\n1,2\n", "header: a name and a unit"),
        ("x,x\n1,2\n", "header: column x stands there twice"),
        ("x,y,z\n1,2\n", "row 2: 3 cells, one for each column"),
        ("x,y,z\n1,2,3\n\n1,,3\n", "row 4, column y: a number in mm"),
        ("x,z_um\n1,nan\n", "row 2, column z: a number in µm"),
        ("x,z\n1,1_000\n", "row 2, column z: a number in mm"),
        ("x,z\n1,0x10\n", "row 2, column z: a number in mm"),
    ],
)
def test_a_fault_is_one_line_with_its_place(text: str, says: str) -> None:
    with pytest.raises(BadQuantity) as fault:
        read_columns(text)
    assert says in str(fault.value)
    assert "\n" not in str(fault.value)


def test_a_missing_column_names_those_that_are_there() -> None:
    with pytest.raises(BadQuantity, match="columns found: x, y"):
        read_columns("x,y\n1,2\n").column("z")


def test_too_many_rows_are_refused() -> None:
    with pytest.raises(BadQuantity, match="at most 200000 rows"):
        read_columns("x\n" + "1\n" * 200_001)
