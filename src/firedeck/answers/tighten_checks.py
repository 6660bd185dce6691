"""What tighten-how checks beside the torque itself: the wrench, the class, the turn, what is lost later, mixed groups."""

from collections.abc import Sequence
from dataclasses import replace

from firedeck.answers import tighten_wanted as wanted
from firedeck.answers.answer import Working
from firedeck.answers.counting import count
from firedeck.answers.given import picked
from firedeck.answers.judging import Judged, judge
from firedeck.answers.making import Draft, both
from firedeck.findings.procedure import GroupTightening
from firedeck.findings.stretch import Stretch
from firedeck.findings.tension import TensionFound
from firedeck.findings.wrench import WrenchFound
from firedeck.job import Joint
from firedeck.tables import Picked
from firedeck.trace import GENERIC, Band, Context, Note, Outcome, Step


def judge_wrench(draft: Draft, joint: Joint, wrench: WrenchFound) -> None:
    """Every torque lies on the scale; the smallest and the largest say so for all."""
    if wrench.scale is not None and wrench.torques:
        ends = (wrench.torques[0], wrench.torques[-1])[: len(wrench.torques)]
        for torque, word in zip(ends, ("smallest", "largest"), strict=False):
            limit = Picked(wrench.scale, (), "")
            judged = judge(f"wrench at the {word} torque", "torque", torque.step.value, limit)
            draft.add(judged, (torque.step,))
    elif wrench.scale is None:
        draft.assumptions.append(
            "no scale of a torque wrench is written down: it must cover every torque of the list"
        )
    _judge_lowest(draft, joint, wrench)
    if wrench.length_wanted:
        count(draft, "setting with the adapter", 0, Outcome.CANNOT_TELL, "length of the wrench not written")
        draft.need(wanted.wrench_length())
    if wrench.division is not None:
        limit = picked(joint, "division_share", Context(part="fastener"))
        if limit.winner is not None:
            judged = judge("one mark of the scale", "division_share", wrench.division.value, limit)
            draft.add(_doubt(judged), (wrench.division,))
    if wrench.checked is not None or wrench.kind is not None:
        outcome = Outcome.HOLDS if wrench.checked in wanted.CHECKED else Outcome.CANNOT_TELL
        words = {None: "not said", "never": "never", "long-ago": "long ago"}.get(wrench.checked, "yes")
        count(draft, "wrench checked", int(outcome is Outcome.HOLDS), outcome, words)


def _judge_lowest(draft: Draft, joint: Joint, wrench: WrenchFound) -> None:
    """Low down on its scale a wrench is least true; a fifth of it, common practice, is no edge to be close to."""
    limit = picked(joint, "scale_share", Context(part="fastener"))
    if wrench.lowest is None or limit.winner is None:
        return
    judged = judge("smallest torque on the scale", "scale_share", wrench.lowest.value, limit)
    low = judged.outcome is Outcome.FAILS
    outcome = Outcome.CANNOT_TELL if low else Outcome.HOLDS
    draft.add(replace(judged, check=replace(judged.check, outcome=outcome)), (wrench.lowest,))
    if low:
        least = wrench.torques[0].text
        draft.cautions.append(
            f"{least} lies in the lowest fifth of the scale, where it is least true: a smaller wrench"
        )


def judge_unknown_class(draft: Draft, joint: Joint, group: GroupTightening, tension: TensionFound) -> bool:
    """Hold a bolt of unknown class to the softest of its kind; tell whether new ones must be read first."""
    limit = picked(joint, "yield_share", Context(part="fastener", fastener=group.name))
    if tension.softest is None or limit.winner is None:
        return False
    name = f"{group.name}: share of yield if of {tension.softest_class}"
    judged = judge(name, "yield_share", tension.softest.value, limit)
    if judged.outcome is Outcome.HOLDS:
        draft.add(judged, tension.steps)
        return False
    draft.add(_doubt(judged), tension.steps)
    draft.assumptions.append(
        f"{group.name}: class not known, the torque of the papers holds only for the fasteners it was written for"
    )
    draft.need(wanted.head_marks(joint, group.name))
    return True


def judge_after(draft: Draft, joint: Joint, group: GroupTightening) -> None:
    """What the turn takes of the bolt, what bedding in takes of the tension, what heat adds."""
    stretch = group.stretch
    if stretch is None:
        return
    if stretch.turned is not None and stretch.turned.ductility is not None:
        used = stretch.turned.ductility
        limit = picked(joint, "ductility_share", Context(part="fastener", fastener=group.name))
        if limit.winner is not None:
            name = f"{group.name}: ductility the turn uses"
            judged = judge(name, "ductility_share", used.used, limit)
            draft.add(_doubt(judged), stretch.turned.steps)
            left = f"{100 * used.left:.0f} %"
            text = f"{group.name}: the turn {_reach(stretch)}; {left} of its ductility is left."
            draft.notes.append(Note(text, "derived"))
    _judge_loss(draft, joint, group)


