"""Friction of thread and head: by lubricant, with its band, or as a figure of one's own."""

from dataclasses import dataclass

from firedeck.errors import BadQuantity, OutOfRange, TableGap
from firedeck.fasteners.guards import within
from firedeck.quantity import Kind, parse, parse_list
from firedeck.tables import Row, rows
from firedeck.trace import Note

LEAST, MOST = 0.02, 0.6
"""Friction that steel threads can have at all."""


@dataclass(frozen=True)
class Friction:
    """Friction of a lubricant: lowest, usual and highest, the same for thread and head."""

    name: str
    low: float
    usual: float
    high: float
    note: Note


def friction_of(text: str) -> Friction:
    """Friction by the name of a lubricant, or a friction value typed as a number.

    Parameters
    ----------
    text : str
        dry, oil, moly, thread-sealer, maker-coated, or a figure such as 0.12 [text].

    Returns
    -------
    Friction
        Lowest, usual and highest friction [1].

    Raises
    ------
    TableGap
        If the name is not in the table.
    OutOfRange
        If a figure lies outside what steel threads can have.

    Valid for
    ---------
    Steel on steel or cast iron, standard threads and hexagon heads.

    Source
    ------
    [vdi-2230] classes of friction; [common-practice] for thread sealer, which is a lubricant.

    Examples
    --------
    >>> friction_of("oil").usual
    0.11
    >>> friction_of("0.14").high
    0.14
    """
    for row in rows("lubricants"):
        if row["lubricant"] == "-".join(text.strip().lower().split()):
            return _from_row(row)
    try:
        value = parse(text, Kind.RATIO).value
    except BadQuantity:
        names = ", ".join(row["lubricant"] for row in rows("lubricants"))
        raise TableGap("lubricants", repr(text), f"{names}, or a friction value such as 0.12") from None
    within("friction", value, LEAST, MOST)
    return _typed(value, value)


def _from_row(row: Row) -> Friction:
    low, usual, high = float(row["low"]), float(row["usual"]), float(row["high"])
    figures = f"friction {usual:g}, {low:g} to {high:g} (class {row['class']})"
    said = f"{row['lubricant']}: {figures}; {row['says']}"
    return Friction(row["lubricant"], low, usual, high, Note(said, row["source"]))


def friction_band_of(text: str) -> Friction:
    """Band of friction: the name of a lubricant, or its lowest and highest figure.

    Parameters
    ----------
    text : str
        oil, or two figures such as "0.08, 0.14" [text].

    Returns
    -------
    Friction
        The band; its usual figure is the middle where two figures were typed [1].

    Raises
    ------
    TableGap
        If the name is not in the table.
    OutOfRange
        If the figures are not two in rising order, or lie outside what steel threads can have.

    Source
    ------
    derived

    Examples
    --------
    >>> friction_band_of("0.08, 0.14").high
    0.14
    """
    figures = text.replace(" to ", ",").replace("..", ",")
    if "," not in figures:
        return friction_of(text)
    ends = [item.value for item in parse_list(figures, Kind.RATIO)]
    if len(ends) != 2 or ends[0] > ends[1]:
        raise OutOfRange(
            "friction_band", repr(text), "allowed: two figures in rising order, such as 0.08, 0.14"
        )
    for end in ends:
        within("friction_band", end, LEAST, MOST)
    low, high = ends
    return _typed(low, high)


def _typed(low: float, high: float) -> Friction:
    said = f"{low:g}" if low == high else f"{low:g} to {high:g}"
    return Friction(said, low, (low + high) / 2, high, Note(f"friction {said} as typed", "derived"))


def must_hold(band: Friction, thread_friction: float, head_friction: float) -> None:
    """Refuse a band of friction that does not hold the two frictions typed.

    Parameters
    ----------
    band : Friction
        The band [1].
    thread_friction : float
        Friction in the thread [1].
    head_friction : float
        Friction under the head [1].

    Returns
    -------
    None
        Nothing [text].

    Raises
    ------
    OutOfRange
        If a friction lies outside the band.

    Source
    ------
    derived
    """
    least, most = min(thread_friction, head_friction), max(thread_friction, head_friction)
    if not band.low <= least <= most <= band.high:
        must = f"it must hold the friction typed, {least:g} to {most:g}"
        raise OutOfRange("friction_band", f"{band.low:g} to {band.high:g}", must)
