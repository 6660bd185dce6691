"""Figures for orientation: held as recalled, and said to be from memory where they are."""

from cases import Row, published

from firedeck.tables import rows


@published(__file__, "held.csv")
def test_held_as_recalled(row: Row) -> None:
    wanted = dict(part.split("=") for part in row["where"].split(";"))
    (found,) = [held for held in rows(row["table"]) if wanted.items() <= held.items()]
    assert f"{found['low']}..{found['high']}" == row["expected"]
    assert (found["source"] == "memory") == ("memory" in row["source"])
