"""One gasket weighed: what puts it out, what speaks against it, and which readings lie within a reading of their limit."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from firedeck.answers.cut_checks import judge_effects
from firedeck.answers.gasket_reasons import reasons_against
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both
from firedeck.answers.ways_of_laying import no_groove, wrong_metal
from firedeck.findings.allowance import near
from firedeck.findings.combination import Combination
from firedeck.findings.finding import Findings
from firedeck.findings.finish import Finish
from firedeck.findings.fits import CandidateFit, Fits
from firedeck.findings.liners import Liners
from firedeck.findings.pistons import Pistons
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Candidate
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.tables.work import Line
from firedeck.trace import COMMON_PRACTICE, GENERIC, Check, Context, Missing, Outcome, Rank, Step

STAND = "piston_protrusion"
UNREAD = frozenset({"finish-unknown", "flat-unknown", "liners-unread"})
THICKNESS = {
    "squish": "squish",
    "ratio": "ratio",
    "ratio_rise": "ratio",
    "intake_valve_clearance": "valves",
    "exhaust_valve_clearance": "valves",
}
"""What the thickness of a gasket decides, and how it is called."""


@dataclass(frozen=True)
class Against:
    """What speaks against a gasket: what it is about, in words, and how much."""

    about: str
    text: str
    much: int = 0


@dataclass
class Readings:
    """What the readings of one gasket say: words of the table, what puts it out, what is near a limit."""

    words: set[str] = field(default_factory=set)
    out: list[Against] = field(default_factory=list)
    near: list[str] = field(default_factory=list)


@dataclass(frozen=True)
class Weighed:
    """One gasket: why it is out, or how much speaks against it, how much of that is only unknown, what is near a limit."""

    candidate: Candidate
    out: Against | None
    against: int
    unknown: int
    reasons: tuple[Against, ...]
    near: tuple[str, ...]

    @property
    def name(self) -> str:
        """Name of the gasket."""
        return self.candidate.name


@dataclass(frozen=True)
class Asked:
    """The joint a gasket is weighed for."""

    draft: Draft
    job: Job
    joint: Joint
    found: Findings


def weigh(asked: Asked, one: Candidate, words: frozenset[str], thickness: bool) -> Weighed:
    """Put one gasket out for a reason that cannot be weighed, or count what speaks against it."""
    fits = asked.found.get(Fits)
    fit = fits.of(one.name) if isinstance(fits, Fits) else None
    read = Readings()
    read.out.extend(_part(one))
    if fit is not None:
        _ring(fit, read)
        _seat(asked, fit, read)
        _wire(asked, one, fit, read)
    _class(asked, one, read)
    _liners(asked, one, read)
    _finish(asked, one, read)
    if thickness:
        read.out.extend(of_thickness(asked, one, read))
    return _counted(asked.draft, one, words | read.words, read)


def _counted(draft: Draft, one: Candidate, words: frozenset[str], read: Readings) -> Weighed:
    lines = reasons_against(one.construction, words)
    inputs = {f"reason_{place}": (float(line.figure), "1") for place, line in enumerate(lines, start=1)}
    inputs = inputs or {"nothing": (0.0, "1")}
    step = Step.work_out(f"Speaks against {one.name}", " + ".join(inputs), inputs, ("against", "1"), GENERIC)
    out = read.out[0] if read.out else None
    said = out.text if out else "; ".join(line.text for line in lines)
    outcome = Outcome.FAILS if out else Outcome.HOLDS
    check = Check(f"against {one.name}", "pieces", step.value, outcome, text=said)
    draft.add_check(check, (step,), COMMON_PRACTICE)
    sure = reasons_against(one.construction, words - UNREAD)
    unknown = round(step.value) - sum(int(line.figure) for line in sure)
    return Weighed(one, out, round(step.value), unknown, tuple(map(_reason, lines)), tuple(read.near))


def _reason(line: Line) -> Against:
    return Against(line.about, line.text, int(line.figure))


def _part(one: Candidate) -> Iterator[Against]:
    if one.used:
        yield Against("used", "has been tightened once and stays flat: a new one is wanted")
    if one.construction in (None, "unknown"):
        yield Against("construction", "its construction is not known")


def _ring(fit: CandidateFit, read: Readings) -> None:
    """A ring in the gas is out, over the bore or over the edge of the chamber; one within a reading of it counts."""
    for ring, what in ((fit.ring, "bore"), (fit.over_chamber, "chamber")):
        if ring is None:
            continue
        if near("ring_overhang", ring.overhang, 0.0, None):
            read.near.append(f"ring of {fit.name} over the {what}")
            read.words.add("ring-barely")
        if meets(ring.overhang, low=0.0) is not Meets.HOLDS:
            read.out.append(
                Against("overhang", f"its ring stands {both(ring.overhang, 'ring_overhang')} into the {what}")
            )


def _seat(asked: Asked, fit: CandidateFit, read: Readings) -> None:
    """Hold the side to the head, a groove and a recess against the gasket."""
    metal = wrong_metal(fit.towards_head, asked.joint.head.material)
    groove = no_groove(fit)
    if metal is not None:
        read.out.append(Against("side", metal["reason"]))
    if groove is not None:
        read.out.append(Against("groove", groove["reason"]))
    if fit.reach is not None:
        if near("ring_reach", fit.reach.value, 0.0, None):
            read.near.append(f"ring of {fit.name} in the recess")
        if meets(fit.reach.value, low=0.0) is not Meets.HOLDS:
            read.out.append(Against("recess", "its ring does not reach into the recess"))


def _wire(asked: Asked, one: Candidate, fit: CandidateFit, read: Readings) -> None:
    """A wire has to go into its groove, and to stand proud by what its sheet, or practice, asks."""
    wire = fit.wire
    if wire is None:
        return
    if wire.room is not None:
        if near("groove_room", wire.room.value, 0.0, None):
            read.near.append(f"wire of {one.name} across its groove")
        if meets(wire.room.value, low=0.0) is Meets.FAILS:
            read.out.append(Against("groove", "its wire is wider than the groove"))
    context = Context(part="gasket", construction=one.construction, part_fitted=one.name, gasket=one.name)
    limit = picked(asked.joint, "wire_stand_out", context)
    if limit.winner is None:
        return
    name = f"wire of {one.name} proud of the {wire.face}"
    judged = judge(name, "wire_stand_out", wire.stand_out.value, limit)
    asked.draft.add(judged, (wire.left, wire.stand_out))
    if _fails(judged.check, read, name):
        stands = both(wire.stand_out.value, "wire_stand_out")
        text = (
            f"its wire stands {stands} proud" if wire.stand_out.value > 0.0 else f"its wire is sunk, {stands}"
        )
        read.out.append(Against("stand-out", text))


def _fails(check: Check, read: Readings, name: str) -> bool:
    """Tell whether a limit is failed: one of common practice is not sharper than a reading."""
    limit = check.limit
    if limit is None or check.value is None:
        return False
    close = near(check.quantity, check.value, limit.low, limit.high)
    if close:
        read.near.append(name)
    return check.outcome is Outcome.FAILS and not (close and limit.rank is Rank.COMMON_PRACTICE)


def _class(asked: Asked, one: Candidate, read: Readings) -> None:
    """Put out a gasket made for pistons that stand otherwise; below every class the thinnest stays in."""
    pistons = asked.found.get(Pistons)
    if one.piston_from is None or isinstance(pistons, Missing):
        return
    stands = [pistons.by_rule[rule].value for rule in ([pistons.rule] if pistons.rule else pistons.by_rule)]
    low = None if pistons.classes[0].name == one.name else one.piston_from.value
    high = one.piston_to.value if one.piston_to else None
    if low is None and high is None:
        return
    if any(near(STAND, stand, low, high) for stand in stands):
        read.near.append(f"pistons for {one.name}")
    if all(meets(stand, low, high) is Meets.FAILS for stand in stands):
        read.out.append(
            Against("class", f"is made for pistons that stand from {both(one.piston_from.value, STAND)}")
        )


def _liners(asked: Asked, one: Candidate, read: Readings) -> None:
    """Hold the liners against what this construction needs, where the papers say so."""
    context = Context(part="block", construction=one.construction, part_fitted=one.name, gasket=one.name)
    limit = picked(asked.joint, "liner_protrusion", context)
    winner = limit.winner
    if winner is None or (winner.applies.construction is None and winner.applies.gasket is None):
        return
    liners = asked.found.get(Liners)
    if isinstance(liners, Missing):
        asked.draft.need(liners)
        return
    failed = []
    for which, step in (("lowest", liners.stand.lowest), ("highest", liners.stand.highest)):
        name = f"{which} liner for {one.name}"
        judged = judge(name, "liner_protrusion", step.value, limit)
        asked.draft.add(judged, (step,))
        failed.append(_fails(judged.check, read, name))
    if any(failed):
        read.out.append(Against("liners", "the liners do not stand as it needs"))


def _finish(asked: Asked, one: Candidate, read: Readings) -> None:
    """Hold both faces against the finish this gasket wants; where sources of one rank differ it counts for nothing."""
    finish = asked.found.get(Finish)
    if isinstance(finish, Missing):
        return
    for face in finish.faces:
        part, mate = asked.joint.head, asked.joint.block
        part, mate = (part, mate) if face.face == "head" else (mate, part)  # type: ignore[assignment]
        context = Context(
            part=face.face,
            material=part.material,
            mating_material=mate.material,
            construction=one.construction,
            part_fitted=one.name,
            gasket=one.name,
            direction="any",
        )
        limit = picked(asked.joint, "surface_finish", context)
        if face.Ra is None or face.reading is None or limit.winner is None:
            continue
        name = f"{face.face} finish for {one.name}"
        judged = judge(name, "surface_finish", face.Ra, limit)
        asked.draft.add(judged, (face.reading,))
        if near("surface_finish", face.Ra, limit.winner.low, limit.winner.high):
            read.near.append(name)
        read.words |= {"finish-out"} if judged.outcome is Outcome.FAILS and not judged.differ else set()


def of_thickness(asked: Asked, one: Candidate, read: Readings) -> Iterator[Against]:
    """Go through gap, ratio and valves as this thickness leaves them, with the planned cut."""
    sets = asked.found.get(Combination)
    mine = () if isinstance(sets, Missing) else (each for each in sets.sets if each.gasket == one.name)
    chosen = next(iter(mine), None)
    if chosen is None:
        return
    own = Draft(asked.draft.question, asked.joint)
    judge_effects(own, asked.job, asked.joint, chosen.effects)
    for check in own.checks:
        if check.quantity in THICKNESS and _fails(check, read, f"{check.name} with {one.name}"):
            figure = both(check.value or 0.0, check.quantity)
            yield Against(THICKNESS[check.quantity], f"leaves {check.name} {figure}")
