"""Sizes of metric threads."""

from cases import published
from sum_rows import check


@published(__file__, "metric.csv")
def test_sizes(row):
    check(row)
