"""Free and compressed thickness of a gasket kept apart: the guard against taking one for the other."""

from dataclasses import dataclass

from firedeck.cylinder.bounds import positive
from firedeck.errors import JobError, TableGap
from firedeck.tables import rows
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, Note, Step

STATES = ("compressed", "free", "unknown")


@dataclass(frozen=True)
class CompressedThickness:
    """What the compressed thickness can be [mm]; low equals high where it was measured."""

    low: float
    high: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


def compressed_thickness(
    thickness: float, state: str, construction: str | None = None
) -> CompressedThickness:
    """Compressed thickness of a gasket from a figure that may be the free one.

    Parameters
    ----------
    thickness : float
        The figure at hand [mm].
    state : str
        What it is: compressed, free or unknown [text].
    construction : str, optional
        Construction of tables/data/gasket_constructions.csv [text].

    Returns
    -------
    CompressedThickness
        Least and most the compressed thickness can be [mm].

    Raises
    ------
    JobError
        If the state is another word.
    TableGap
        If the construction is not in the table.
    OutOfRange
        If the thickness is not above nought.

    Valid for
    ---------
    First tightening of a new gasket; crush shares are of the trade, not of this part.

    Source
    ------
    [common-practice] crush shares of the table.

    Examples
    --------
    >>> found = compressed_thickness(1.27, "free", "composite")
    >>> found.low < found.high < 1.27
    True
    """
    positive("gasket_thickness", thickness, "mm")
    if state not in STATES:
        raise JobError("thickness state", repr(state), f"allowed: {', '.join(STATES)}")
    if state == "compressed":
        return CompressedThickness(thickness, thickness, ())
    least, most, source = _crush(construction)
    least = 0.0 if state == "unknown" else least
    thin, thick = (_crushed(thickness, share, source) for share in (most, least))
    what = "the free thickness" if state == "free" else "of unknown kind"
    ask = "ask for the compressed one, or measure beside the ring of a used gasket"
    caution = Note(f"this figure is {what}: {ask}", GENERIC)
    notes = (Note(f"crush of {least:.0%} to {most:.0%} of the free thickness", source),)
    return CompressedThickness(thin.value, thick.value, (thin, thick), notes, (caution,))


def _crushed(thickness: float, share: float, source: str) -> Step:
    return Step.work_out(
        "Thickness after crush",
        "free_thickness * (1 - crush)",
        {"free_thickness": (thickness, "mm"), "crush": (share, NO_UNIT)},
        ("gasket_thickness", "mm"),
        source if share else DERIVED,
    )


def _crush(construction: str | None) -> tuple[float, float, str]:
    table = [row for row in rows("gasket_constructions") if construction in (None, row["construction"])]
    if not table:
        known = ", ".join(row["construction"] for row in rows("gasket_constructions"))
        raise TableGap("gasket_constructions", str(construction), known)
    least = min(float(row["crush_least"]) for row in table)
    most = max(float(row["crush_most"]) for row in table)
    return least, most, table[0]["source"]
