"""Strengths and loads of ISO 898-1."""

from cases import published
from sum_rows import check

from firedeck import sums


@published(__file__, "strength.csv")
def test_strengths_and_proof_loads(row):
    check(row)


@published(__file__, "breaking_loads.csv")
def test_breaking_loads(row):
    for name, load in zip(("8.8", "9.8", "10.9", "12.9"), row["loads"].split("/"), strict=True):
        found = sums.bolt_strength(thread=row["thread"], class_=name).results["tensile_load"].value
        assert abs(found / float(load) - 1) <= 0.004
