"""damage-near-seal: what each pit, print, track and crack means for the ring, and whether the cut takes it out."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.answers.answer import Answer
from firedeck.answers.counting import clip
from firedeck.answers.cracks import crack_rule, maker_allows, pressure_test
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both
from firedeck.findings.damage import Damage, Mark
from firedeck.findings.finding import Findings
from firedeck.findings.ring_band import OffRing
from firedeck.job import Job, Joint
from firedeck.job.paths import join_path
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.tables import Row, one
from firedeck.trace import COMMON_PRACTICE, DERIVED, GENERIC, Check, Context, Missing, Note, Outcome, Step

QUESTION = "damage-near-seal"
GRAVEST_FIRST = ("scrap", "test-first", "repair", "cut-removes-it", "leave")


@dataclass(frozen=True)
class Verdict:
    """What one damage asks for; ``close`` when it lies exactly at a limit, no action while it is open."""

    action: str | None
    headline: str
    close: bool = False


def answer(_job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge every damage; the gravest decides."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    damage = found.get(Damage)
    if isinstance(damage, Missing):
        return draft.open("Nobody has looked the faces over for pits and cracks yet", damage)
    verdicts = [_judge(draft, joint, damage, mark) for mark in damage.marks]
    if not verdicts:
        _nothing_found(draft, damage)
    draft.need(*damage.missing)
    if damage.missing:
        draft.assumptions.append(
            f"the {' and '.join(_unseen(damage))} face is not spoken of: look it over as well"
        )
    return _ending(draft, damage, verdicts)


def _unseen(damage: Damage) -> Sequence[str]:
    return [face for face in ("head", "block") if face not in damage.looked_over]


def _nothing_found(draft: Draft, damage: Damage) -> None:
    check = Check("places found damaged", "count", damage.found.value, Outcome.HOLDS, text="none found")
    draft.add_check(check, (damage.found,), COMMON_PRACTICE)


def _ending(draft: Draft, damage: Damage, verdicts: list[Verdict]) -> Answer:
    draft.anyway = (
        "Gas finds the low place under the ring first and burns it into a track; water finds it cold. Watch for bubbles "
        "in the coolant and a plug that looks steam-cleaned. Undoing it costs the gasket and the whole job again."
    )
    graves = [one for one in verdicts if one.action in ("scrap", "test-first")]
    if not graves and any(one.action is None for one in verdicts):
        return draft.open(next(one.headline for one in verdicts if one.action is None))
    if not verdicts:
        if damage.missing:
            return draft.open(
                f"Nothing found on the {damage.looked_over[0]}, the other face has not been looked over"
            )
        return draft.decided("leave", "Both faces looked over: nothing found")
    worst = min(
        (one for one in verdicts if one.action), key=lambda one: GRAVEST_FIRST.index(one.action or "")
    )
    end = draft.close if worst.close else draft.decided
    return end(worst.action or "", worst.headline)


def _judge(draft: Draft, joint: Joint, damage: Damage, mark: Mark) -> Verdict:
    words = one("damage_words", mark.kind, lambda row: row["kind"] == mark.kind)
    if words["caution"] and words["caution"] not in draft.cautions:
        draft.cautions.append(words["caution"])
    if mark.kind == "crack":
        return _judge_crack(draft, joint, damage, mark)
    if mark.kind == "imprint" and mark.face == "head" and joint.head.material == "aluminium":
        _ask_hardness(draft, joint)
    under = _under_the_ring(draft, joint, mark)
    if under is Outcome.HOLDS:
        return Verdict("leave", _headline(mark, words, _clear(mark)))
    if under is None:
        draft.need(_place_it(joint, mark))
        return Verdict(None, _headline(mark, words, "how far off the ring is not known"))
    return _remedy(draft, joint, mark, words, close=under is Outcome.AT_LIMIT)


def _under_the_ring(draft: Draft, joint: Joint, mark: Mark) -> Outcome | None:
    """Hold the distance to the ring against its limit; by words where nothing was measured."""
    name = f"{mark.name}: clear of the ring"
    if mark.to_ring or mark.off:
        return _measured(draft, joint, mark, name)
    if mark.said is None or mark.count is None:
        return None
    outcome = Outcome.FAILS if mark.said else Outcome.HOLDS
    text = mark.lies.replace("-", " ")
    draft.add_check(
        Check(name, "count", mark.count.value, outcome, text=text), (mark.count,), COMMON_PRACTICE
    )
    if not mark.said:
        draft.need(_place_it(joint, mark))
    return outcome


def _measured(draft: Draft, joint: Joint, mark: Mark, name: str) -> Outcome:
    """Judge by the share of ring width left where the papers limit that, else by the distance to the ring."""
    part = joint.head if mark.face == "head" else joint.block
    context = Context(part=mark.face, material=part.material, gasket=joint.gasket.fitted or None)
    nearest = picked(joint, "distance_to_ring", context)
    if mark.to_ring:
        return draft.add(
            judge(name, "distance_to_ring", mark.to_ring.value, nearest), (mark.to_ring,)
        ).outcome
    assert mark.off is not None
    if mark.off.band.width_source == GENERIC:
        width = both(mark.off.band.width, "ring_width")
        draft.assumptions.append(f"ring taken as {width} wide: measure it on the gasket or its print")
    workings = (*mark.off.steps, mark.off.distance, mark.off.share_left)
    _say_what_is_left(draft, mark.name, mark.off)
    share = picked(joint, "ring_share_left", context)
    if share.winner:
        return draft.add(judge(name, "ring_share_left", mark.off.share_left.value, share), workings).outcome
    return draft.add(judge(name, "distance_to_ring", mark.off.distance.value, nearest), workings).outcome


def _say_what_is_left(draft: Draft, name: str, off: OffRing) -> None:
    """Say how much of the ring's width still lies on sound metal, where the damage reaches in."""
    if meets(off.distance.value, low=0.0) is Meets.HOLDS:
        return
    left = both(max(off.share_left.value, 0.0), "ring_share_left")
    draft.notes.append(
        Note(f"{name}: {left} of the ring's width at No {off.cylinder} lies on sound metal there.", DERIVED)
    )


