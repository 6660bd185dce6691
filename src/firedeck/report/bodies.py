"""The kinds of body a card is made of: each takes its entry of cards.toml and gives blocks."""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from firedeck.drawing import Picture, blank_map, face_map, plan_view, ring_picture, turn_picture
from firedeck.drawing.plan import described, has_order, has_wet_holes
from firedeck.quantity import System
from firedeck.report.answers import (
    NEXT_COLUMNS,
    answer_blocks,
    foot_of,
    glimpse,
    needed,
    own_source,
    shared_source,
    ticks_of,
)
from firedeck.report.blocks import (
    Beside,
    Block,
    Boxes,
    Drawn,
    Glance,
    Heading,
    Row,
    Sum,
    Sums,
    Table,
    Tick,
    Ticks,
    Turn,
    Turns,
    Verdict,
    Words,
)
from firedeck.report.figures import Plain, Units, judged_words
from firedeck.report.tables import corner_rows, table_rows

Body = Mapping[str, Any]
BLANK = "________"
EVERY_DEGREE = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:°|deg)")
BACKWARD = re.compile(r"\b(loosen|slacken|back(ed)? off|undo)", re.IGNORECASE)


@dataclass(frozen=True)
class Scope:
    """What one run of pages is about: these joints, these answers, this much room across."""

    plain: Plain
    joints: tuple[str, ...]
    answers: tuple[Plain, ...]
    units: Units
    width: float
    shrink: float = 1.0

    @property
    def system(self) -> System:
        """Family of units that heights are printed in."""
        if self.units == "as-typed":
            return "inch" if self.plain["job"].get("units") == "inch" else "mm"
        return self.units

    def layout(self, joint: str) -> Plain | None:
        """Return the hole pattern of a joint, if it is known."""
        found = (self.plain.get("findings") or {}).get(joint, {}).get("layout")
        return found if found and "missing" not in found else None

    def faces(self, joint: str) -> Sequence[Plain]:
        """Return the faces of a joint that were read."""
        found = (self.plain.get("findings") or {}).get(joint, {}).get("faces") or {}
        faces: Sequence[Plain] = found.get("faces") or ()
        return faces

    def corners(self, joint: str) -> Sequence[Plain]:
        """Return the heights of the head at its corners, in the order written."""
        found = (self.plain.get("findings") or {}).get(joint, {}).get("cut") or {}
        corners: Sequence[Plain] = found.get("corners") or ()
        return corners

    def dips(self, joint: str) -> Sequence[Plain]:
        """Return the rings that were followed along the faces of a joint."""
        found: Sequence[Plain] = ((self.plain.get("findings") or {}).get(joint, {}).get("rings") or {}).get(
            "dips"
        ) or ()
        return found


def body_blocks(body: Body, scope: Scope) -> Iterator[Block]:
    """Give the blocks of one body."""
    yield from BODIES[body["kind"]](body, scope)


def _answers(body: Body, scope: Scope) -> Iterator[Block]:
    blocks = _answers_as_blocks(body, scope)
    if body.get("beside"):
        columns = _in_two(list(blocks))
        yield from (Beside(columns),) if columns else ()
        return
    for block in blocks:
        yield replace(block, large=True) if body.get("large") and isinstance(block, Ticks) else block


def _in_two(blocks: Sequence[Block]) -> tuple[tuple[Block, ...], ...]:
    """Part whole answers into two columns of about one length."""
    starts = [place for place, block in enumerate(blocks) if isinstance(block, Verdict)]
    if len(starts) < 2:
        return (tuple(blocks),) if blocks else ()
    lines = [_lines(block) for block in blocks]
    split = min(starts[1:], key=lambda place: abs(sum(lines[:place]) - sum(lines[place:])))
    return tuple(blocks[:split]), tuple(blocks[split:])


def _lines(block: Block) -> int:
    """Count the lines a block takes, about."""
    if isinstance(block, Ticks):
        return sum(1 + bool(tick.caution) for tick in block.lines)
    return 3 if isinstance(block, Verdict) else 2


def _answers_as_blocks(body: Body, scope: Scope) -> Iterator[Block]:
    record = bool(body.get("by_stage"))
    stage, seen = "", set[Sum]()
    for answer in _picked(body, scope):
        if answer["state"] == "not-applicable" and not record:
            continue
        if record and answer["stage_words"] != stage:
            stage = answer["stage_words"]
            yield Heading(stage)
        if len(scope.plain.get("joints") or ()) > 1 and len(scope.joints) > 1:
            yield Words(f"Joint: {answer['joint'] or 'the whole engine'}", "small")
        for block in answer_blocks(answer, body["parts"], scope.units):
            yield _once(block, seen) if record and isinstance(block, Sums) else block


