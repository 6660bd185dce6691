"""The ring of the gasket against the bore: how far it stands back, and whether it hangs into the gas."""

from dataclasses import dataclass
from enum import StrEnum

from firedeck.errors import OutOfRange
from firedeck.quantity import Kind, parse
from firedeck.tables import Row, rows
from firedeck.trace import DERIVED, Context, Limit, Measure, Note, Rank, Step


class RingPlace(StrEnum):
    """Where the ring lies against the bore."""

    INSIDE = "inside-the-bore"
    FLUSH = "flush"
    BACK = "stands-back"


@dataclass(frozen=True)
class RingFit:
    """How far the ring stands back on each side [mm], negative when it hangs into the bore."""

    overhang: float
    over_bore: float
    place: RingPlace
    steps: tuple[Step, ...]
    cautions: tuple[Note, ...] = ()


def ring_fit(bore: float, gasket_bore: float, off_centre: float = 0.0) -> RingFit:
    """Fit of a gasket ring over a cylinder bore.

    Parameters
    ----------
    bore : float
        Cylinder bore, at its largest near the top [mm].
    gasket_bore : float
        Inner diameter of the combustion ring [mm].
    off_centre : float, optional
        How far the ring can lie off the middle of the bore [mm].

    Returns
    -------
    RingFit
        Least distance the ring stands back per side, and gasket bore over cylinder bore [mm].

    Raises
    ------
    OutOfRange
        If a diameter is not above nought or the offset negative.

    Valid for
    ---------
    Round rings and bores.

    Source
    ------
    derived

    Examples
    --------
    >>> found = ring_fit(bore=4.155 * 25.4, gasket_bore=4.100 * 25.4)
    >>> round(found.overhang / 25.4, 4), found.place.value
    (-0.0275, 'inside-the-bore')
    """
    for name, value in (("bore", bore), ("gasket_bore", gasket_bore)):
        if not value > 0.0:
            raise OutOfRange(name, f"{value:g} mm", "more than nought is wanted")
    if not off_centre >= 0.0:
        raise OutOfRange("off_centre", f"{off_centre:g} mm", "nought or more is wanted")
    over = Step.work_out(
        "Gasket bore over cylinder bore",
        "gasket_bore - bore",
        {"gasket_bore": (gasket_bore, "mm"), "bore": (bore, "mm")},
        ("over_bore", "mm"),
        DERIVED,
    )
    back = Step.work_out(
        "Ring stands back on each side",
        "(gasket_bore - bore) / 2 - off_centre",
        {"gasket_bore": (gasket_bore, "mm"), "bore": (bore, "mm"), "off_centre": (off_centre, "mm")},
        ("overhang", "mm"),
        DERIVED,
    )
    place = _place(back.value)
    return RingFit(back.value, over.value, place, (over, back), _cautions(place))


def _place(overhang: float) -> RingPlace:
    if abs(overhang) < 1e-9:
        return RingPlace.FLUSH
    return RingPlace.BACK if overhang > 0.0 else RingPlace.INSIDE


def _cautions(place: RingPlace) -> tuple[Note, ...]:
    if place is RingPlace.INSIDE:
        return (
            Note("the ring hangs into the gas: it burns, makes hot spots and can meet the piston", DERIVED),
        )
    if place is RingPlace.FLUSH:
        return (Note("the ring is flush with the bore: any offset puts it into the gas", DERIVED),)
    return ()


def ring_margins(construction: str | None = None) -> tuple[Limit, ...]:
    """How far a ring should stand back on each side, where the sheet with the part gives none.

    Parameters
    ----------
    construction : str, optional
        Construction of the gasket [text].

    Returns
    -------
    tuple of Limit
        The rows that fit, strongest rank first [mm].

    Source
    ------
    [common-practice] and memory, row by row in tables/data/ring_margins.csv.

    Examples
    --------
    >>> round(ring_margins()[0].low, 3)
    0.381
    """
    fitting = [row for row in rows("ring_margins") if row["construction"] in ("", construction or "")]
    return tuple(sorted((_margin(row) for row in fitting), key=lambda limit: limit.rank.order))


def _margin(row: Row) -> Limit:
    return Limit(
        quantity="ring_overhang",
        low=parse(row["low"], Kind.LENGTH).value / 2.0,
        high=parse(row["high"], Kind.LENGTH).value / 2.0,
        measure=Measure.COMPUTED,
        applies=Context(construction=row["construction"] or None),
        rank=Rank(row["rank"]),
        source=row["source"],
        where=row["where"],
        text=f"{row['low']} to {row['high']} on the diameter",
    )
