"""Cut-off and evaluation length by the table of the standards."""

from dataclasses import dataclass
from math import inf

from firedeck.errors import OutOfRange
from firedeck.quantity import Kind, parse
from firedeck.tables import Row, rows
from firedeck.trace import Note, Step

STANDARD_CUTOFFS = (0.08, 0.25, 0.8, 2.5, 8.0)
_SECTIONS = 5


@dataclass(frozen=True)
class Cutoff:
    """Cut-off and evaluation length; mm."""

    cutoff: float
    evaluation_length: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def choose_cutoff(*, Ra: float | None = None, RSm: float | None = None, Rz: float | None = None) -> Cutoff:
    """Cut-off for an expected finish.

    Give Ra (or Rz) of a face without a regular lay, such as a ground one, or RSm, the mean spacing of
    the marks, of a turned or milled one.

    Parameters
    ----------
    Ra : float, optional
        Mean roughness expected, lay not regular [mm].
    RSm : float, optional
        Mean spacing of the marks, lay regular [mm].
    Rz : float, optional
        Mean height expected, lay not regular; the bounds of the newer standard [mm].

    Returns
    -------
    Cutoff
        Cut-off and evaluation length of five cut-offs [mm].

    Raises
    ------
    OutOfRange
        If not exactly one figure is given, or it lies outside the table.

    Valid for
    ---------
    Default settings; a drawing may ask for others.

    Source
    ------
    iso-4288 tables, kept for Ra and RSm by iso-21920-3

    Examples
    --------
    >>> found = choose_cutoff(Ra=0.0016)
    >>> found.cutoff, round(found.evaluation_length, 9)
    (0.8, 4.0)
    """
    given = {name: value for name, value in (("Ra", Ra), ("RSm", RSm), ("Rz", Rz)) if value is not None}
    if len(given) != 1:
        raise OutOfRange("finish", ", ".join(given) or "nothing", "exactly one of Ra, RSm, Rz")
    ((name, value),) = given.items()
    row = _row(name, value)
    cutoff = parse(row["cutoff"], Kind.LENGTH).value
    step = Step.work_out(
        f"Evaluation length: {_SECTIONS} cut-offs, {name} over {row['over']} up to {row['up_to']}",
        f"{_SECTIONS} * cutoff",
        {"cutoff": (cutoff, "mm")},
        ("evaluation_length", "mm"),
        row["source"],
    )
    lay = "regular (turned, milled)" if name == "RSm" else "not regular (ground, lapped)"
    return Cutoff(cutoff, step.value, (step,), (Note(f"lay taken as {lay}", row["source"]),))


def _row(name: str, value: float) -> Row:
    able = [row for row in rows("cutoffs") if row["by"] == name and row["standard"] != "superseded"]
    for row in able:
        over, up_to = (_bound(row[end]) for end in ("over", "up_to"))
        if over < value <= up_to * (1.0 + 1e-12):
            return row
    allowed = f"over {able[0]['over']} up to {able[-1]['up_to'] or 'any'}"
    raise OutOfRange(name, f"{value * 1000:g} µm" if name != "RSm" else f"{value:g} mm", allowed)


def _bound(text: str) -> float:
    """A bound of the table; without one, all above."""
    return parse(text, Kind.LENGTH).value if text else inf
