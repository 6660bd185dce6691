"""Studies of a clamped joint made up for tests: every figure is invented."""

from typing import Any

from firedeck.findings.joint import (
    After,
    BoltNow,
    Influence,
    JointFound,
    JointStudy,
    Matches,
    PeakTaken,
    PlaceNow,
    Rank,
    Slip,
)
from firedeck.trace import Band, Missing, Step

LOADS = {Rank.NO_WORSE: (64.0, 4.0), Rank.WORSE: (42.0, 6.0), Rank.CANNOT_RANK: (57.0, 9.0)}
"""Load now and half its band, where standard has 60 N/mm."""
AS_BUILT = 60.0
DIAL = Missing(
    ("joint.head.readings.faces",), "dip beside ring 2", "dial in a bridge foot", "Run it round the ring."
)


def place(bore: str, rank: Rank | None, **other: Any) -> PlaceNow:
    """Make one ring of a rank; without a rank nothing is compared."""
    load, half = LOADS[rank] if rank else (57.0, 9.0)
    given: dict[str, Any] = {
        "firing_lowest": load,
        "firing_band": Band(load - 20.0, load + 20.0),
        "curve": (
            (-2.0, load, AS_BUILT if rank else None),
            (0.0, 90.0, 95.0 if rank else None),
            (2.0, 80.0, 80.0),
        ),
    }
    if rank:
        change = load - AS_BUILT
        ends = Band(change - half, change + half, why="drawn in pairs")
        share = Band((AS_BUILT + ends.low) / AS_BUILT, (AS_BUILT + ends.high) / AS_BUILT)
        figures = {"now": (load, "N/mm"), "as_built": (AS_BUILT, "N/mm")}
        step = Step.work_out("Change", "now - as_built", figures, ("change", "N/mm"), "derived")
        given |= {
            "as_built_lowest": AS_BUILT,
            "change": change,
            "change_band": ends,
            "rank": rank,
            "steps": (step,),
        }
        given |= {"share": load / AS_BUILT, "share_band": share}
    base = {
        "side": "exhaust side",
        "lowest_angle": -2.0,
        "cold_mean": 120.0,
        "cold_lowest": 90.0,
        "hot_lowest": 95.0,
    }
    return PlaceNow(bore, **{**base, "lift": 0.009, "opens_at": 12.0, **given, **other})


def study(*ranks: Rank | None, **other: Any) -> JointStudy:
    """Make a study with one ring for each rank."""
    places = tuple(place(str(number), rank) for number, rank in enumerate(ranks, start=1))
    order = [Rank.WORSE, Rank.CANNOT_RANK, Rank.NO_WORSE]
    told = [rank for rank in ranks if rank]
    given: dict[str, Any] = {
        "places": places,
        "beads": (),
        "bolts": (BoltNow("1", 50e3, 48e3, 45e3, 47e3, 48e3, 0.9, 240.0),),
        "peak": PeakTaken(8.0, Band(7.0, 9.0), 1.5, "from the papers"),
        "rank": min(told, key=order.index) if told else None,
        "compared": bool(told),
        "differs": ("tightening",) if told else (),
        "influences": (
            Influence("tension", "the wrench", Band(-1.0, 1.0), 0.01, None),
            Influence("faces", "a dip", Band(-8.0, 2.0), 0.8, DIAL),
        ),
        "matches_anchor_at": Matches("1", {Rank.WORSE: 6.5}.get(ranks[0], 8.6), 0.04) if told else None,
        "overheat": After("one overheat", "1", 22.0, 39e3),
        "shear": Slip(60.0, 45.0, 3.0, False),
        "steps": (
            Step.work_out(
                "Room", "opens_at - peak - knock", {"opens_at": (12.0, "MPa"), "peak": (8.0, "MPa"), "knock": (1.5, "MPa")},
                ("room", "MPa"), "run:clamped-joint",
            ),
        ),
    }  # fmt: skip
    return JointStudy("head", "standard", "", **{**given, **other})


def found(*ranks: Rank | None, **other: Any) -> JointFound:
    """Wrap a study as the finding gives it."""
    return JointFound(study(*ranks, **other))
