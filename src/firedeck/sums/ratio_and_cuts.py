"""Sums of volumes and cuts: compression ratio, cut for a ratio, chamber cut, squish."""

from firedeck.cylinder.chamber_cut import chamber_cut
from firedeck.cylinder.cut_for_ratio import cut_for_ratio
from firedeck.cylinder.squish import squish_gap
from firedeck.cylinder.volumes import compression_ratio
from firedeck.quantity import Kind
from firedeck.sums.registry import Figure, SumResult, a_sum
from firedeck.sums.written import written

MM2_IN_CC_PER_MM = 1000.0
"""Plan area [mm²] that is one cc per mm of cut."""


@a_sum("compression-ratio")
def compression_ratio_sum(
    *,
    bore: float | None = None,
    stroke: float | None = None,
    chamber_volume: float | None = None,
    gasket_thickness: float | None = None,
    gasket_bore: float | None = None,
    deck_clearance: float | None = None,
    dish_volume: float | None = None,
    dome_volume: float | None = None,
    crevice_volume: float | None = None,
    swept_volume: float | None = None,
    clearance_volume: float | None = None,
) -> SumResult:
    """Compression ratio of one cylinder from its measured parts, or from its two volumes."""
    found = compression_ratio(
        bore=bore,
        stroke=stroke,
        chamber_volume=chamber_volume,
        gasket_thickness=gasket_thickness,
        gasket_bore=gasket_bore,
        deck_clearance=deck_clearance,
        dish_volume=dish_volume,
        dome_volume=dome_volume,
        crevice_volume=crevice_volume,
        swept_volume=swept_volume,
        clearance_volume=clearance_volume,
    )
    results = {
        "swept_volume": Figure(found.swept_volume, Kind.VOLUME),
        "clearance_volume": Figure(found.clearance_volume, Kind.VOLUME),
        "ratio": Figure(found.ratio, Kind.RATIO),
    }
    return written(found, results)


@a_sum("cut-for-ratio")
def cut_for_ratio_sum(
    *,
    swept_volume: float,
    clearance_volume: float,
    ratio: float,
    plan_area: float | None = None,
    volume_per_cut: float | None = None,
) -> SumResult:
    """Cut of the head face that gives a wanted compression ratio."""
    found = cut_for_ratio(
        swept_volume=swept_volume,
        clearance_volume=clearance_volume,
        ratio=ratio,
        plan_area=plan_area,
        volume_per_cut=volume_per_cut,
    )
    results = {"cut": Figure(found.cut, Kind.LENGTH), "volume": Figure(found.volume, Kind.VOLUME)}
    return written(found, results)


@a_sum("chamber-cut")
def chamber_cut_sum(
    *,
    plan_area: float | None = None,
    rim_length: float | None = None,
    volume_before: float | None = None,
    volume_after: float | None = None,
    cut: float,
) -> SumResult:
    """Volume that a cut of the head face takes off one chamber, and the cut per volume."""
    found = chamber_cut(
        plan_area=plan_area,
        rim_length=rim_length,
        volume_before=volume_before,
        volume_after=volume_after,
        cut=cut,
    )
    results = {
        "volume_change": Figure(found.volume_change, Kind.VOLUME),
        "volume_per_cut": Figure(found.volume_per_cut / MM2_IN_CC_PER_MM, unit="cc/mm"),
        "cut_per_cc": Figure(found.cut_per_volume * MM2_IN_CC_PER_MM, unit="mm/cc"),
    }
    return written(found, results)


@a_sum("squish")
def squish_sum(deck_clearance: float, gasket_thickness: float, cut: float = 0.0) -> SumResult:
    """Gap between piston and head at top dead centre, before or after a cut of the block."""
    found = squish_gap(deck_clearance, gasket_thickness, cut)
    return written(found, {"squish": Figure(found.squish, Kind.LENGTH)})
