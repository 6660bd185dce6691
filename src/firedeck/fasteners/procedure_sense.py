"""Faults of a procedure that reads well but cannot be done: turns from nothing, bolts left loose."""

import math
from collections.abc import Sequence

from firedeck.errors import JobError
from firedeck.fasteners.procedure import Procedure
from firedeck.fasteners.procedure_lines import ALL, Act, Lubricant, ProcedureStep, sum_of_turns

_TIGHTENS = (Act.HAND, Act.TORQUE, Act.TURN)
_ONE_MINUTE_OF_ARC = math.pi / 10800


def last_to_repeat(steps: Sequence[ProcedureStep], first: int, group: str) -> int:
    """Give the last step of a "repeat from step N": a loosening, run or wait before the repeat is left out.

    Parameters
    ----------
    steps : sequence of ProcedureStep
        Steps before the repeat [core].
    first : int
        Step to repeat from [1].
    group : str
        Group of the repeat [text].

    Returns
    -------
    int
        Number of the last step to repeat; 0 when there is none. The bolts never end loose [1].

    Source
    ------
    [common-practice] the loosening is the reason of the repeat, no part of it.
    """
    mine = [step for step in steps if step.number >= first and (group == ALL or step.group in (group, ALL))]
    while mine and mine[-1].act in (Act.LOOSEN, Act.WAIT, Act.RUN):
        mine.pop()
    return mine[-1].number if mine else 0


def faults_of(procedure: Procedure, path: str) -> list[JobError]:
    """Find what cannot be done as written.

    Parameters
    ----------
    procedure : Procedure
        A procedure without faults of writing [core].
    path : str
        Where its text stands [text].

    Returns
    -------
    list of JobError
        One fault per step at most, in the order of the steps [text].

    Source
    ------
    [generic-ours] what a wrench can do.
    """
    named = [group for group in procedure.groups if group != ALL] or [ALL]
    found: dict[int, JobError] = {}
    for group in named:
        for number, what, allowed in (*_of_work(procedure.rounds(group)), *_of_sums(procedure, group)):
            found.setdefault(number, JobError(f"{path} step {number}", what, allowed))
    return [*_of_lubricants(procedure, path), *(found[number] for number in sorted(found))]


_Found = tuple[int, str, str]


def _of_work(rounds: Sequence[ProcedureStep]) -> list[_Found]:
    """Follow the state of the bolts through the work."""
    found: list[_Found] = []
    tight, last_loosened = False, None
    for step in rounds:
        if step.act is Act.LOOSEN:
            if not tight:
                found.append((step.number, "a loosening", "something tightened before it"))
            tight = step.setting is not None and tight
            last_loosened = step
        elif step.act is Act.TURN and not tight:
            found.append((step.number, "a turn", "a torque (or finger tight) before it, to start from"))
        elif step.act is Act.FLOOR and not tight:
            found.append((step.number, "a torque to check", "something tightened before it"))
        if step.act in _TIGHTENS:
            tight, last_loosened = True, None
    if last_loosened is not None:
        allowed = "the torque or turn that follows: the bolts must not end loose"
        found.append((last_loosened.number, "a loosening at the end", allowed))
    return found


def _of_sums(procedure: Procedure, group: str) -> list[_Found]:
    """Hold the printed sums of turns against the turns."""
    found: list[_Found] = []
    rounds = procedure.rounds(group)
    for at, step in enumerate(rounds):
        so_far = sum_of_turns(rounds[: at + 1])
        whole = sum_of_turns(rounds)
        if step.total and so_far and not _near(so_far.aim, step.total.aim):
            found.append((step.number, f"total {step.total.text}", f"the turns add up to {so_far.text}"))
        if step.at_most and whole and whole.high > step.at_most.high + _ONE_MINUTE_OF_ARC:
            found.append((step.number, f"at most {step.at_most.text}", f"the turns add up to {whole.text}"))
    return found


def _near(one: float, other: float) -> bool:
    return abs(one - other) <= _ONE_MINUTE_OF_ARC


def _of_lubricants(procedure: Procedure, path: str) -> list[JobError]:
    """Find two lubricants for one place of one group."""
    said: dict[tuple[str, str], Lubricant] = {}
    faults = []
    for line in procedure.lines:
        if isinstance(line, Lubricant):
            other = said.setdefault((line.group, line.place), line)
            if other.kind is not line.kind:
                allowed = f"one lubricant: {other.text} or {line.text}"
                faults.append(JobError(f"{path} group {line.group}", repr(line.text), allowed))
    return faults
