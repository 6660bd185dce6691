"""Forty invented joints: the gasket that is right, and the one thing that decides, as stated beforehand in joints.csv."""

import csv
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from firedeck.answers.answer import Answer, State
from firedeck.assess.lists import ANSWERS, FINDINGS
from firedeck.findings.allowance import reading_of
from firedeck.findings.finding import Findings
from firedeck.job import Job, read_text

HERE = Path(__file__).parent
SHEETS = {
    "multi-layer-steel": "1.6 µm",
    "steel-shim": "1.6 µm",
    "composite": "3.2 µm",
    "graphite-metal-core": "3.2 µm",
    "soft-copper": "3.2 µm",
}
METALS = {"A": "aluminium", "I": "grey-iron"}
CONSTRUCTIONS = (*SHEETS, "laminated", "wire-ring")
Row = dict[str, str]


def joints() -> list[Row]:
    lines = [line for line in (HERE / "joints.csv").read_text().splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


JOINTS = joints()


def parts(cell: str, by: str) -> list[str]:
    return [one.strip() for one in cell.split(by) if one.strip()]


def quoted(text: str) -> str:
    return text if text in ("true", "false") else f'"{text}"'


def candidates(row: Row) -> dict[str, str]:
    """Return every gasket of a joint with its construction."""
    split = (one.partition(":") for one in parts(row["gaskets"], "|"))
    return {name.strip(): parts(rest, ",")[0] for name, _, rest in split}


def document(row: Row) -> str:
    """Write the job a row stands for."""
    sections: dict[str, list[str]] = {
        key: [] for key in ("engine", "running", "head", "block", "chamber", "cut", "layout")
    }
    sections["head"].append(f'material = "{METALS[row["head"]]}"')
    sections["block"].append(f'material = "{METALS[row["block"]]}"')
    rest: list[str] = []
    for change in (*parts(row["engine"], ";"), *parts(row["joint"], ";")):
        place, _, value = change.partition("=")
        _put(place, value, sections, rest)
    engine = "\n".join(sections["engine"])
    running = "[running]\n" + "\n".join(sections["running"]) if sections["running"] else ""
    joint = "\n".join(
        f"[joint.{name}]\n" + "\n".join(sections[name])
        for name in ("head", "block", "chamber", "cut", "layout")
        if sections[name]
    )
    return "\n".join(
        [
            'format = 0\n[job]\ntitle = "invented"\n[engine]\narrangement = "inline"\ncylinders = ["1", "2", "3", "4"]',
            engine,
            '[[joint]]\nname = "head"',
            joint,
            *_gaskets(row),
            *rest,
            *_faces(row),
            *_limits(row),
            running,
        ]
    )


def _put(place: str, value: str, sections: dict[str, list[str]], rest: list[str]) -> None:
    section, _, field = place.rpartition(".")
    match place:
        case "layout.bores":
            for number, size in enumerate(value.split("/"), 1):
                rest.append(
                    f'[[joint.layout.bores]]\nlabel = "{number}"\nx = "{96 * number} mm"\ny = "0 mm"\ndiameter = "{size}"'
                )
        case "readings.pistons":
            rest.append(f'[[joint.readings.pistons]]\nname = "1"\nstands = "{value}"')
        case "readings.liners":
            rest.append(f'[[joint.readings.liners]]\nname = "1"\nstands = "{value}"')
        case "readings.damage":
            rest.append(
                '[[joint.readings.damage]]\nname = "dip"\nface = "block"\nkind = "pit"\nlies = "in-ring-band"'
                '\ndepth = "0.05 mm"'
            )
        case "chamber.volumes":
            sections["chamber"].append(f'volumes = {{ 1 = "{value}" }}')
        case "block.deck_clearance":
            sections["block"].append(f'deck_clearance = {{ 1 = "{value}" }}')
        case "running.peak":
            sections["running"].append(f'peak_pressure = "{value}"')
        case "gasket.old.thickness" | "gasket.old.bore":
            start = "" if any("[joint.gasket.old]" in one for one in rest) else "[joint.gasket.old]\n"
            rest.append(f"{start}{field} = {quoted(value)}")
        case _:
            sections[section or "engine"].append(f"{field} = {quoted(value)}")


def _gaskets(row: Row) -> Iterator[str]:
    for one in parts(row["gaskets"], "|"):
        name, _, about = one.partition(":")
        construction, *more = parts(about, ",")
        fields = "\n".join(
            f"{field} = {quoted(value)}" for field, _, value in (each.partition(" ") for each in more)
        )
        yield f'[[joint.gasket.candidates]]\nname = "{name.strip()}"\nconstruction = "{construction}"\n{fields}'


def _faces(row: Row) -> Iterator[str]:
    if row["faces"] == "unread":
        return
    for face in ("head", "block"):
        yield (
            f'[[joint.readings.faces]]\nname = "{face}"\nface = "{face}"\nlargest_gap_along = "0.01 mm"\n'
            'largest_gap_across = "0.01 mm"\nlargest_gap_at_bridges = "0.01 mm"'
        )
        if row["faces"] != "flat":
            Ra = "0.8 µm" if row["faces"] == "smooth" else "2.5 µm"
            yield f'[[joint.readings.finish]]\nname = "{face}"\nface = "{face}"\nRa = "{Ra}"\nhow = "tester"'


def _limits(row: Row) -> Iterator[str]:
    for construction, high in SHEETS.items():
        yield _limit(f"finish-{construction}", "surface_finish", ("", high), construction, "part-sheet")
    for number, limit in enumerate(parts(row["limits"], ";")):
        quantity, _, bounds = limit.partition(" ")
        low, _, high = bounds.partition("..")
        construction = next((one for one in CONSTRUCTIONS if high.endswith(one)), "")
        yield _limit(
            f"own-{number}", quantity, (low, high.removesuffix(construction).strip()), construction, "manual"
        )


def _limit(name: str, quantity: str, ends: tuple[str, str], construction: str, rank: str) -> str:
    low, high = ends
    bounds = "".join(f'{end} = "{value}"\n' for end, value in (("low", low), ("high", high)) if value)
    of = f'construction = "{construction}"\n' if construction else ""
    return (
        f'[[joint.limits]]\nname = "{name}"\nquantity = "{quantity}"\n{bounds}{of}measure = "computed"\nrank = "{rank}"\n'
        'from = "invented sheet"'
    )


def answered(job: Job) -> Answer:
    engine, joint = Findings(job, None, FINDINGS), job.joints[0]
    return ANSWERS["gasket-which"](job, joint, Findings(job, joint, FINDINGS, engine))


def could_turn(answer: Answer) -> bool:
    return any("turn it round" in note.text for note in answer.notes)


@pytest.mark.parametrize("row", JOINTS, ids=[row["name"] for row in JOINTS])
def test_the_gasket_and_what_decides_are_as_stated(row: Row) -> None:
    answer = answered(read_text(document(row)))
    if row["action"] == "open":
        assert answer.state is State.OPEN, answer.headline
        return
    assert (answer.action, answer.choice) == (row["action"], row["choice"]), answer.headline
    if row["loses"]:
        name = f"what decides between {row['choice']} and {row['loses']}"
        decides = next(check.text for check in answer.checks if check.name == name)
        assert row["decides"] in decides.split(":")[0].split(", "), decides
    else:
        assert any(row["decides"] in check.name for check in answer.checks)
    if row["turn"]:
        assert could_turn(answer)


def test_forty_and_every_construction_wins_and_loses() -> None:
    assert len(JOINTS) == len({row["name"] for row in JOINTS}) == 40
    wins = Counter(candidates(row)[row["choice"]] for row in JOINTS if row["choice"])
    losses = Counter(candidates(row)[row["loses"]] for row in JOINTS if row["loses"])
    assert set(wins) == set(losses) == set(CONSTRUCTIONS)


def test_nothing_of_a_make_and_every_reason_has_its_subject() -> None:
    for row in JOINTS:
        for check in answered(read_text(document(row))).checks:
            if check.name.startswith("what decides"):
                assert check.text.partition(":")[0]
                assert check.text.partition(":")[2].strip()


def moves(job: Job) -> Iterator[dict[str, str]]:
    """Go through every reading of a job that a tool cannot tell from its neighbour, moved one way and the other."""
    joint = job.joints[0]
    at = "joint.head"
    found: list[tuple[str, str, float, str]] = []
    if job.engine.bore:
        found.append(("engine.bore", "ring_overhang", job.engine.bore.value, "mm"))
    if joint.block.groove_depth:
        found.append((f"{at}.block.groove_depth", "wire_stand_out", joint.block.groove_depth.value, "mm"))
    if joint.block.groove_width:
        found.append((f"{at}.block.groove_width", "groove_room", joint.block.groove_width.value, "mm"))
    if joint.block.recess:
        found.append((f"{at}.block.recess", "ring_reach", joint.block.recess.value, "mm"))
    for read in joint.readings.finish:
        assert read.Ra is not None
        found.append((f"{at}.readings.finish.{read.name}.Ra", "surface_finish", read.Ra.value * 1000, "µm"))
    for label, depth in joint.block.deck_clearance.items():
        found.append((f"{at}.block.deck_clearance.{label}", "squish", depth.value, "mm"))
    for path, quantity, value, unit in found:
        step = (reading_of(quantity) or 0.0) * (1000 if unit == "µm" else 1)
        for sign in (-0.98, 0.98):
            moved = value + sign * step
            if moved >= 0.0:
                yield {path: f"{moved:.6g} {unit}"}


@pytest.mark.parametrize("row", JOINTS, ids=[row["name"] for row in JOINTS])
def test_the_order_never_turns_within_a_reading_without_saying_so(row: Row) -> None:
    job = read_text(document(row))
    answer = answered(job)
    for change in moves(job):
        moved = answered(job.changed(change))
        same = (moved.action, moved.choice) == (answer.action, answer.choice)
        assert same or could_turn(answer) or could_turn(moved), (change, answer.headline, moved.headline)
