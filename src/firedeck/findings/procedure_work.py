"""The steps of a procedure as lines to do: who, what, and the figure to be read from an arm's length."""

import math
from dataclasses import dataclass, replace

from firedeck.fasteners.procedure import Procedure
from firedeck.fasteners.procedure_lines import ALL, Act, Lubricant, ProcedureStep
from firedeck.fasteners.procedure_words import AT_ONCE, both_units

_SEQUENCES = {1: "in order", 2: "in the second order", 3: "in the third order"}


@dataclass(frozen=True)
class WorkLine:
    """One line to do; ``later`` when the engine runs before it, or a distance or a time of use passes."""

    group: str
    text: str
    figure: str
    later: bool
    turn: bool
    torque: bool = False

    def concerns(self, group: str) -> bool:
        """Tell whether a group of that name is worked on in this line."""
        return self.group in (group, ALL)


def work_lines(procedure: Procedure) -> tuple[WorkLine, ...]:
    """Write every line of a procedure as work, in the order of the text."""
    lines, later = [], False
    for line in procedure.lines:
        if isinstance(line, Lubricant):
            text = f"{_who(line.group)}: {line.place} {line.kind}, nothing else"
            lines.append(WorkLine(line.group, text, str(line.kind), later, turn=False))
        else:
            later = later or bool(line.after) or line.act is Act.RUN
            lines.append(_step(_one_by_one(line) if later else line, later=later))
    return tuple(lines)


def _one_by_one(step: ProcedureStep) -> ProcedureStep:
    """On a joint that has run, a loosening by an angle is done one at a time: all slack at once lets the gasket go."""
    return replace(step, singly=True) if step.act is Act.LOOSEN and step.setting is not None else step


def _step(step: ProcedureStep, *, later: bool) -> WorkLine:
    when = ["after " + " or ".join(one.text for one in step.after)] * bool(step.after)
    when += [f"engine {step.heat}"] * bool(step.heat)
    alone = step.act in (Act.WAIT, Act.RUN, Act.REPEAT)
    back = "one at a time, in order" if step.singly else "in reverse order"
    order = back if step.act is Act.LOOSEN else _SEQUENCES.get(step.sequence, "in order")
    who = _who(step.group) if alone else f"{_who(step.group)}, {order}"
    text = ", ".join([f"Step {step.number}", *when, f"{who}: {_does(step)}"])
    bounds = f"; {step.total.text} of turn up to here" if step.total else ""
    bounds += f"; never more than {step.at_most.text} of turn in all" if step.at_most else ""
    return WorkLine(
        step.group, text + bounds, _figure(step), later, step.act is Act.TURN, step.act is Act.TORQUE
    )


def _does(step: ProcedureStep) -> str:
    steps = f"step {step.first}" if step.first == step.last else f"steps {step.first} to {step.last}"
    return {
        Act.HAND: "screw each in finger tight",
        Act.TORQUE: "bring each to the torque",
        Act.TURN: "turn each further by the angle, paint mark or dial",
        Act.LOOSEN: "loosen each" + AT_ONCE * step.singly,
        Act.REPEAT: f"do {steps} again",
        Act.WAIT: f"wait {step.condition}".strip(),
        Act.RUN: f"run the engine {step.condition}".strip(),
        Act.FLOOR: "check that none turns below; one that does is not tight",
    }[step.act]


def _figure(step: ProcedureStep) -> str:
    if step.setting is None:
        return {Act.LOOSEN: "fully", Act.HAND: "by hand"}.get(step.act, "")
    shown = both_units(step.setting)
    if step.act in (Act.TURN, Act.LOOSEN) and "°" not in shown and "deg" not in shown:
        shown += f" ({math.degrees(step.setting.aim):.4g}°)"
    return {Act.TURN: f"+{shown}", Act.LOOSEN: f"−{shown}", Act.FLOOR: f"≥ {shown}"}.get(step.act, shown)


def _who(group: str) -> str:
    if group == ALL:
        return "all"
    return f"fasteners {group}" if group[:1].isdigit() else f"group {group}"
