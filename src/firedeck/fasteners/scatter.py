"""How far bolt tension scatters, by the way of tightening."""

from dataclasses import dataclass
from functools import cache

from firedeck.errors import TableGap
from firedeck.tables import Row, rows
from firedeck.trace import NO_UNIT, Note, Step


@dataclass(frozen=True)
class Scatter:
    """Band of tension about its middle: low and high as shares of the middle, and highest over lowest.

    ``common`` is the half width that all bolts of one job share, ``individual`` the half width from
    bolt to bolt; together they make the whole.
    """

    method: str
    says: str
    low: float
    high: float
    high_over_low: float
    common: float
    individual: float
    source: str
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def scatter_of(method: str) -> Scatter:
    """Scatter of bolt tension by the way of tightening.

    Parameters
    ----------
    method : str
        ultrasonic, yield, angle, hydraulic, torque-wrench-tested, torque-wrench, power-driver,
        impact [text].

    Returns
    -------
    Scatter
        Shares of the middle tension [1].

    Raises
    ------
    TableGap
        If the way of tightening is not in the table.

    Valid for
    ---------
    Bolts of one kind in one joint; the wide end of the published range.

    Source
    ------
    [vdi-2230] guide values; [generic-ours] the split into common and individual part.

    Examples
    --------
    >>> round(scatter_of("torque-wrench").high_over_low, 2)
    1.78
    """
    wanted = _plain(method)
    for row in rows("scatter"):
        if wanted in (row["method"], *(_plain(name) for name in row["also"].split("|"))):
            return _worked_out(row["method"])
    raise TableGap("scatter", f"method {method!r}", ", ".join(row["method"] for row in rows("scatter")))


def _plain(name: str) -> str:
    return "-".join(name.lower().replace(",", " ").replace("-", " ").replace("_", " ").split())


@cache
def _worked_out(method: str) -> Scatter:
    row = next(row for row in rows("scatter") if row["method"] == method)
    half = {"half": (float(row["half"]), NO_UNIT)}
    source = row["source"]
    low = Step.work_out("Lowest tension, of the middle", "1 - half", half, ("low", NO_UNIT), source)
    high = Step.work_out("Highest tension, of the middle", "1 + half", half, ("high", NO_UNIT), source)
    ratio = Step.work_out(
        "Highest over lowest tension",
        "high / low",
        {"high": high.figure(), "low": low.figure()},
        ("high_over_low", NO_UNIT),
        source,
    )
    return Scatter(
        method=method,
        says=row["says"],
        low=low.value,
        high=high.value,
        high_over_low=ratio.value,
        common=float(row["common"]),
        individual=float(row["individual"]),
        source=source,
        steps=(low, high, ratio),
        notes=_notes(row),
    )


def _notes(row: Row) -> tuple[Note, ...]:
    published = f"published highest over lowest: {row['ratio_low']} to {row['ratio_high']}; {row['says']}"
    common, individual = float(row["common"]), float(row["individual"])
    split = (
        f"{common:.0%} of it is common to all bolts of the job, {individual:.0%} differs from bolt to bolt"
    )
    return Note(published, row["source"]), Note(split, row["split_source"])
