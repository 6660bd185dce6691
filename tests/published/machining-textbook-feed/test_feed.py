"""Finish by feed, and back."""

import pytest
from cases import Row, published

from firedeck import sums


@published(__file__, "feeds.csv")
def test_finish_by_feed(row: Row) -> None:
    answer = sums.feed_finish(feed=f"{row['feed']} mm", nose_radius=f"{row['nose_radius']} mm")
    figures = {name: number for step in answer.steps for name, (number, _) in step.result.items()}
    assert figures[row["result"]] * 1000 == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


@published(__file__, "back.csv")
def test_feed_for_finish(row: Row) -> None:
    feed = sums.feed_for_finish(Ra=row["Ra"], nose_radius=row["nose_radius"]).results["feed"].value
    assert feed == pytest.approx(float(row["feed"]), abs=float(row["tolerance"]))


@published(__file__, "real.csv")
def test_the_answer_says_how_much_rougher_a_real_cut_is(row: Row) -> None:
    (caution,) = sums.feed_finish(feed="0.2 mm", nose_radius="0.8 mm").cautions
    assert f"{row['low']} to {row['high']} times" in caution