def _clear(mark: Mark) -> str:
    distance = mark.to_ring or (mark.off.distance if mark.off else None)
    return (
        f"{both(distance.value, 'distance_to_ring')} clear of the ring"
        if distance
        else mark.lies.replace("-", " ")
    )


def _remedy(draft: Draft, joint: Joint, mark: Mark, words: Row, close: bool) -> Verdict:
    """Under the ring: out with it by the cut if that goes deep enough, or by repair."""
    draft.notes.append(
        Note(f"{words['words'].capitalize()} under a ring: {words['remedy']}.", words["source"])
    )
    if mark.after_cut:
        return Verdict("repair", _headline(mark, words, "still under the ring after the cut"), close)
    cut = joint.cut.head if mark.face == "head" else joint.cut.block
    cutting = joint.cut.done or bool(cut and cut.value)
    if mark.left is None:
        draft.need(_depth(joint, mark))
        if not cutting or mark.depth is not None:
            why = "cut not named" if mark.depth is not None else "depth not measured"
            return Verdict(None, _headline(mark, words, f"under the ring, {why}"))
        draft.notes.append(
            Note("Another make of gasket does not fill a low place under its ring.", COMMON_PRACTICE)
        )
        return Verdict(
            "cut-removes-it", _headline(mark, words, "under the ring: surface until it is gone"), close
        )
    outcome = {"holds": Outcome.HOLDS, "at-limit": Outcome.AT_LIMIT}.get(
        meets(mark.left.value, high=0.0), Outcome.FAILS
    )
    name = f"{mark.name}: depth left under the cut"
    draft.add_check(Check(name, "damage_depth", mark.left.value, outcome), (mark.left,), DERIVED)
    if outcome is Outcome.FAILS:
        draft.notes.append(
            Note("A deeper cut does it as well, where the least height allows.", COMMON_PRACTICE)
        )
        left = both(mark.left.value, "damage_depth")
        return Verdict(
            "repair", _headline(mark, words, f"under the ring, the cut leaves {left} of it"), close
        )
    return Verdict("cut-removes-it", _headline(mark, words, "under the ring, the cut takes it out"), close)


