"""Complete sets of cut and gasket, each with all it changes, so that one can be chosen."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from firedeck.errors import OutOfRange
from firedeck.findings.amounts import Amounts, amounts
from firedeck.findings.doubted import doubted
from firedeck.findings.effects import Effects, effects_of
from firedeck.findings.finding import Findings
from firedeck.findings.volumes import Volumes, as_gasket
from firedeck.job import Job, Joint
from firedeck.trace import Missing

MOST = 3
"""Sets shown: more than three nobody compares."""


@dataclass(frozen=True)
class Set:
    """One complete set: its name, the gasket's name, the cuts [mm], and what it changes."""

    name: str
    gasket: str
    head_cut: float
    block_cut: float
    effects: Effects


@dataclass(frozen=True)
class Combination:
    """Two or three sets to choose from, as the job's gaskets and cuts allow."""

    id: ClassVar[str] = "combination"
    sets: tuple[Set, ...]
    left_out: tuple[str, ...]


def find(job: Job, joint: Joint | None, found: Findings) -> Combination | Missing:
    """Put every gasket of the job together with the planned cut, and with none."""
    assert joint is not None
    volumes = found.get(Volumes)
    measured = volumes if isinstance(volumes, Volumes) else None
    try:
        sets = tuple(_sets(job, joint, measured))
    except OutOfRange as fault:
        return doubted(joint, fault, "cut")
    if not sets:
        return _nothing(joint)
    return Combination(sets[:MOST], tuple(one.name for one in sets[MOST:]))


def _sets(job: Job, joint: Joint, volumes: Volumes | None) -> Iterator[Set]:
    candidates = [one for one in joint.gasket.candidates if one.thickness]
    planned = amounts(joint)
    for words, cuts in _cuts(joint, planned):
        for candidate in candidates:
            name = f"{candidate.name}, {words}" if planned.head or planned.block else candidate.name
            effects = effects_of(job, joint, volumes, cuts, as_gasket(candidate))
            yield Set(name, candidate.name, cuts.head, cuts.block, effects)


def _cuts(joint: Joint, planned: Amounts) -> Iterator[tuple[str, Amounts]]:
    """Go through the planned cut and, where there is room to compare, none at all."""
    yield "with the cut", planned
    if (planned.head or planned.block) and len(joint.gasket.candidates) < MOST:
        yield "no cut", amounts(joint, 0.0, 0.0)


def _nothing(joint: Joint) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.gasket.candidates", f"joint.{joint.name}.cut"),
        measure="compressed thickness and bore of each gasket to choose from, and the cut of head and block",
        tool="sheet with the gasket, vernier",
        how="Write down two or three gaskets that can be had, with their compressed thickness, not the free one.",
    )