def _picked(body: Body, scope: Scope) -> Sequence[Plain]:
    """Choose among the answers by the question: the first or last of the stages, or all but the last."""
    questions = list(dict.fromkeys(answer["question"] for answer in scope.answers))
    pick = body.get("pick")
    if pick is None or not questions:
        return scope.answers
    chosen = {"first": questions[:1], "last": questions[-1:], "others": questions[:-1]}[pick]
    return [answer for answer in scope.answers if answer["question"] in chosen]


def _once(block: Sums, seen: set[Sum]) -> Sums:
    """Write every sum out once; where it comes again only what comes out."""
    sums = []
    for one in block.sums:
        sums.append(Sum(one.says, "", "", one.result, "written out further up") if one in seen else one)
        seen.add(one)
    return Sums(block.title, tuple(sums))


def _glance(body: Body, scope: Scope) -> Iterator[Block]:
    many = len(scope.plain.get("joints") or ()) > 1
    yield Glance(body["title"], tuple(glimpse(answer, with_joint=many) for answer in scope.answers))


def _plan(body: Body, scope: Scope) -> Iterator[Block]:
    for joint in scope.joints:
        layout = scope.layout(joint)
        numbers = body["numbers"]
        picture = plan_view(layout, numbers, scope.width, body["height"] * scope.shrink)
        if picture is None or layout is None:
            yield Words(f"No hole pattern in the document (joint.{joint}.layout): no plan view.", "small")
            continue
        yield Drawn(picture, _plan_caption(joint, layout, numbers, scope))


def _plan_caption(joint: str, layout: Plain, numbers: str, scope: Scope) -> str:
    says = [f"Joint {joint}."] if len(scope.joints) > 1 else []
    if numbers != "order":
        says.append("Numbers are the names of the bolts.")
    elif has_order(layout):
        names = described(layout).rpartition("order: ")[2].rstrip(".")
        same = all(str(one["order"]) == str(one["label"]) for one in layout["fasteners"])
        source = layout.get("order_from") or ""
        says.append(f"Numbers are the turns{f', {source}' if source else ''}.")
        says += [] if same else [f"By name: {names}."]
    else:
        says.append("No order is written in the papers: numbers are names, not turns.")
    if has_wet_holes(layout):
        says.append("Double ring: the hole leads to water or oil.")
    return " ".join(says)


def _maps(body: Body, scope: Scope) -> Iterator[Block]:
    for joint in scope.joints:
        for place, face in enumerate(scope.faces(joint)):
            name = f"map-{scope.joints.index(joint)}-{place}"
            picture = face_map(
                scope.layout(joint),
                face,
                scope.system,
                width=scope.width,
                height=body["height"],
                name=name,
                dips=scope.dips(joint),
            )
            if picture:
                part = face.get("face", "face")
                judged = judged_words(scope.answers, joint, "face_flatness", part, scope.units)
                yield Drawn(picture, f"{part.capitalize()} face as read, joint {joint}. {judged}".rstrip())


def _rings(_body: Body, scope: Scope) -> Iterator[Block]:
    for joint in scope.joints:
        study = ((scope.plain.get("findings") or {}).get(joint, {}).get("joint") or {}).get("study")
        picture = ring_picture(scope.layout(joint), study, width=scope.width)
        if picture and study:
            named = f" Joint {joint}." if len(scope.joints) > 1 else ""
            bricks = f" {study['mesh_says'].capitalize()}." if study["mesh_says"] else ""
            yield Drawn(
                picture,
                f"How hard each ring is pressed, its own cylinder firing.{named}{bricks} {study['says']}",
            )


def _blank(body: Body, scope: Scope) -> Iterator[Block]:
    for joint in scope.joints:
        picture = blank_map(scope.layout(joint), body["over"], scope.width, body["height"])
        if picture:
            yield Heading(body["title"])
            yield Drawn(picture, LAID, Table("", LAYING_COLUMNS, LAYINGS, deep=True))
        else:
            yield Table(body["title"], LAYING_COLUMNS, LAYINGS, deep=True)


LAID = "Arrows are layings of the straightedge, read in the way of the arrow."
LAYING_COLUMNS = ("laying", "leaf that goes", "leaf that stops", "where")
LAYINGS = tuple(
    (laying, "", "", "")
    for laying in (
        "along, one edge",
        "along, middle",
        "along, other edge",
        "corner to corner",
        "other corners",
        "across",
    )
)


