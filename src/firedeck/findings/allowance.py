"""How near to a limit a reading lies: within what the tool can tell, or clear of it."""

from firedeck.quantity import Outcome, meets, parse
from firedeck.tables import rows
from firedeck.terms import term


def reading_of(quantity: str) -> float | None:
    """Return what the usual tool cannot tell apart, in core units; None for a quantity not in the table."""
    for row in rows("gasket_readings"):
        if row["quantity"] == quantity:
            return parse(row["reading"], term(quantity).kind).value
    return None


def near(quantity: str, value: float, low: float | None, high: float | None) -> bool:
    """Tell whether another reading of the same thing could fall on the other side of a limit."""
    reading = reading_of(quantity)
    if reading is None:
        return meets(value, low, high) is Outcome.AT_LIMIT
    return len({_side(value + shift, low, high) for shift in (-reading, 0.0, reading)}) > 1


def _side(value: float, low: float | None, high: float | None) -> bool:
    return meets(value, low, high) is not Outcome.FAILS


def words_from(values: dict[str, float]) -> frozenset[str]:
    """Return the words that hold from a reading on, for the quantities that are known."""
    return frozenset(
        row["word"]
        for row in rows("gasket_words")
        if row["quantity"] in values
        and meets(values[row["quantity"]], low=parse(row["from"], term(row["quantity"]).kind).value)
        is not Outcome.FAILS
    )
