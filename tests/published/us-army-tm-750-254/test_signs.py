"""The table of coolant signs says what its sources say."""

from cases import Row, published

from firedeck.tables import one


@published(__file__, "signs.csv")
def test_sign(row: Row) -> None:
    found = one("coolant_signs", row["sign"], lambda sign: sign["sign"] == row["sign"])
    assert row["word_of_meaning"] in found["means"]
    assert row["word_of_next"] in found["next"]
