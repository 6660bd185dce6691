"""Liner stand against the limits that two manuals print."""

from cases import Row, published

from firedeck.cylinder.liners import LinerLimits, liner_step

INCH = 25.4


@published(__file__, "liners.csv")
def test_liners(row: Row) -> None:
    readings = [[float(cell) * INCH for cell in liner.split("/")] for liner in row["readings"].split(";")]
    step = float(row["step"]) * INCH if row["step"] else None
    limits = LinerLimits(step=step, low=float(row["low"]) * INCH, high=float(row["high"]) * INCH)
    assert liner_step(readings, limits).verdict.value == row["verdict"]
