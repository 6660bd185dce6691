"""Sizes of inch threads."""

from math import pi

from cases import published

from firedeck import sums
from firedeck.quantity import Kind, in_unit


@published(__file__, "inch.csv")
def test_sizes(row):
    found = sums.thread_geometry(thread=row["thread"]).results
    pitch_diameter = in_unit(found["pitch_diameter"].value, Kind.LENGTH, "in")
    minor = in_unit(found["minor_diameter"].value, Kind.LENGTH, "in")
    stress = in_unit(found["stress_area"].value, Kind.AREA, "sq in")
    assert abs(pitch_diameter - float(row["pitch_diameter_in"])) <= 0.0001
    assert abs(stress - float(row["stress_area_in2"])) <= 0.0002
    last_digit = 10.0 ** -len(row["minor_area_in2"].partition(".")[2])
    assert abs(pi / 4 * minor**2 - float(row["minor_area_in2"])) <= max(0.0002, last_digit / 2)
