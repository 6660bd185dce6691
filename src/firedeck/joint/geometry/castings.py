"""What a head and a block look like inside: the few dimensions that decide how stiff they are.

Most of them no garage can measure. Families of castings give a soft, a middle and a stiff figure for each; what was
measured replaces it. All are invented families (tables/data/castings.csv), to be carried as a band.
"""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from enum import StrEnum

from firedeck.errors import OutOfRange, TableGap
from firedeck.tables import rows


class Variant(StrEnum):
    """Which end of the band a casting is taken from."""

    SOFT = "soft"
    MIDDLE = "middle"
    STIFF = "stiff"


@dataclass(frozen=True)
class HeadSection:
    """A head, heights above the fire face; all [mm] but ``ports``, a share of full metal.

    ``seat`` is the face under the bolt heads, ``ceiling`` the metal under it that closes the water jacket, ``roof`` the
    metal over a chamber ``chamber_depth`` deep, ``ports`` what ports, guides and towers fill of the jacket over a bore.
    """

    height: float
    deck: float
    chamber_depth: float
    roof: float
    seat: float
    ceiling: float
    wall: float
    rib: float
    boss: float
    ports: float

    def __post_init__(self) -> None:
        _plain(self, "head", may_be_nought={"chamber_depth", "rib", "ports"})
        inside = max(self.deck, self.chamber_depth + self.roof)
        if not inside < self.seat - self.ceiling:
            found = f"deck or roof up to {inside:g} mm, ceiling from {self.seat - self.ceiling:g} mm"
            raise OutOfRange("head section", found, "room for a water jacket between them")
        if not self.seat <= self.height:
            raise OutOfRange(
                "head section", f"seat at {self.seat:g} mm", f"at most the height, {self.height:g} mm"
            )
        if self.ports > 1.0:
            raise OutOfRange("head section", f"ports {self.ports:g}", "a share of 0 to 1")


@dataclass(frozen=True)
class BlockSection:
    """A block, depths below its face [mm]; ``deck`` 0 is an open deck, ``ledge`` above 0 a separate wet liner.

    ``jacket`` is the floor of the water jacket: below it everything but the bores is metal, down to the cut.
    """

    cut_depth: float
    jacket: float
    deck: float
    liner: float
    wall: float
    boss: float
    ledge: float = 0.0
    flange: float = 0.0

    def __post_init__(self) -> None:
        _plain(self, "block", may_be_nought={"deck", "ledge", "flange"})
        if not max(self.deck, self.ledge) < 0.8 * self.jacket:
            allowed = f"well above the floor of the jacket at {self.jacket:g} mm"
            raise OutOfRange("block section", f"deck {self.deck:g} mm", allowed)
        if self.ledge > self.deck > 0.0 or (self.ledge > 0.0 and self.deck == 0.0):
            raise OutOfRange(
                "block section", f"ledge {self.ledge:g} mm", f"within the deck, {self.deck:g} mm"
            )


def _plain(section: HeadSection | BlockSection, name: str, may_be_nought: set[str]) -> None:
    for field in fields(section):
        value = getattr(section, field.name)
        if not (0.0 < value < 1e4 or (value == 0.0 and field.name in may_be_nought)):
            allowed = "nought or more" if field.name in may_be_nought else "more than nought"
            raise OutOfRange(f"{name} section, {field.name}", f"{value:g}", allowed)


def head_section(
    family: str, bore: float, variant: Variant = Variant.MIDDLE, measured: Mapping[str, float] | None = None
) -> HeadSection:
    """Dimensions of a head of a family, with what was measured put in.

    Parameters
    ----------
    family : str
        As in the table: aluminium-overhead-cam, aluminium-push-rod, iron-overhead-valve, iron-diesel ... [text].
    bore : float
        Mean bore [mm].
    variant : Variant
        Soft, middle or stiff [text].
    measured : mapping of str to float, optional
        Dimensions by name that are known [mm].

    Returns
    -------
    HeadSection
        All dimensions [mm].

    Raises
    ------
    TableGap
        If the family is not in the table.
    OutOfRange
        If the dimensions leave no room for each other.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> head_section("iron-diesel", 100.0, measured={"deck": 13.0}).deck
    13.0
    """
    return HeadSection(**_dimensions("head", family, bore, variant, measured or {}))


def skimmed(section: HeadSection, cut: float) -> HeadSection:
    """A head after a cut of its fire face.

    Parameters
    ----------
    section : HeadSection
        The head before [mm].
    cut : float
        Metal taken off [mm].

    Returns
    -------
    HeadSection
        The head after: deck, chamber, seat and height lower by the cut, the roof as it was [mm].

    Raises
    ------
    OutOfRange
        If the cut is below nought, or deeper than the chamber or the deck allow.

    Source
    ------
    derived

    Examples
    --------
    >>> head = head_section("aluminium-overhead-cam", 100.0)
    >>> round(head.deck - skimmed(head, 0.5).deck, 9)
    0.5
    """
    if not cut >= 0.0:
        raise OutOfRange("cut", f"{cut:g} mm", "nought or more")
    flat = section.chamber_depth == 0.0
    if not (flat or cut < section.chamber_depth):
        raise OutOfRange(
            "cut", f"{cut:g} mm", f"less than the depth of the chamber, {section.chamber_depth:g} mm"
        )
    return replace(
        section,
        deck=section.deck - cut,
        roof=section.roof - cut if flat else section.roof,
        chamber_depth=0.0 if flat else section.chamber_depth - cut,
        seat=section.seat - cut,
        height=section.height - cut,
    )


def block_section(
    family: str, bore: float, variant: Variant = Variant.MIDDLE, measured: Mapping[str, float] | None = None
) -> BlockSection:
    """Dimensions of a block of a family, with what was measured put in.

    Parameters
    ----------
    family : str
        As in the table: closed-deck, open-deck, wet-liner [text].
    bore : float
        Mean bore [mm].
    variant : Variant
        Soft, middle or stiff [text].
    measured : mapping of str to float, optional
        Dimensions by name that are known [mm].

    Returns
    -------
    BlockSection
        All dimensions [mm].

    Raises
    ------
    TableGap
        If the family is not in the table.
    OutOfRange
        If the dimensions leave no room for each other.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> block_section("open-deck", 80.0).deck
    0.0
    """
    return BlockSection(**_dimensions("block", family, bore, variant, measured or {}))


def families(part: str) -> tuple[str, ...]:
    """Name the families of a part.

    Parameters
    ----------
    part : str
        head or block [text].

    Returns
    -------
    tuple of str
        Families in the order of the table [text].

    Source
    ------
    generic-ours

    Examples
    --------
    >>> families("block")
    ('closed-deck', 'open-deck', 'wet-liner')
    """
    return tuple(dict.fromkeys(row["family"] for row in rows("castings") if row["part"] == part))


def _dimensions(
    part: str, family: str, bore: float, variant: Variant, measured: Mapping[str, float]
) -> dict[str, float]:
    if not 10.0 <= bore <= 500.0:
        raise OutOfRange("bore", f"{bore:g} mm", "10 to 500 mm")
    found = {
        row["dimension"]: float(row[variant]) * (bore if row["unit"] == "bore" else 1.0)
        for row in rows("castings")
        if row["part"] == part and row["family"] == family
    }
    if not found:
        raise TableGap("castings", f"{part} {family}", ", ".join(families(part)))
    unknown = sorted(measured.keys() - found.keys())
    if unknown:
        raise OutOfRange(f"{part} section", unknown[0], ", ".join(found))
    return found | dict(measured)
