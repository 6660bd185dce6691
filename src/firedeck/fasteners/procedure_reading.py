"""Reading the text of a procedure: all its steps, or all its faults.

>>> parse("30 N·m; +90°").total_angle("all").text
'90°'
"""

from dataclasses import dataclass, field, replace

from firedeck.errors import BadQuantity, JobError, JobErrors, shorten
from firedeck.fasteners.procedure import Procedure
from firedeck.fasteners.procedure_grammar import ALLOWED, Front, Says, read_part
from firedeck.fasteners.procedure_lines import ALL, Act, Lubricant, ProcedureStep, Setting
from firedeck.fasteners.procedure_parts import header, parts, pieces, unlabelled
from firedeck.fasteners.procedure_sense import faults_of, last_to_repeat

MOST_CHARACTERS = 20_000
MOST_STEPS = 200


@dataclass
class _Reader:
    """What has been read so far; used once, inside :func:`parse`."""

    path: str
    lines: list[ProcedureStep | Lubricant] = field(default_factory=list)
    members: dict[str, tuple[str, ...]] = field(default_factory=dict)
    faults: list[JobError] = field(default_factory=list)
    group: str = ALL
    number: int = 0
    sequence: int = 1
    waiting: Front | None = None
    labels: dict[int, int] = field(default_factory=dict)

    def steps(self) -> list[ProcedureStep]:
        return [line for line in self.lines if isinstance(line, ProcedureStep)]

    def fault(self, found: str, allowed: str) -> None:
        """Note a fault at the step being read, and count it so that later numbers stay right."""
        self.faults.append(JobError(f"{self.path} step {self.number + 1}", repr(shorten(found)), allowed))


def parse(text: str, path: str = "procedure") -> Procedure:
    """Read a tightening procedure.

    Parameters
    ----------
    text : str
        Step by step as the papers give it: one step a line, or parted by semicolons, "then", or a comma
        with a blank behind it; a line ``long:`` or ``1-8, 11:`` opens a group [text].
    path : str
        Where the text stands, for messages [text].

    Returns
    -------
    Procedure
        Lines in the order of the text, figures in core units with the text as typed [core].

    Raises
    ------
    JobErrors
        All faults of the text, one line each: the step, what was found, what is allowed.

    Source
    ------
    [generic-ours] the grammar in docs/method/procedures.md.

    Examples
    --------
    >>> [step.act.value for step in parse("60 N·m, loosen fully, repeat from step 1, +90°").steps]
    ['torque', 'loosen', 'repeat', 'turn']
    >>> parse("30")
    Traceback (most recent call last):
    ...
    firedeck.errors.JobErrors: procedure step 1: found '30'; say the unit: 30 N·m or 30 lb-ft?
    """
    _check_size(text, path)
    reader = _Reader(path)
    for piece in pieces(text):
        _read_piece(reader, piece)
        if reader.number >= MOST_STEPS:
            reader.fault(piece, f"a procedure has at most {MOST_STEPS} steps")
            break
    _leave_waiting(reader)
    _check_groups(reader)
    if not reader.faults and not reader.steps():
        reader.fault(text, f"no step is written; {ALLOWED}")
    procedure = Procedure(tuple(reader.lines), tuple(reader.members.items()))
    if faults := reader.faults or faults_of(procedure, path):
        raise JobErrors(faults)
    return procedure


def _check_size(text: str, path: str) -> None:
    if not isinstance(text, str):
        raise JobErrors([JobError(path, repr(text), "write the procedure as a text in quotes")])
    if len(text) > MOST_CHARACTERS:
        allowed = f"a procedure of at most {MOST_CHARACTERS} characters"
        raise JobErrors([JobError(path, f"{len(text)} characters", allowed)])


def _read_piece(reader: _Reader, piece: str) -> None:
    """Read one line: perhaps a group, then its parts."""
    bare, label = unlabelled(piece)
    try:
        opened = header(bare) or header(piece)
    except BadQuantity as fault:
        reader.fault(fault.found, fault.allowed)
        reader.number += 1
        return
    if opened is not None:
        _leave_waiting(reader)
        head, rest = opened
        reader.group, reader.sequence = head.name, 1
        if head.name != ALL:
            reader.members.setdefault(head.name, head.members)
        piece = f"step {label}: {rest}" if label and rest else rest
    for text, number in parts(piece):
        if reader.number < MOST_STEPS:
            _read_one(reader, text, number)
    if reader.waiting is not None and reader.waiting.again:
        _again(reader)


