"""Shear areas of inch threads."""

from math import pi

from cases import published
from sum_rows import check

from firedeck import sums
from firedeck.quantity import Kind, in_unit


@published(__file__, "areas.csv")
def test_areas_from_limits_of_size(row):
    check(row)


@published(__file__, "areas.csv")
def test_usual_limits_give_the_same_areas(row):
    given, wanted = (
        dict(part.strip().split("=") for part in row[name].split("|")) for name in ("given", "expected")
    )
    found = sums.thread_strip(thread=given["thread"], engagement=given["engagement"]).results
    for name, text in wanted.items():
        area = in_unit(found[name].value, Kind.AREA, "sq in")
        assert abs(area - float(text.split()[0])) <= 0.0006


@published(__file__, "formulas.csv")
def test_engagement_and_ratio(row):
    assert row["id"] == "FAS-131"
    sizes = {"external_major_minimum": 0.4876, "external_pitch_minimum": 0.4435}
    sizes |= {"internal_pitch_maximum": 0.4565, "internal_minor_maximum": 0.434}
    typed = {name: f"{value} in" for name, value in sizes.items()}
    bolt, hole, n, le = 90000.0, 30000.0, 13, 0.5
    answer = sums.thread_strip(
        thread="1/2-13",
        engagement=f"{le} in",
        bolt_shear_strength=f"{bolt} psi",
        hole_shear_strength=f"{hole} psi",
        **typed,
    ).results
    minor, flank = sizes["internal_minor_maximum"], sizes["external_pitch_minimum"]
    major, wide = sizes["external_major_minimum"], sizes["internal_pitch_maximum"]
    external = pi * n * le * minor * (1 / (2 * n) + 0.57735 * (flank - minor))
    internal = pi * n * le * major * (1 / (2 * n) + 0.57735 * (major - wide))
    stress = pi / 4 * (0.5 - 0.9743 / n) ** 2
    equal = 2 * stress / (pi * minor * (0.5 + 0.57735 * n * (flank - minor)))
    ratio = external * bolt / (internal * hole)
    assert ratio > 1
    # sizes are reckoned with to 0.1 µm: 3 in 100 000 on the areas
    depth = in_unit(answer["engagement_for_full_strength"].value, Kind.LENGTH, "in")
    assert abs(depth / (equal * ratio) - 1) < 3e-5
    assert abs(in_unit(answer["hole_strip_load"].value, Kind.FORCE, "lbf") / (internal * hole) - 1) < 3e-5
    assert abs(in_unit(answer["bolt_strip_load"].value, Kind.FORCE, "lbf") / (external * bolt) - 1) < 3e-5