def _ticks(body: Body, scope: Scope) -> Iterator[Block]:
    if body.get("unless") == "work" and any(answer.get("work") for answer in scope.answers):
        return
    yield Ticks(body["title"], tuple(Tick(line) for line in body["lines"]), foot_of(body["source"]))


def _table(body: Body, scope: Scope) -> Iterator[Block]:
    columns = tuple(body["columns"])
    for joint in scope.joints[:1]:
        rows = (
            corner_rows(scope.corners(joint), body.get("fills") or ("",) * len(columns), scope.units)
            if body["rows"] == "corners"
            else table_rows(body["rows"], scope.layout(joint), scope.answers, len(columns))
        )
        deep, fold = body.get("deep", False), body.get("fold", False)
        yield Table(body.get("title", ""), columns, rows, deep, fold)


def _boxes(body: Body, _scope: Scope) -> Iterator[Block]:
    yield Boxes(body.get("title", ""), tuple(body["labels"]))


def _initials(body: Body, _scope: Scope) -> Iterator[Block]:
    yield Boxes("", tuple(body["labels"]), tall=True)


def _lock(body: Body, scope: Scope) -> Iterator[Block]:
    """Say that the work is locked and why, with room for what unlocks it; nothing once it is unlocked."""
    room = ", ".join(f"{label} {BLANK}" for label in body["labels"])
    for why in dict.fromkeys(answer.get("locked") for answer in scope.answers if answer.get("locked")):
        yield Words(f"Locked: {why}. {body['says']} {room}", "banner")


def _turns(_body: Body, scope: Scope) -> Iterator[Block]:
    for answer in scope.answers:
        work = answer.get("work") or []
        if not work:
            yield from answer_blocks(answer, ("headline", "cautions", "next"), scope.units)
            continue
        if answer["state"] != "decided" or answer.get("action") == "stop":
            yield Words(f"Not by this sheet yet. {answer['headline']}", "banner")
        shared = shared_source([line.get("source", "") for line in work])
        turns = tuple(turn_of(place, line, shared) for place, line in enumerate(work, start=1))
        yield Turns(turns, foot_of(shared))
        for caution in answer.get("cautions") or []:
            yield Words(caution, "caution")


def turn_of(place: int, line: Plain, shared: str) -> Turn:
    """Return one step of the tightening, its turn drawn where it has one."""
    text, shown = line["text"], line.get("figure", "")
    source = own_source(line, shared)
    return Turn(place, text, shown, line.get("caution", ""), source, _turn_drawn(text, shown))


def _turn_drawn(text: str, shown: str) -> Picture | None:
    found = EVERY_DEGREE.search(shown)
    if not found:
        return None
    degrees = float(found.group(1).replace(",", "."))
    back = bool(BACKWARD.search(f"{text} {shown}")) or shown.lstrip().startswith(("-", "−"))
    return turn_picture(degrees, loosen=back) if 0 < degrees <= 720 else None


def _dates(body: Body, scope: Scope) -> Iterator[Block]:
    ticks = [tick for answer in scope.answers for tick in ticks_of(answer)[0]]
    figures = any(tick.figure for tick in ticks)
    columns: Row = ("what", *("how much",) * figures, "done on", "found", "initials")
    rows: tuple[Row, ...] = tuple(
        (". ".join(filter(None, (tick.text, tick.caution))), *(tick.figure,) * figures, "", "", "")
        for tick in ticks
    )
    yield Table(body["title"], columns, rows or (("",) * len(columns),) * 5, deep=True)


def _needed(body: Body, scope: Scope) -> Iterator[Block]:
    rows = needed(scope.answers)
    if rows:
        yield Table(body["title"], NEXT_COLUMNS, rows)


def _doubts(_body: Body, scope: Scope) -> Iterator[Block]:
    doubts = scope.plain["job"].get("doubts") or []
    if doubts:
        rows = tuple((doubt["path"], doubt["text"]) for doubt in doubts)
        yield Table("Looks like a slip in the document: please check", ("where", "what"), rows)


BODIES: Mapping[str, Callable[[Body, Scope], Iterator[Block]]] = {
    "answers": _answers,
    "plan": _plan,
    "maps": _maps,
    "rings": _rings,
    "blank": _blank,
    "ticks": _ticks,
    "table": _table,
    "boxes": _boxes,
    "initials": _initials,
    "lock": _lock,
    "turns": _turns,
    "dates": _dates,
    "needed": _needed,
    "doubts": _doubts,
    "glance": _glance,
}
