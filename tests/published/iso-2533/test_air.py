"""Standard atmosphere against its own figures."""

from cases import Row, published
from sum_rows import check


@published(__file__, "air.csv")
def test_air(row: Row) -> None:
    check(row)
