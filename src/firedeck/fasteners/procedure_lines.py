"""What the lines of a tightening procedure are: steps, lubricants, and the figures in them."""

from dataclasses import dataclass
from enum import StrEnum

from firedeck.quantity import Kind, show

ALL = "all"


class Act(StrEnum):
    """What is done in a step."""

    HAND = "finger tight"
    TORQUE = "torque"
    TURN = "turn"
    LOOSEN = "loosen"
    REPEAT = "repeat"
    WAIT = "wait"
    RUN = "run"
    FLOOR = "check at least"


class Lubrication(StrEnum):
    """How a fastener goes in."""

    OILED = "oiled"
    DRY = "dry"
    SEALER = "sealer"
    MOLY = "moly"
    COATED = "maker-coated"


class Place(StrEnum):
    """Where on the fastener a lubricant is."""

    THREADS = "threads"
    HEADS = "heads"
    BOTH = "threads and heads"


@dataclass(frozen=True)
class Setting:
    """One figure of the papers as typed, ``low`` to ``high`` in core units; equal for a single figure."""

    low: float
    high: float
    text: str
    kind: Kind
    unit: str
    also: str = ""

    @property
    def aim(self) -> float:
        """Middle of the range [core]."""
        return (self.low + self.high) / 2

    def __str__(self) -> str:
        return f"{self.text} ({self.also})" if self.also else self.text


@dataclass(frozen=True)
class Lubricant:
    """What the papers say goes on the threads and under the heads of a group."""

    group: str
    kind: Lubrication
    place: Place
    text: str


@dataclass(frozen=True)
class ProcedureStep:
    """One step: what, on which group, and when.

    ``setting`` is the torque, the turn, the angle of loosening (None: fully) or the time to wait.
    ``condition`` is what a run or a wait is for, in the papers' words. ``after`` is the distance or time of
    a re-torque, any of them; ``heat`` is cold or hot. ``sequence`` counts the orders of the papers.
    ``singly``: a loosening that is followed by the next step on one fastener before the next one is touched.
    ``total`` and ``at_most`` are what the papers print as the sum of the turns.
    """

    number: int
    act: Act
    group: str = ALL
    setting: Setting | None = None
    condition: str = ""
    first: int = 0
    last: int = 0
    after: tuple[Setting, ...] = ()
    heat: str = ""
    sequence: int = 1
    total: Setting | None = None
    at_most: Setting | None = None
    singly: bool = False


@dataclass(frozen=True)
class FastenerGroup:
    """A group of fasteners of a joint: its name and the labels of its fasteners."""

    name: str
    labels: tuple[str, ...] = ()


def sum_of_turns(steps: tuple[ProcedureStep, ...]) -> Setting | None:
    """Add the turns since the last torque or loosening.

    Parameters
    ----------
    steps : tuple of ProcedureStep
        Rounds in the order of the work [core].

    Returns
    -------
    Setting or None
        The sum, its text in degrees; None when the last tightening is no turn [rad].

    Source
    ------
    [derived] plain sum.
    """
    turns: list[Setting] = []
    for step in steps:
        if step.act in (Act.TORQUE, Act.LOOSEN, Act.HAND):
            turns = []
        elif step.act is Act.TURN and step.setting is not None:
            turns.append(step.setting)
    if not turns:
        return None
    low, high = sum(turn.low for turn in turns), sum(turn.high for turn in turns)
    shown = [show(angle, Kind.ANGLE, "mm") for angle in dict.fromkeys((low, high))]
    text = shown[0] if len(shown) == 1 else f"{shown[0].removesuffix('°')}-{shown[1]}"
    return Setting(low, high, text, Kind.ANGLE, "deg")
