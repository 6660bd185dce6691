"""Gaps above the piston that the trade leaves where the papers give none, as limits with their rank."""

from firedeck.quantity import Kind, parse
from firedeck.tables import Row, rows
from firedeck.trace import Context, Limit, Measure, Rank


def gap_limits(
    quantity: str,
    *,
    fuel: str | None = None,
    charging: str | None = None,
    rod_material: str | None = None,
    duty: str | None = None,
) -> tuple[Limit, ...]:
    """Limits of the trade for a gap above the piston.

    Parameters
    ----------
    quantity : str
        squish, intake_valve_clearance or exhaust_valve_clearance [text].
    fuel, charging, rod_material, duty : str, optional
        petrol or diesel; natural or boosted; steel or aluminium; road, race, small ... What is not
        known fits no row that states it [text].

    Returns
    -------
    tuple of Limit
        Every row that fits, strongest rank first; none for a diesel squish [mm].

    Valid for
    ---------
    Only where the papers of the engine give nothing.

    Source
    ------
    [common-practice] and memory, row by row in tables/data/gap_limits.csv.

    Examples
    --------
    >>> (found,) = gap_limits("intake_valve_clearance", rod_material="steel")
    >>> round(found.low, 3), found.rank.value
    (2.032, 'common-practice')
    """
    asked = {"fuel": fuel, "charging": charging, "rod_material": rod_material, "duty": duty}
    fitting = [row for row in rows("gap_limits") if row["quantity"] == quantity and _fits(row, asked)]
    return tuple(sorted((_limit(row) for row in fitting), key=lambda limit: limit.rank.order))


def _fits(row: Row, asked: dict[str, str | None]) -> bool:
    return all(not row[name] or row[name] == wanted for name, wanted in asked.items())


def _limit(row: Row) -> Limit:
    bounds = [parse(row[end], Kind.LENGTH).value if row[end] else None for end in ("low", "high")]
    return Limit(
        quantity=row["quantity"],
        low=bounds[0],
        high=bounds[1],
        measure=Measure.COMPUTED,
        applies=Context(duty=row["duty"] or None),
        rank=Rank(row["rank"]),
        source=row["source"],
        where=row["where"],
        text=" to ".join(row[end] for end in ("low", "high") if row[end]),
    )
