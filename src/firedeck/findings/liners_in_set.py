"""How the liners stand in one set: as they are with its block cut, by the plan, or set anew to the middle of the book."""

from collections.abc import Mapping
from dataclasses import dataclass

from firedeck.findings.liners import Liners
from firedeck.findings.paper_bounds import least, most
from firedeck.job import Joint
from firedeck.quantity import Outcome, meets
from firedeck.trace import DERIVED, Step

STAND = "liner_protrusion"


@dataclass(frozen=True)
class LinersInSet:
    """Each figure to hold against the papers (words, quantity, sum), and what has to be done to the liners for it.

    ``work``: nothing, as planned, or set (every liner out, its seat cut or shimmed to ``target`` [mm]).
    ``loose``: they move and nobody said that they were held down when read.
    """

    figures: tuple[tuple[str, str, Step], ...]
    work: str = ""
    target: float | None = None
    loose: bool = False


def liners_in_set(joint: Joint, liners: Liners, block_cut: float) -> LinersInSet:
    """Leave the liners where the papers allow it; else set those that can be moved to the middle of the book."""
    plan, stand = liners.plan, liners.stand
    ends = (plan.lowest, plan.highest) if plan else (stand.lowest, stand.highest)
    figures = (
        ("lowest stand", STAND, after_cut("Lowest liner stand", ends[0], block_cut)),
        ("highest stand", STAND, after_cut("Highest liner stand", ends[1], block_cut)),
        ("step between neighbours", "liner_step", liners.steps[-1]),
        ("spread round one", "liner_spread", stand.spread_within),
    )
    bounds = (least(joint, STAND, "block"), most(joint, STAND, "block"))
    loose = liners.needs_clamps and liners.clamped in (None, "not-clamped")
    if loose or plan or not liners.needs_clamps or None in bounds or not _out(joint, figures):
        return LinersInSet(figures, "planned" if plan else "", loose=loose)
    return _set_anew(bounds[0] or 0.0, bounds[1] or 0.0, liners.stand.spread_within)


def _out(joint: Joint, figures: tuple[tuple[str, str, Step], ...]) -> bool:
    """Tell whether a figure is out of a bound of the papers; one without a bound is not."""
    for _, quantity, step in figures:
        low, high = least(joint, quantity, "block"), most(joint, quantity, "block")
        if (low, high) != (None, None) and meets(step.value, low, high) is Outcome.FAILS:
            return True
    return False


def _set_anew(low: float, high: float, spread: Step) -> LinersInSet:
    """Each liner's own middle at the middle of the book; the widest spread round one is taken to stay."""
    inputs: Mapping[str, tuple[float, str]] = {
        "least_stand": (low, "mm"),
        "most_stand": (high, "mm"),
        "spread": spread.figure(),
    }
    lowest, highest = (
        Step.work_out(
            f"{words} liner stand, each set to the middle of the book",
            f"(least_stand + most_stand) / 2 {sign} spread / 2",
            inputs,
            ("stand_after", "mm"),
            DERIVED,
        )
        for words, sign in (("Lowest", "-"), ("Highest", "+"))
    )
    figures = (("lowest stand", STAND, lowest), ("highest stand", STAND, highest))
    return LinersInSet(figures, "set", (low + high) / 2.0)


def after_cut(says: str, stand: Step, block_cut: float) -> Step:
    """Return how far something stands out once the block is cut by so much."""
    return Step.work_out(
        f"{says}, with the block cut",
        "stand + block_cut",
        {"stand": stand.figure(), "block_cut": (block_cut, "mm")},
        ("stand_after", "mm"),
        DERIVED,
    )
