"""Dry and lubricated torques at 75 % of the proof load."""

from cases import published

from firedeck import sums
from firedeck.quantity import Kind, in_unit


@published(__file__, "torques.csv")
def test_torques(row):
    for factor, column in (("0.20", "dry_lbf_ft"), ("0.15", "lubricated_lbf_ft")):
        found = sums.proof_torque(thread=row["thread"], class_=row["class"], nut_factor=factor).results
        tension = in_unit(found["tension"].value, Kind.FORCE, "lbf")
        assert abs(tension / float(row["tension_lbf"]) - 1) <= 0.006
        assert abs(in_unit(found["torque"].value, Kind.TORQUE, "lbf·ft") - float(row[column])) <= 4.0
