"""Complete sets of cut and gasket, each with all it changes, so that one can be chosen."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import ClassVar

from firedeck.errors import OutOfRange
from firedeck.findings.amounts import Amounts, amounts
from firedeck.findings.cut import Cut
from firedeck.findings.doubted import doubted
from firedeck.findings.effects import Effects, effects_of
from firedeck.findings.finding import Findings
from firedeck.findings.liners import Liners
from firedeck.findings.liners_in_set import LinersInSet, after_cut, liners_in_set
from firedeck.findings.pistons import PistonClass, Pistons, classes_of
from firedeck.findings.volumes import Volumes, as_gasket
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome, meets
from firedeck.trace import Missing, Step


@dataclass(frozen=True)
class Set:
    """One complete set: its name, the gasket's name, the cuts [mm], faces cut until clean, and what it changes.

    ``pistons``: the deciding stand by each rule of books with this block cut; ``liners``: how they stand in it.
    """

    name: str
    gasket: str
    head_cut: float
    block_cut: float
    cleans: frozenset[str]
    effects: Effects
    construction: str | None = None
    pistons: Mapping[str, Step] = field(default_factory=dict)
    liners: LinersInSet = field(default_factory=lambda: LinersInSet(()))

    def cut_of(self, face: str) -> float:
        """Return what the set takes off a face [mm]."""
        return self.head_cut if face == "head" else self.block_cut


@dataclass(frozen=True)
class Combination:
    """Every set of the job's gaskets with the planned cut, none, and the least that cleans a face.

    ``classes`` are the piston stands the gaskets are made for.
    """

    id: ClassVar[str] = "combination"
    sets: tuple[Set, ...]
    classes: tuple[PistonClass, ...] = ()


def find(job: Job, joint: Joint | None, found: Findings) -> Combination | Missing:
    """Put every gasket of the job together with the planned cut, with none, and with what cleans."""
    assert joint is not None
    volumes, cut = found.get(Volumes), found.get(Cut)
    measured = volumes if isinstance(volumes, Volumes) else None
    try:
        sets = tuple(
            _with_stands(one, joint, found)
            for one in _sets(job, joint, measured, cut if isinstance(cut, Cut) else None)
        )
    except OutOfRange as fault:
        return doubted(joint, fault, "cut")
    return Combination(sets, classes_of(joint)) if sets else _nothing(joint)


def _with_stands(one: Set, joint: Joint, found: Findings) -> Set:
    """Add how pistons and liners stand once the block is cut: both stand out further by the cut."""
    pistons, liners = found.get(Pistons), found.get(Liners)
    by_rule = pistons.by_rule if isinstance(pistons, Pistons) else {}
    stand = liners_in_set(joint, liners, one.block_cut) if isinstance(liners, Liners) else LinersInSet(())
    return replace(
        one,
        pistons={
            rule: after_cut(f"Deciding piston stand, {rule}", step, one.block_cut)
            for rule, step in by_rule.items()
        },
        liners=stand,
    )


def _sets(job: Job, joint: Joint, volumes: Volumes | None, cut: Cut | None) -> Iterator[Set]:
    candidates = [one for one in joint.gasket.candidates if one.thickness]
    ways = list(_cuts(joint, cut))
    for words, cuts, cleans in ways:
        for candidate in candidates:
            name = f"{candidate.name}, {words}" if len(ways) > 1 else candidate.name
            effects = effects_of(job, joint, volumes, cuts, as_gasket(candidate))
            yield Set(name, candidate.name, cuts.head, cuts.block, cleans, effects, candidate.construction)


def _cuts(joint: Joint, cut: Cut | None) -> Iterator[tuple[str, Amounts, frozenset[str]]]:
    """Go through the planned cut, none at all, and each face cut until it is clean."""
    planned = amounts(joint)
    if planned.head or planned.block:
        yield "with the cut", planned, frozenset()
        yield "no cut", amounts(joint, 0.0, 0.0), frozenset()
    else:
        yield "no cut", planned, frozenset()
    head, block = _cleaned("head", planned.head, cut), _cleaned("block", planned.block, cut)
    if joint.cut.done:
        return
    if head is not None:
        yield "head cut until clean", amounts(joint, head, planned.block), frozenset({"head"})
    if block is not None:
        yield "block cut until clean", amounts(joint, planned.head, block), frozenset({"block"})
    if head is not None and block is not None:
        yield "both cut until clean", amounts(joint, head, block), frozenset({"head", "block"})


def _cleaned(face: str, planned: float, cut: Cut | None) -> float | None:
    """Return the cut that cleans a face, where the planned one does not."""
    stock = cut.face(face) if cut else None
    if stock is None or meets(planned, low=stock.least.value) is not Outcome.FAILS:
        return None
    return stock.with_pass.value


def _nothing(joint: Joint) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.gasket.candidates", f"joint.{joint.name}.cut"),
        measure="compressed thickness and bore of each gasket to choose from, and the cut of head and block",
        tool="sheet with the gasket, vernier",
        how="Write down two or three gaskets that can be had, with their compressed thickness, not the free one.",
    )
