"""The cut-off tables."""

import pytest
from cases import Row, published

from firedeck import sums
from firedeck.errors import OutOfRange
from firedeck.quantity import Kind, parse
from firedeck.surfaces.cutoff import choose_cutoff
from firedeck.tables import rows


@published(__file__, "cutoffs.csv")
def test_cutoff_and_evaluation_length(row: Row) -> None:
    results = sums.cutoff_choice(**{row["by"]: row["value"]}).results
    assert results["cutoff"].value == float(row["cutoff"])
    assert results["evaluation_length"].value == pytest.approx(float(row["evaluation"]), rel=1e-12)


@published(__file__, "by_rz.csv")
def test_bounds_by_height(row: Row) -> None:
    ours = [one for one in rows("cutoffs") if one["by"] == "Rz" and one["standard"] == row["standard"]]
    bounds = [one["up_to"].removesuffix(" µm") for one in ours]
    assert bounds == row["bounds"].split("/")
    assert [one["cutoff"] for one in ours] == ["0.08 mm", "0.25 mm", "0.8 mm", "2.5 mm", "8 mm"]


@published(__file__, "by_rz.csv", where=lambda row: row["standard"] == "current")
def test_the_newer_bounds_choose(row: Row) -> None:
    for bound, cutoff in zip(row["bounds"].split("/")[:-1], (0.08, 0.25, 0.8, 2.5), strict=True):
        assert choose_cutoff(Rz=parse(f"{bound} um", Kind.FINISH).value).cutoff == cutoff
    assert choose_cutoff(Rz=0.2).cutoff == 8


BEYOND = [{"Ra": 0.000005}, {"Ra": 0.09}, {"RSm": 0.013}, {"RSm": 4.1}, {}, {"Ra": 0.001, "RSm": 0.1}]


@pytest.mark.parametrize("asked", BEYOND)
def test_beyond_the_table_is_refused(asked: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        choose_cutoff(**asked)
