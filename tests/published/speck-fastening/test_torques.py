"""Torques of one tension at five nut factors."""

from cases import published

from firedeck import sums
from firedeck.quantity import Kind, in_unit


@published(__file__, "torques.csv")
def test_torques(row):
    for factor, torque in zip(row["nut_factors"].split("/"), row["torques_lbf_in"].split("/"), strict=True):
        found = sums.nut_factor_torque(
            diameter=f"{row['diameter_in']} in", tension=f"{row['tension_lbf']} lbf", nut_factor=factor
        ).results["torque"]
        assert abs(in_unit(found.value, Kind.TORQUE, "lbf·in") - float(torque)) <= 0.1