def _reach(stretch: Stretch) -> str:
    """Say whether the turn gets to yield, and what was taken as springs."""
    assert stretch.turned is not None
    reached = "reaches" if stretch.turned.yielded else "stays below"
    springs = "bolt, head and gasket" if stretch.with_gasket else "bolt and head"
    return f"{reached} yield by {springs} as springs"


def _judge_loss(draft: Draft, joint: Joint, group: GroupTightening) -> None:
    stretch = group.stretch
    limit = picked(joint, "loss_share", Context(part="fastener", fastener=group.name))
    if stretch is None or stretch.loss is None or limit.winner is None:
        return
    name = f"{group.name}: lost by bedding in"
    judged = judge(name, "loss_share", stretch.loss.value, limit)
    draft.add(_doubt(judged), stretch.loss_steps)
    if judged.outcome is not Outcome.HOLDS:
        draft.cautions.append(
            f"{group.name}: short bolts lose much when faces bed in, go round once more after ten minutes"
        )
    if stretch.hot is not None:
        _judge_hot(draft, joint, group, stretch.hot)
    if stretch.warm is not None and stretch.early is not None:
        draft.steps.extend(Working(name, step) for step in stretch.heat_steps)
        warm, early = _change(stretch.warm), _change(stretch.early)
        whose = "gasket in the sum" if stretch.with_gasket else "metal alone, so at most"
        text = (
            f"{group.name}: heat {warm} each once all is warm, {early} each while the bolt is cold ({whose})."
        )
        draft.notes.append(Note(text, "derived"))
        draft.notes.extend(note for note in stretch.notes if note not in draft.notes)


def _judge_hot(draft: Draft, joint: Joint, group: GroupTightening, hot: Step) -> None:
    """The pull while the casting outruns the bolt is an upper bound: beyond yield it warns, and never stops."""
    limit = picked(joint, "yield_share", Context(part="fastener", fastener=group.name))
    if limit.winner is None:
        return
    judged = judge(f"{group.name}: share of yield while it warms up", "yield_share", hot.value, limit)
    draft.add(_doubt(judged), (hot,))
    if judged.outcome is Outcome.FAILS:
        draft.cautions.append(
            f"{group.name}: while the head warms and the bolt is cold it may pass yield: no full load on a cold engine"
        )


def _change(change: Band) -> str:
    """Say whether heat adds to the tension or takes off it, and how much."""
    if change.low < 0.0 < change.high:
        return f"takes {both(-change.low, 'tension')} off to {both(change.high, 'tension')} more on"
    ends = sorted((abs(change.low), abs(change.high)))
    less, more = (both(end, "tension") for end in ends)
    much = less if less == more else f"{less} to {more}"
    return f"adds {much} to" if change.high > 0.0 else f"takes {much} off"


def say_scatter(draft: Draft, groups: Sequence[GroupTightening], wrench: WrenchFound) -> None:
    """Part what is not known of the tension: from bolt to bolt, alike for all, and the wrench by itself."""
    by_way = {group.scatter.method: group.scatter for group in groups if group.scatter}
    for one in by_way.values():
        text = f"{one.says[:1].upper()}{one.says[1:]}: ±{100 * one.individual:.0f} % from bolt to bolt, "
        text += f"±{100 * one.common:.0f} % alike for all of them (one lot, one oil, one wrench)."
        draft.notes.append(Note(text, GENERIC))
    if wrench.error is not None and by_way:
        text = f"Of this the wrench alone ±{100 * wrench.error.share:.2g} %, {wrench.error.says}."
        draft.notes.append(Note(text, wrench.error.source))


def judge_mixed(draft: Draft, groups: Sequence[GroupTightening]) -> None:
    """Warn where one torque is written for threads of unlike size."""
    by_torque: dict[str, list[GroupTightening]] = {}
    for group in groups:
        if group.final and group.torque_only and group.diameter is not None:
            by_torque.setdefault(group.final, []).append(group)
    for torque, alike in by_torque.items():
        if len({group.diameter for group in alike}) < 2:
            continue
        names = ", ".join(group.name for group in alike)
        count(
            draft, "one torque for unlike threads", len(alike), Outcome.CANNOT_TELL, f"{torque} for {names}"
        )
        draft.cautions.append(
            f"{torque} for {names}: threads of unlike size want unlike torques, read the papers again"
        )


def _doubt(judged: Judged) -> Judged:
    """Turn a failure into a doubt: rough sums warn, they do not stop."""
    if judged.outcome is not Outcome.FAILS:
        return judged
    return replace(judged, check=replace(judged.check, outcome=Outcome.CANNOT_TELL))