def _headline(mark: Mark, words: Row, what: str) -> str:
    of = f" at No {', '.join(mark.cylinders[:4])}," if mark.cylinders else ""
    return clip(f"{mark.face.capitalize()}: {words['words']}{of} {what}")


def _judge_crack(draft: Draft, joint: Joint, damage: Damage, crack: Mark) -> Verdict:
    rule = crack_rule(joint, damage, crack)
    name = f"{crack.name}: crack, where, to water, and as the maker allows"
    cracks = Step.work_out(
        "Cracks nobody has cleared yet" if rule is None or rule["action"] != "leave" else "Cracks cleared",
        "cracks",
        {"cracks": (1.0, "1")},
        ("cracks_counted", "1"),
        DERIVED,
    )
    outcome = {None: Outcome.CANNOT_TELL, "test-first": Outcome.CANNOT_TELL, "leave": Outcome.HOLDS}.get(
        rule["action"] if rule else None, Outcome.FAILS
    )
    source = crack.maker_source if rule and rule["maker"] and crack.maker_source else COMMON_PRACTICE
    draft.add_check(
        Check(name, "count", cracks.value, outcome, text=crack.lies.replace("-", " ")), (cracks,), source
    )
    if rule is None:
        draft.need(maker_allows(joint, crack))
        return Verdict(
            None, f"{crack.face.capitalize()}: crack is tight under test, what the maker allows is not known"
        )
    if rule["action"] != "leave":
        draft.need(pressure_test(joint, crack.face), _dye(joint, crack))
    draft.notes.append(
        Note("Light alone never clears a crack, and never condemns it by itself.", COMMON_PRACTICE)
    )
    of = f" {', '.join(crack.cylinders[:4])}" if crack.cylinders else ""
    return Verdict(rule["action"], clip(f"{crack.face.capitalize()}{of}: {rule['says']}"))


def _dye(joint: Joint, crack: Mark) -> Missing:
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "damage", crack.name)),),
        measure="both ends of the crack, and the thickness of metal left there",
        tool="dye or magnetic powder, ultrasonic thickness gauge",
        how="Clean to bright metal, dye in, wipe, developer on: mark both ends and see what they run into.",
    )


def _ask_hardness(draft: Draft, joint: Joint) -> None:
    if joint.head.hardness is None:
        draft.need(
            Missing(
                paths=(f"joint.{joint.name}.head.hardness",),
                measure="hardness of the head where the print is and away from it",
                tool="hardness tester, at the shop",
                how="On clean flats, three readings each; hold it against the least hardness of the maker.",
            )
        )


def _called(mark: Mark) -> str:
    """Say kind and name, once where the name says the kind."""
    return mark.name if mark.kind in mark.name else f"{mark.kind} {mark.name}"


def _place_it(joint: Joint, mark: Mark) -> Missing:
    at = join_path(("joint", joint.name, "readings", "damage", mark.name))
    return Missing(
        paths=(f"{at}.to_ring", f"{at}.size"),
        measure=f"{_called(mark)}: from its edge to the print of the ring, and how wide the print is",
        tool="vernier, or the gasket laid on and marked round",
        how="Lay the gasket on the dowels, scribe round the inside of the ring, lift it and measure from the line; "
        "the ring's width is its print.",
    )


def _depth(joint: Joint, mark: Mark) -> Missing:
    if mark.depth is not None:
        deep = both(mark.depth, "damage_depth")
        return Missing(
            paths=(f"joint.{joint.name}.cut.{mark.face}",),
            measure=f"the cut the {mark.face} is to get: {deep} or more takes {_called(mark)} out",
            tool="the order, and the least height in the papers",
            how="Write down what is to come off this face; nought where nothing is.",
        )
    return Missing(
        paths=(
            join_path(("joint", joint.name, "readings", "damage", mark.name, "depth")),
            f"joint.{joint.name}.cut.{mark.face}",
        ),
        measure=f"depth of {_called(mark)} at its deepest, and the cut the face is to get",
        tool="needle in a depth gauge",
        how="Nought on sound face beside it, needle to the bottom; dig out loose corrosion first.",
    )
