"""Half the readings, any of them missing: every question of the faces is answered or says what it lacks, none breaks."""

import random

import pytest
from unit.answers.facing import ask, damage, face, limit, points

QUESTIONS = ("face-flat", "finish-right", "damage-near-seal", "cut-how-much", "shop-order", "work-accepted")
LEAVES = [
    {}, {"goes": "none", "stops": "0.03 mm"}, {"goes": "0.05 mm"}, {"goes": "0.05 mm", "stops": "0.06 mm"},
    {"goes": "0.002 in", "stops": "0.003 in"}, {"goes": "0.2 mm"},
]  # fmt: skip
ENDS = [(["0 mm", "0 mm"], ["300 mm", "0 mm"]), (["0 mm", "-50 mm"], ["0 mm", "50 mm"])]
SINGLE = ("largest_gap", "largest_gap_along", "largest_gap_across", "largest_gap_at_bridges")
ANY = limit("face_flatness", high="0.05 mm", measure="under-the-edge")
ALONG = {**ANY, "name": "along", "part": "head", "direction": "along", "high": "0.10 mm"}
ACROSS = {**ANY, "name": "across", "part": "head", "direction": "across"}
DISPUTED = [{**ANY, "rank": "published"}, {**ANY, "name": "stricter", "rank": "published", "high": "0.02 mm"}]
LIMITS = [[], [ANY], [ALONG, ACROSS], [{**ANY, "span": "100 mm"}], DISPUTED]
FINISH = [
    {"Ra": "0.2 µm"},
    {"Ra": "1.2 µm"},
    {"Ra": "5 µm"},
    {"Rz": "8 µm"},
    {"seen": ["step"]},
    {"how": "eye"},
]
DAMAGE = [
    {"kind": "crack", "lies": "between-valves"}, {"lies": "in-ring-band", "depth": "0.2 mm"}, {"lies": "elsewhere"},
    {"to_ring": "0 mm"},
]  # fmt: skip
HEADS = [
    {}, {"heights_before": ["100 mm"] * 4, "cam_tunnel": "turns-free"}, {"material": "aluminium"},
    {"heights_before": ["100 mm"] * 4, "heights_after": ["99.8 mm"] * 4},
]  # fmt: skip
CUTS = [{}, {"head": "0.2 mm"}, {"head": "0.2 mm", "done": True}, {"head": "0 mm", "block": "0.1 mm"}]
GASKETS = [
    {},
    *({"candidates": [{"name": "g", "construction": made}]} for made in ("composite", "multi-layer-steel")),
]


def line(chance: random.Random, number: int) -> dict:
    start, end = chance.choice(ENDS)
    laid = chance.choice(("rests", "rocks", "on end leaves of 0.05 mm"))
    readings = [{"at": "50 mm", **chance.choice(LEAVES)}]
    on = chance.choice(("face", "face", "burr"))
    return {
        "name": f"l{number}",
        "from": start,
        "to": end,
        "laid": laid,
        "stands_on": on,
        "readings": readings,
    }


def read(chance: random.Random, which: str) -> dict:
    given: dict = {"seen": "deck from above", "when": chance.choice(("before", "after-machining"))}
    kind = chance.choice(("lines", "lines", "single", "points"))
    if kind == "lines":
        given["lines"] = [line(chance, number) for number in range(chance.choice((1, 2, 3)))]
    elif kind == "single":
        given[chance.choice(SINGLE)] = chance.choice(("0 mm", "0.05 mm", "0.075 mm", "0.004 in"))
    else:
        given["points"] = points(chance.choice((-0.1, -0.05, 0.0, 0.05, 0.1)))
    return face(which, **given)


def joint(chance: random.Random) -> dict:
    sides = ("head", "block")
    marks = range(chance.choice((0, 0, 1, 2)))
    readings = {
        "faces": [read(chance, which) for which in sides if chance.random() < 0.85],
        "finish": [
            {"name": which, "face": which, **chance.choice(FINISH)}
            for which in sides
            if chance.random() < 0.6
        ],
        "damage": [
            damage(**{"name": f"d{number}", "face": chance.choice(sides), **chance.choice(DAMAGE)})
            for number in marks
        ],
    }
    return {
        "limits": chance.choice(LIMITS),
        "readings": readings,
        "head": chance.choice(HEADS),
        "cut": chance.choice(CUTS),
        "gasket": chance.choice(GASKETS),
    }


@pytest.mark.parametrize("seed", range(12))
def test_no_question_of_the_faces_breaks(seed: int) -> None:
    """The rules of an answer are checked when it is made: a decision without a check would be an error here."""
    chance = random.Random(seed)
    for _ in range(8):
        given, gear = joint(chance), chance.choice(("overhead-cam", "push-rod"))
        for question in QUESTIONS:
            answer = ask(question, given, engine={"valve_gear": gear})
            assert answer.headline
            if answer.state.value == "open":
                assert answer.next
