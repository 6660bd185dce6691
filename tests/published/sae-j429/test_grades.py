"""Strengths of the SAE grades."""

from cases import published
from sum_rows import check


@published(__file__, "grades.csv")
def test_grades(row):
    check(row)
