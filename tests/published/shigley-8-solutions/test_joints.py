"""Joint problems of the 8th edition, the misprinted one worked out correctly."""

from cases import published
from sum_rows import check


@published(__file__, "joints.csv")
def test_joints(row):
    answer = check(row)
    if row["id"] == "FAS-121":
        assert abs(answer.results["stiffness"].value / 2158e3 - 1) > 0.05, "the misprint must not come out"


def test_proof_stress_of_the_standard_is_not_the_misprinted_one():
    from firedeck import sums

    assert sums.bolt_strength(thread="M12", class_="8.8").results["proof_stress"].value == 580.0
