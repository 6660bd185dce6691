"""A procedure in words: written back as its own text, and explained line by line."""

from firedeck.fasteners.procedure import Procedure
from firedeck.fasteners.procedure_lines import ALL, Act, Lubricant, ProcedureStep, Setting
from firedeck.fasteners.procedure_sense import last_to_repeat
from firedeck.quantity import Kind, in_unit

_SEQUENCES = {1: "first sequence", 2: "second sequence", 3: "third sequence", 4: "fourth sequence"}
SMALL_IN_LBF_FT = 10.0
AT_ONCE = ", the next step on it before the next one is touched"


def write(procedure: Procedure) -> str:
    """Write a procedure as text: one step a line, figures as typed.

    Parameters
    ----------
    procedure : Procedure
        Any procedure [core].

    Returns
    -------
    str
        A text that reads back as the same procedure [text].

    Source
    ------
    [generic-ours] the grammar of a procedure.

    Examples
    --------
    >>> from firedeck.fasteners.procedure_reading import parse
    >>> print(write(parse("oiled; 30 N·m +90°; long bolts: back off 180°, 40 N·m")))
    oiled
    30 N·m
    +90°
    long:
    loosen 180°
    40 N·m
    """
    written: list[str] = []
    group, sequence = ALL, 1
    for line in procedure.lines:
        if line.group != group:
            written.append(f"{line.group}:")
            group, sequence = line.group, 1
        if isinstance(line, Lubricant):
            written.append(line.text)
        else:
            written.append(_line(procedure, line, sequence))
            sequence = line.sequence
    return "\n".join(written)


def _line(procedure: Procedure, step: ProcedureStep, sequence: int) -> str:
    front = [_SEQUENCES.get(step.sequence, f"sequence {step.sequence}")] * (step.sequence != sequence)
    if step.after:
        front.append("after " + " or ".join(one.text for one in step.after))
    front += [step.heat] * bool(step.heat)
    front += ["one at a time"] * step.singly
    bounds = f" = {step.total}" if step.total else ""
    bounds += f", at most {step.at_most}" if step.at_most else ""
    return " ".join([*front, _core(procedure, step) + bounds])


def _core(procedure: Procedure, step: ProcedureStep) -> str:
    figure = str(step.setting or "")
    forms = {
        Act.HAND: "finger tight",
        Act.TORQUE: figure,
        Act.TURN: f"+{figure}",
        Act.LOOSEN: f"loosen {figure or 'fully'}",
        Act.WAIT: f"wait {figure or step.condition}",
        Act.RUN: f"run {step.condition}",
        Act.FLOOR: f"check at least {figure}",
    }
    return _repeat(procedure, step) if step.act is Act.REPEAT else forms[step.act]


def _repeat(procedure: Procedure, step: ProcedureStep) -> str:
    before = procedure.steps[: step.number - 1]
    if step.last == last_to_repeat(before, step.first, step.group):
        return f"repeat from step {step.first}"
    if step.first == step.last:
        return f"repeat step {step.first}"
    return f"repeat steps {step.first} to {step.last}"


def explain(procedure: Procedure) -> tuple[str, ...]:
    """Say a procedure in plain words, a line for each line of it.

    Parameters
    ----------
    procedure : Procedure
        Any procedure [core].

    Returns
    -------
    tuple of str
        Steps with their number, torques in both units [text].

    Source
    ------
    [generic-ours] the grammar of a procedure.

    Examples
    --------
    >>> from firedeck.fasteners.procedure_reading import parse
    >>> for line in explain(parse("30 N·m, after 1000 km cold +30°")):
    ...     print(line)
    1. All, in order: bring each to 30 N·m (22.1 lbf·ft).
    2. After 1000 km, engine cold: all, in order: turn each a further 30°.
    """
    return tuple(
        f"{_capital(_who(line.group))}: {line.place} {line.kind}."
        if isinstance(line, Lubricant)
        else f"{line.number}. {_sentence(line)}."
        for line in procedure.lines
    )


def _who(group: str) -> str:
    return f"fasteners {group}" if group[:1].isdigit() else group


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _sentence(step: ProcedureStep) -> str:
    when = ["after " + " or ".join(one.text for one in step.after)] * bool(step.after)
    when += [f"engine {step.heat}"] * bool(step.heat)
    order = "in order" if step.sequence == 1 else f"in the {_SEQUENCES.get(step.sequence, step.sequence)}"
    alone = step.act in (Act.WAIT, Act.RUN, Act.REPEAT)
    back = "one at a time, in order" if step.singly else "in reverse order"
    who = _who(step.group) if alone else f"{_who(step.group)}, {back if step.act is Act.LOOSEN else order}"
    bounds = f" ({step.total.text} of turn up to here)" if step.total else ""
    bounds += f" (never more than {step.at_most.text} of turn in all)" if step.at_most else ""
    text = ": ".join([*([", ".join(when)] if when else []), who, _does(step) + bounds])
    return _capital(text)


def _does(step: ProcedureStep) -> str:
    figure = both_units(step.setting) if step.setting else ""
    steps = f"step {step.first}" if step.first == step.last else f"steps {step.first} to {step.last}"
    forms = {
        Act.HAND: "screw each in finger tight",
        Act.TORQUE: f"bring each to {figure}",
        Act.TURN: f"turn each a further {figure}",
        Act.LOOSEN: (f"loosen each by {figure}" if figure else "loosen each fully") + AT_ONCE * step.singly,
        Act.REPEAT: f"do {steps} again, in the same order",
        Act.WAIT: f"wait {figure or step.condition}",
        Act.RUN: f"run the engine {step.condition}",
        Act.FLOOR: f"check that none turns below {figure}; one that does is not tight, see the papers",
    }
    return forms[step.act]


def both_units(setting: Setting) -> str:
    """Print a figure as typed, a torque also in the other family of units.

    Parameters
    ----------
    setting : Setting
        A figure of the papers [core].

    Returns
    -------
    str
        Such as ``40 N·m (30 lbf·ft)``; the papers' own second figure is used where they print one [text].

    Source
    ------
    [nist-sp811] for the factors.

    Examples
    --------
    >>> from firedeck.fasteners.procedure_settings import read_setting
    >>> both_units(read_setting("200 in-lb", Kind.TORQUE)), both_units(read_setting("8 N·m", Kind.TORQUE))
    ('200 in-lb (22.6 N·m)', '8 N·m (5.9 lbf·ft, 71 lbf·in)')
    """
    if setting.kind is not Kind.TORQUE or setting.also:
        return str(setting)
    if setting.unit.startswith("lbf"):
        return f"{setting.text} ({_in('N·m', setting)})"
    small = in_unit(setting.high, Kind.TORQUE, "lbf·ft") < SMALL_IN_LBF_FT
    inch = _in("lbf·ft", setting) + (f", {_in('lbf·in', setting)}" if small else "")
    metric = setting.unit in ("N·m", "N·mm", "N·cm", "kN·m")
    return f"{setting.text} ({inch})" if metric else f"{setting.text} ({_in('N·m', setting)}, {inch})"


def _in(unit: str, setting: Setting) -> str:
    ends = dict.fromkeys(
        _figure(in_unit(end, Kind.TORQUE, unit), unit) for end in (setting.low, setting.high)
    )
    return f"{'-'.join(ends)} {unit}"


def _figure(value: float, unit: str) -> str:
    decimals = 1 if value < 25 and unit != "lbf·in" else 0
    return f"{value:.{decimals}f}".removesuffix(".0")
