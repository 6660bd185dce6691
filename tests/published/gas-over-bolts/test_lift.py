"""Gas force on a head, and what a rule of three asks of each bolt."""

from cases import published
from sum_rows import check

from firedeck.quantity import Kind, in_unit


@published(__file__, "lift.csv")
def test_gas_force_and_clamp_per_bolt(row):
    force = in_unit(check(row).results["force"].value, Kind.FORCE, "lbf")
    for bolts, printed in ((4, 10375.0), (5, 8300.0), (6, 6916.0)):
        assert abs(3 * force / bolts / printed - 1) <= 0.003
