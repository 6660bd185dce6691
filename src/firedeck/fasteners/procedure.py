"""A tightening procedure as the papers give it, and what can be read off it.

    procedure            the whole; final torque, total turn, re-torque, lubrication of a group
    procedure_lines      its lines: steps, lubricants, figures
    procedure_settings   one figure: a torque, a turn, a range, a tolerance, the same in the other unit
    procedure_parts      cutting a text into groups and parts
    procedure_grammar    what one part says
    procedure_reading    parse: the whole text, with all its faults
    procedure_sense      faults of a procedure that reads well but cannot be done
    procedure_words      write it back; explain it
    procedure_gaps       what is still missing for the fasteners of a joint

Every line but oiled, dry and the like is a numbered step. A step is done on the whole of its group, in the
stated order, before the next one begins; a step of the group ``all`` is done on every fastener.
"""

from dataclasses import dataclass

from firedeck.fasteners.procedure_lines import (
    ALL,
    Act,
    FastenerGroup,
    Lubricant,
    Place,
    ProcedureStep,
    Setting,
    sum_of_turns,
)
from firedeck.fasteners.procedure_parts import normal_name
from firedeck.trace import COMMON_PRACTICE, Note


@dataclass(frozen=True)
class Procedure:
    """All lines of a procedure in the order of the text; groups by the labels they name."""

    lines: tuple[ProcedureStep | Lubricant, ...]
    members: tuple[tuple[str, tuple[str, ...]], ...]

    @property
    def steps(self) -> tuple[ProcedureStep, ...]:
        """The numbered steps."""
        return tuple(line for line in self.lines if isinstance(line, ProcedureStep))

    @property
    def groups(self) -> tuple[str, ...]:
        """Names of the groups the text speaks of, in its order."""
        return tuple(dict.fromkeys(line.group for line in self.lines))

    def concerns(self, line_group: str, group: str | FastenerGroup) -> bool:
        """Tell whether a line written for ``line_group`` is done on ``group``.

        Parameters
        ----------
        line_group : str
            Group of the line [text].
        group : str or FastenerGroup
            Group asked about; with labels, all of them must be among those of the line [text].

        Returns
        -------
        bool
            True for ``all``, for the same name, and for labels the line covers [1].

        Source
        ------
        [generic-ours] the grammar of a procedure.
        """
        if line_group == ALL:
            return True
        members = {member.casefold() for member in dict(self.members).get(line_group, ())}
        name = normal_name(group if isinstance(group, str) else group.name)
        labels = () if isinstance(group, str) else group.labels
        if name.casefold() in members or name.casefold() == line_group.casefold():
            return True
        return bool(labels) and {label.casefold() for label in labels} <= members

    def steps_for(self, group: str | FastenerGroup) -> tuple[ProcedureStep, ...]:
        """Give the steps that concern a group, as written.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        tuple of ProcedureStep
            Its own steps and those for all, in the order of the text [core].

        Source
        ------
        [generic-ours] the grammar of a procedure.
        """
        return tuple(step for step in self.steps if self.concerns(step.group, group))

    def rounds(self, group: str | FastenerGroup) -> tuple[ProcedureStep, ...]:
        """Give the steps of a group as they are worked, repeats written out.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        tuple of ProcedureStep
            In the order of the work; a repeat stands as the steps it repeats [core].

        Source
        ------
        [generic-ours] the grammar of a procedure.
        """
        steps, worked = self.steps_for(group), []
        for step in steps:
            if step.act is Act.REPEAT:
                worked += [old for old in steps if step.first <= old.number <= step.last]
            else:
                worked.append(step)
        return tuple(worked)

    def fitted(self, group: str | FastenerGroup) -> tuple[ProcedureStep, ...]:
        """Give the rounds of fitting: all before the first step that waits for a distance or a time of use.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        tuple of ProcedureStep
            In the order of the work; running the engine at fitting belongs to it [core].

        Source
        ------
        [generic-ours] the grammar of a procedure.
        """
        worked = self.rounds(group)
        later = next((at for at, step in enumerate(worked) if step.after), len(worked))
        return worked[:later]

    def final_torque(self, group: str | FastenerGroup) -> Setting | None:
        """Give the last torque set at fitting.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        Setting or None
            The torque; with a turn after it, the torque the turn starts from; None if there is none [N·mm].

        Source
        ------
        [generic-ours] the grammar of a procedure.
        """
        torques = [step.setting for step in self.fitted(group) if step.act is Act.TORQUE]
        return torques[-1] if torques else None

    def total_angle(self, group: str | FastenerGroup) -> Setting | None:
        """Give the turn past the last torque at fitting.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        Setting or None
            Sum of the turns since the last torque or loosening; None when there is no turn [rad].

        Source
        ------
        [generic-ours] the grammar of a procedure.
        """
        return sum_of_turns(self.fitted(group))

    def is_torque_plus_angle(self, group: str | FastenerGroup) -> bool:
        """Tell whether a group ends with a turn past a torque.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        bool
            True when the last tightening at fitting is a turn [1].

        Source
        ------
        [common-practice] torque and angle.
        """
        return self.total_angle(group) is not None

    def into_yield(self, group: str | FastenerGroup) -> Note | None:
        """Say that a torque-and-angle group is taken as stretched into yield.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        Note or None
            The assumption, to be dropped when the papers say otherwise; None for torque alone [text].

        Source
        ------
        [common-practice] torque and angle.
        """
        turn = self.total_angle(group)
        if turn is None:
            return None
        text = f"torque and {turn.text}: taken as tightened into yield unless the papers say otherwise"
        return Note(text, COMMON_PRACTICE)

    def floor(self, group: str | FastenerGroup) -> Setting | None:
        """Give the least torque that must stand at the end of fitting.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        Setting or None
            The floor; None when the papers give none [N·mm].

        Source
        ------
        [generic-ours] the grammar of a procedure.
        """
        floors = [step.setting for step in self.fitted(group) if step.act is Act.FLOOR]
        return floors[-1] if floors else None

    def retorques(self, group: str | FastenerGroup) -> tuple[ProcedureStep, ...]:
        """Give the steps done after running: after a run, a distance or a time.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        tuple of ProcedureStep
            From the first loosening, torque or turn after running to the last line [core].

        Source
        ------
        [generic-ours] the grammar of a procedure.
        """
        worked = self.rounds(group)
        ran = next((at for at, step in enumerate(worked) if step.after or step.act is Act.RUN), len(worked))
        return tuple(step for step in worked[ran:] if step.act not in (Act.RUN, Act.WAIT))

    def needs_retorque(self, group: str | FastenerGroup) -> bool:
        """Tell whether a group is tightened again after running.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        bool
            True when a torque or a turn follows running [1].

        Source
        ------
        [generic-ours] the grammar of a procedure.
        """
        return any(step.act in (Act.TORQUE, Act.TURN) for step in self.retorques(group))

    def lubrication(self, group: str | FastenerGroup) -> tuple[Lubricant, ...]:
        """Give what goes on the threads and under the heads of a group.

        Parameters
        ----------
        group : str or FastenerGroup
            Name of the group, or the group with its labels [text].

        Returns
        -------
        tuple of Lubricant
            What is said for the group itself, and what is said for all where the group says nothing;
            empty when the papers are silent [text].

        Source
        ------
        [generic-ours] the grammar of a procedure.
        """
        said = [line for line in self.lines if isinstance(line, Lubricant)]
        own = [line for line in said if line.group != ALL and self.concerns(line.group, group)]
        general = [line for line in said if line.group == ALL]
        return (*own, *(line for line in general if not any(_meet(line, one) for one in own)))


def _meet(one: Lubricant, other: Lubricant) -> bool:
    return Place.BOTH in (one.place, other.place) or one.place is other.place
