"""A brass sleeve on a steel bolt, warmed."""

from math import pi

from cases import published

from firedeck.fasteners import GripPart, thermal_tension


@published(__file__, "sleeve.csv")
def test_sleeve(row):
    figure = {name: float(value) for name, value in row.items() if name not in ("id", "source")}
    length = 100.0
    sleeve = pi / 4 * (figure["sleeve_outside_mm"] ** 2 - figure["sleeve_inside_mm"] ** 2)
    bolt = pi / 4 * figure["bolt_mm"] ** 2
    found = thermal_tension(
        (GripPart("sleeve", length, figure["sleeve_expansion"] * 1e-6, "gere-mechanics"),),
        (figure["rise_k"], figure["rise_k"]),
        figure["bolt_expansion"] * 1e-6,
        figure["bolt_gpa"] * 1e3 * bolt / length,
        figure["sleeve_gpa"] * 1e3 * sleeve / length,
    )
    assert abs(found.change / sleeve / figure["sleeve_mpa"] - 1) <= 0.2 / figure["rise_k"]