def _read_one(reader: _Reader, text: str, label: int) -> None:
    """Read one part and put down what it says."""
    try:
        _check_label(reader, label)
        reading = read_part(text)
        if reader.waiting is not None and reader.waiting.again and reading.front.after:
            _again(reader)
        front = _joined(reader.waiting, reading.front)
        reader.waiting = None
        if reading.says:
            reader.sequence = front.sequence or reader.sequence
            for says in reading.says:
                _put(reader, says, front)
        else:
            reader.waiting = front
    except BadQuantity as fault:
        reader.fault(text, fault.allowed)
        reader.number, reader.waiting = reader.number + 1, None


def _check_label(reader: _Reader, label: int) -> None:
    """The papers' own numbers rise by one; they may begin again at 1."""
    if not label:
        return
    if label == 1:
        reader.labels = {}
    elif reader.labels and label != max(reader.labels) + 1:
        raise BadQuantity(str(label), f"step {max(reader.labels) + 1} of the papers comes before {label}")
    reader.labels[label] = reader.number + 1


def _joined(waiting: Front | None, front: Front) -> Front:
    """Words that stood alone, such as ``after 500 miles``, belong to the part that follows."""
    if waiting is None:
        return front
    return Front(
        front.sequence or waiting.sequence,
        front.after or waiting.after,
        front.heat or waiting.heat,
        front.again or waiting.again,
        front.singly or waiting.singly,
    )


def _put(reader: _Reader, says: Says, front: Front) -> None:
    """Put down a lubricant, a sum of turns, or a step."""
    if says.lubricant:
        kind, place = says.lubricant
        reader.lines.append(Lubricant(reader.group, kind, place, says.text))
    elif says.total or says.at_most:
        _put_sum(reader, says)
    else:
        _put_step(reader, says, front)


def _put_step(reader: _Reader, says: Says, front: Front) -> None:
    first, last = _repeated(reader, says) if says.act is Act.REPEAT else (0, 0)
    assert says.act is not None
    reader.number += 1
    reader.lines.append(
        ProcedureStep(
            number=reader.number,
            act=says.act,
            group=reader.group,
            setting=says.setting,
            condition=says.condition,
            first=first,
            last=last,
            after=front.after,
            heat=front.heat,
            sequence=reader.sequence,
            singly=front.singly and says.act is Act.LOOSEN,
        )
    )


def _put_sum(reader: _Reader, says: Says) -> None:
    last = reader.lines[-1] if reader.lines else None
    if not isinstance(last, ProcedureStep) or last.act is not Act.TURN:
        raise BadQuantity(says.text, "a sum of turns stands behind the last turn it counts")
    reader.lines[-1] = replace(last, total=says.total or last.total, at_most=says.at_most or last.at_most)


def _again(reader: _Reader) -> None:
    """Put down a "re-torque" that says no figure."""
    front, reader.waiting = reader.waiting, None
    torque = _torque_again(reader)
    if front is None or torque is None:
        reader.fault("re-torque", "say the torque or the turn of this re-torque")
        reader.number += 1
    else:
        reader.sequence = front.sequence or reader.sequence
        _put_step(reader, Says(Act.TORQUE, torque), front)


def _torque_again(reader: _Reader) -> Setting | None:
    """The torque a bare "re-torque" means: the last one of the group, if nothing was turned past it."""
    for step in reversed(reader.steps()):
        if step.group in (reader.group, ALL) and step.act in (Act.TURN, Act.TORQUE):
            if step.act is Act.TORQUE and step.setting is not None:
                return step.setting
            break
    return None


def _repeated(reader: _Reader, says: Says) -> tuple[int, int]:
    """Steps to repeat, by the papers' own numbers where they have any."""
    first, last = (reader.labels.get(number, number) for number in (says.first, says.last))
    steps = reader.steps()
    last = last or last_to_repeat(steps, first, reader.group)
    mine = [step for step in steps if first <= step.number <= last and step.group in (reader.group, ALL)]
    if not 0 < first <= last <= reader.number or not any(step.number == first for step in mine):
        raise BadQuantity("", f"a step of this group before this one, 1 to {reader.number} down the text")
    if any(step.act is Act.REPEAT for step in mine):
        raise BadQuantity("", "the steps to repeat hold a repeat themselves: write them out")
    if not any(step.act in (Act.TORQUE, Act.TURN) for step in mine):
        raise BadQuantity("", "nothing is tightened in the steps to repeat")
    return first, last


def _check_groups(reader: _Reader) -> None:
    """A group that is opened says something, now or later."""
    said = {line.group for line in reader.lines}
    for name in reader.members:
        if name not in said and not reader.faults:
            allowed = "at least one step, or oiled, dry or sealer, for it"
            reader.faults.append(JobError(f"{reader.path} group {name}", "nothing", allowed))


def _leave_waiting(reader: _Reader) -> None:
    """Words that were to belong to a next part, when none came."""
    if reader.waiting is not None:
        reader.fault("nothing more", "say what to do after or in it, such as after 1000 km cold +30°")
        reader.waiting = None
