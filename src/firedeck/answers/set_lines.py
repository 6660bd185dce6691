"""One set of cut and gasket in a line of work: what it is, what it costs in trouble, what it leaves for the next repair."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.answers.answer import Work
from firedeck.answers.making import Draft, both
from firedeck.findings.combination import Set
from firedeck.trace import DERIVED, Check, Outcome


@dataclass(frozen=True)
class Judgement:
    """One set with everything held against its limits."""

    of: Set
    checks: tuple[Check, ...]
    outcome: Outcome
    worst: Check | None
    away: float
    draft: Draft


def line_of(one: Judgement, every: Sequence[Judgement]) -> Work:
    """Write one set out in a line: cut, gasket, gap, ratio, and what is left for the next repair."""
    effects = one.of.effects
    parts = [f"off the head {both(one.of.head_cut, 'cut')}", f"off the block {both(one.of.block_cut, 'cut')}"]
    if effects.gasket:
        parts.append(f"gasket {both(effects.gasket.thickness, 'gasket_thickness')}")
    if effects.squish:
        parts.append(f"squish {both(effects.squish[1].value, 'squish')}")
    if effects.valves:
        parts.append(f"intake {both(effects.valves.intake, 'intake_valve_clearance')}")
        parts.append(f"exhaust {both(effects.valves.exhaust, 'exhaust_valve_clearance')}")
    ratios = [ratio.after for ratio in effects.ratios if ratio.after is not None]
    if ratios:
        parts.append(f"ratio {max(ratios):.2f}")
    if one.of.liners.target is not None:
        parts.append(f"liners set to {both(one.of.liners.target, 'liner_protrusion')}")
    parts.append(f"costs {_trouble(one.of)}")
    return Work(f"{one.of.name}: {_SAYS[one.outcome]}", DERIVED, ", ".join(parts), _left(one, every))


def _left(one: Judgement, every: Sequence[Judgement]) -> str:
    """Say what a set leaves for the next repair: metal of the head, and a thicker gasket."""
    heights = [check for check in one.checks if check.quantity == "head_height" and check.margin is not None]
    left = []
    if heights:
        left.append(f"leaves {both(heights[0].margin or 0.0, 'head_height')} for the next repair")
    elif one.of.head_cut:
        left.append("metal left for the next repair not known: least height of the papers wanted")
    own = one.of.effects.gasket
    others = [each.of for each in every if each.of.effects.gasket]
    if own and len({each.gasket for each in others}) > 1:
        thicker = {
            o.gasket for o in others if o.effects.gasket and o.effects.gasket.thickness > own.thickness
        }
        left.append(
            f"a thicker gasket is left for it: {', '.join(sorted(thicker))}"
            if thicker
            else "no thicker gasket is left for it"
        )
    return "; ".join(left)


def _trouble(one: Set) -> str:
    """Say what a set costs in trouble."""
    liners = _LINERS[one.liners.work]
    if one.block_cut:
        return "the block stripped and at the shop" + (", and the head" if one.head_cut else "") + liners
    return ("the head at the shop" if one.head_cut else "no machining of the faces") + liners


_LINERS = {
    "": "",
    "planned": ", liners out and set as planned",
    "set": ", every liner out, its seat cut or shimmed, and read again clamped",
}


_SAYS = {
    Outcome.HOLDS: "every figure in",
    Outcome.AT_LIMIT: "at a limit",
    Outcome.FAILS: "a figure is out",
    Outcome.CANNOT_TELL: "not complete",
}
