"""Engagement usual in the trade."""

from cases import published

from firedeck.tables import one


@published(__file__, "engagement.csv")
def test_engagement(row):
    found = one("engagement", row["hole"], lambda line: line["hole_material"] == row["hole"])
    assert (float(found["low"]), float(found["high"])) == (float(row["low"]), float(row["high"]))
    assert found["source"] == "common-practice"
