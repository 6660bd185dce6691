"""From a procedure as the papers write it to what each bolt is turned by or to."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import pi

from firedeck.errors import JobError, OutOfRange
from firedeck.fasteners.procedure import Procedure
from firedeck.fasteners.procedure_lines import Act, FastenerGroup, ProcedureStep
from firedeck.joint.tightening import Action, BedIn, Loosen, TurnBy, TurnTo


@dataclass(frozen=True)
class Wrench:
    """What a turn of one bolt does.

    ``lever`` [mm]: torque over tension, threads and head together; ``pitch`` [mm]; ``wind_up``: share of an
    angle that only twists the shank; ``settling`` [mm] the bolt loses by bedding in.
    """

    lever: float
    pitch: float
    wind_up: float = 0.0
    settling: float = 0.0

    def __post_init__(self) -> None:
        if not (self.lever > 0.0 and self.pitch > 0.0):
            raise OutOfRange(
                "wrench", f"lever {self.lever:g} mm, pitch {self.pitch:g} mm", "both above nought"
            )
        if not (0.0 <= self.wind_up < 1.0 and self.settling >= 0.0):
            raise OutOfRange(
                "wrench", f"wind-up {self.wind_up:g}, settling {self.settling:g} mm", "0 or more, below 1"
            )

    def advance(self, angle: float) -> float:
        """How much shorter a turn draws the bolt.

        Parameters
        ----------
        angle : float
            Angle of the head or nut [rad].

        Returns
        -------
        float
            Pitch times turns, less what winds up [mm].

        Source
        ------
        derived

        Examples
        --------
        >>> round(Wrench(lever=1.8, pitch=1.5).advance(pi / 2), 4)
        0.375
        """
        return self.pitch * angle / (2.0 * pi) * (1.0 - self.wind_up)


def actions_of(
    procedure: Procedure,
    groups: Sequence[FastenerGroup],
    labels: Sequence[str],
    wrenches: Mapping[str, Wrench],
) -> tuple[Action, ...]:
    """What the wrench does, bolt after bolt, in the order of the papers; re-torques after use are left out.

    Parameters
    ----------
    procedure : Procedure
        The papers' text, read [core].
    groups : sequence of FastenerGroup
        Groups with the labels of their fasteners in the stated order [text].
    labels : sequence of str
        Labels of the bolts of the joint, as they are numbered there [text].
    wrenches : mapping of str to Wrench
        Wrench of each label; scatter enters by the lever [mm].

    Returns
    -------
    tuple of Action
        Turns to a tension, by an angle, loosening, bedding in [N], [mm].

    Raises
    ------
    JobError
        If a group names a fastener the joint has not, or a fastener has no wrench.

    Source
    ------
    derived
    """
    number = {label: place for place, label in enumerate(labels)}
    for label in (label for group in groups for label in group.labels):
        if label not in number or label not in wrenches:
            raise JobError("fasteners", repr(label), f"known: {', '.join(number)}, each with a wrench")
    settling = tuple(wrenches[label].settling if label in wrenches else 0.0 for label in labels)
    actions: list[Action] = []
    bedded = False
    for step in _worked(procedure):
        if step.act in (Act.WAIT, Act.RUN):
            if not bedded:
                actions.append(BedIn(settling))
            bedded = True
            continue
        for group in groups:
            if procedure.concerns(step.group, group):
                actions += [
                    action for label in group.labels for action in _one(step, number[label], wrenches[label])
                ]
    return tuple(actions)


def retorque_actions(
    procedure: Procedure,
    groups: Sequence[FastenerGroup],
    labels: Sequence[str],
    wrenches: Mapping[str, Wrench],
    asked: bool = False,
) -> tuple[Action, ...]:
    """What the wrench does after running in: bolt by bolt, one at a time, so that the joint stays closed.

    Parameters
    ----------
    procedure : Procedure
        The papers' text, read [core].
    groups : sequence of FastenerGroup
        Groups with the labels of their fasteners in the stated order [text].
    labels : sequence of str
        Labels of the bolts of the joint, as they are numbered there [text].
    wrenches : mapping of str to Wrench
        Wrench of each label [mm].
    asked : bool
        The gasket asks for it: where the procedure has no turn of its own for it, to the final torque again [1].

    Returns
    -------
    tuple of Action
        None where nobody asks for it, or where a group ends with an angle and has no turn of its own [N], [mm].

    Source
    ------
    common-practice
    """
    number = {label: place for place, label in enumerate(labels)}
    actions: list[Action] = []
    for group in groups:
        steps = procedure.retorques(group) if procedure.needs_retorque(group) else ()
        final = procedure.final_torque(group)
        again = asked and not steps and final is not None and procedure.total_angle(group) is None
        for label in group.labels:
            for step in steps:
                actions += _one(step, number[label], wrenches[label])
            if again and final is not None:
                actions.append(TurnTo(number[label], (final.low + final.high) / 2 / wrenches[label].lever))
    return tuple(actions)


def _worked(procedure: Procedure) -> Iterator[ProcedureStep]:
    """Steps of fitting in the order of the work, repeats written out."""
    for step in procedure.steps:
        if step.after:
            return
        if step.act is Act.REPEAT:
            yield from (old for old in procedure.steps if step.first <= old.number <= step.last)
        else:
            yield step


def _one(step: ProcedureStep, bolt: int, wrench: Wrench) -> tuple[Action, ...]:
    match step.act, step.setting:
        case ((Act.TORQUE | Act.FLOOR), setting) if setting is not None:
            return (TurnTo(bolt, setting.aim / wrench.lever),)
        case Act.TURN, setting if setting is not None:
            return (TurnBy(bolt, wrench.advance(setting.aim)),)
        case Act.LOOSEN, None:
            return (Loosen(bolt),)
        case Act.LOOSEN, setting if setting is not None:
            return (TurnBy(bolt, -wrench.advance(setting.aim)),)
    return ()
