"""What processes leave, and the microinch."""

import pytest
from cases import Row, published

from firedeck.quantity import Kind, in_unit, parse
from firedeck.tables import one


@published(__file__, "processes.csv")
def test_range_of_a_process(row: Row) -> None:
    ours = one("finish_by_process", row["process"], lambda other: other["process"] == row["process"])
    ends = [parse(ours[end], Kind.FINISH) for end in ("finest", "roughest")]
    assert [in_unit(end.value, Kind.FINISH, "um") for end in ends] == pytest.approx(
        [float(end) for end in row["um"].split("-")], rel=1e-12
    )
    microinch = [in_unit(end.value, Kind.FINISH, "uin") for end in ends]
    assert microinch == pytest.approx([float(end) for end in row["uin"].split("-")], rel=0.025, abs=0.1)


@published(__file__, "microinch.csv")
def test_microinch_exactly(row: Row) -> None:
    read = parse(f"{row['uin']} µin", Kind.FINISH)
    assert read.exact == parse(f"{row['um']} µm", Kind.FINISH).exact
