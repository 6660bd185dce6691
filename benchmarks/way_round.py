"""Which way round: 200 invented engines whose answer is known because of how they were made.

    python benchmarks/way_round.py --json [--small]   →  {right, total, right_share, ms_median}

Every engine is invented here from a committed seed. Kinds: symmetric (any way), nearly symmetric (one bolt off
its place within the room of the holes: any way; beyond what they can give: one way), one oil feed off the middle
(the feed decides), a part made mirror image with its side marked (none fits), the other bank of a vee (turned
over), one metered hole among full ones (that passage decides), and one hole 1 mm beyond its clearance (none).
"""

import argparse
import json
import math
import random
import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, replace

from firedeck.gasket.hole_match import HoleMatch, Verdict, hole_match
from firedeck.gasket.laying import Way
from firedeck.gasket.pattern import Opening, Pattern

SEED = 20261124
COUNTS = {
    "symmetric": 34,
    "oil feed": 34,
    "mirror image": 33,
    "other bank": 33,
    "metered hole": 33,
    "shifted hole": 33,
}


@dataclass(frozen=True)
class Case:
    """An invented engine: its parts, the verdict that is right, and what must be named."""

    kind: str
    gasket: Pattern
    block: Pattern
    verdict: Verdict
    fitting: tuple[Way, ...]
    deciding: str


def engine(chance: random.Random) -> tuple[Pattern, Pattern]:
    """Invent a symmetric block and the gasket that belongs to it."""
    count, bore = chance.randint(1, 6), chance.uniform(60, 120)
    pitch, half = bore * chance.uniform(1.08, 1.2), bore * chance.uniform(0.58, 0.7)
    bolt, room = chance.choice([8.0, 10.0, 12.0]), chance.uniform(0.3, 0.6)
    middle = (count - 1) / 2
    block, gasket = [], []
    for place in range(count):
        x = (place - middle) * pitch
        block.append(Opening("bore", str(place + 1), x, 0.0, bore))
        gasket.append(Opening("bore", str(place + 1), x, 0.0, bore + chance.choice([1.0, 1.5])))
    for place in range(count + 1):
        for side in (-1, 1):
            x = (place - middle - 0.5) * pitch
            block.append(Opening("fastener", f"{place}{side:+d}", x, side * half, bolt))
            gasket.append(Opening("fastener", f"{place}{side:+d}", x, side * half, bolt + 2 * room))
    for place in range(count):
        for side in (-1, 1):
            x, hole = (place - middle) * pitch, 8.0
            block.append(Opening("passage", f"w{place}{side:+d}", x, side * (half + 6), hole, leads="water"))
            gasket.append(Opening("passage", f"w{place}{side:+d}", x, side * (half + 6), hole, leads="water"))
    return Pattern("gasket", tuple(gasket)), Pattern("block", tuple(block))


def with_feed(pattern: Pattern, x: float, y: float) -> Pattern:
    return replace(
        pattern, openings=(*pattern.openings, Opening("passage", "oil feed", x, y, 5.0, leads="oil"))
    )


def off_the_middle(gasket: Pattern, block: Pattern) -> tuple[Pattern, Pattern]:
    """Move one fastener along the row in both parts, so that only one way can fit."""
    name = block.of("fastener")[0].label

    def move(part: Pattern) -> Pattern:
        return replace(
            part,
            openings=tuple(
                replace(one, y=one.y * 1.12) if (one.kind, one.label) == ("fastener", name) else one
                for one in part.openings
            ),
        )

    return move(gasket), move(block)


def symmetric(chance: random.Random) -> Case:
    gasket, block = engine(chance)
    return Case("symmetric", gasket, block, Verdict.ANY_WAY, tuple(Way), "")


def nearly_symmetric(chance: random.Random) -> Case:
    """Move one bolt in both parts: by less than a hole clears, or by more than all holes together can give."""
    gasket, block = engine(chance)
    moved = chance.choice([one for one in block.of("fastener") if abs(one.x) > 1])
    room = (gasket.of("fastener")[0].diameter - moved.diameter) / 2
    inside = chance.random() < 0.5
    off = room * chance.uniform(0.2, 0.9) if inside else 4 * room + chance.uniform(0.5, 2.0)
    off = math.copysign(off, moved.y)

    def move(part: Pattern) -> Pattern:
        same = (moved.kind, moved.label)
        return replace(
            part,
            openings=tuple(
                replace(one, y=one.y + off) if (one.kind, one.label) == same else one for one in part.openings
            ),
        )

    if inside:
        return Case("nearly symmetric", move(gasket), move(block), Verdict.ANY_WAY, tuple(Way), "")
    return Case("nearly symmetric", move(gasket), move(block), Verdict.ONE_WAY, (Way.AS_DRAWN,), "")


def oil_feed(chance: random.Random) -> Case:
    gasket, block = engine(chance)
    x = max(one.x for one in block.of("fastener")) + 12
    y = chance.choice([-1, 1]) * chance.uniform(12, 25)
    parts = with_feed(gasket, x, y), with_feed(block, x, y)
    return Case("oil feed", *parts, Verdict.BY_PASSAGE, (Way.AS_DRAWN,), "oil feed")


def mirror_image(chance: random.Random) -> Case:
    gasket, block = off_the_middle(*engine(chance))
    marked = replace(
        gasket.turned(1, -1),
        openings=(*gasket.turned(1, -1).openings, Opening("mark", "m", 0, 0, text="TOP")),
    )
    return Case("mirror image", marked, block, Verdict.NONE, (), "mirror image")


def other_bank(chance: random.Random) -> Case:
    gasket, block = off_the_middle(*engine(chance))
    return Case("other bank", gasket, block.turned(1, -1), Verdict.ONE_WAY, (Way.TURNED_OVER,), "")


def metered_hole(chance: random.Random) -> Case:
    gasket, block = engine(chance)
    passages = gasket.of("passage")
    small = chance.choice(passages)
    openings = tuple(replace(one, diameter=4.0) if one is small else one for one in gasket.openings)
    return Case(
        "metered hole", replace(gasket, openings=openings), block, Verdict.BY_PASSAGE, tuple(Way), small.label
    )


def shifted_hole(chance: random.Random) -> Case:
    gasket, block = engine(chance)
    moved = chance.choice(gasket.of("fastener"))
    pin = next(one for one in block.of("fastener") if one.label == moved.label)
    far = (moved.diameter - pin.diameter) / 2 + 1.0
    angle = chance.uniform(0, 2 * math.pi)
    elsewhere = replace(moved, x=moved.x + far * math.cos(angle), y=moved.y + far * math.sin(angle))
    openings = tuple(elsewhere if one is moved else one for one in gasket.openings)
    return Case("shifted hole", replace(gasket, openings=openings), block, Verdict.NONE, (), "")


MAKERS: dict[str, Callable[[random.Random], Case]] = {
    "symmetric": symmetric,
    "nearly symmetric": nearly_symmetric,
    "oil feed": oil_feed,
    "mirror image": mirror_image,
    "other bank": other_bank,
    "metered hole": metered_hole,
    "shifted hole": shifted_hole,
}


def is_right(case: Case, found: HoleMatch) -> bool:
    named = not case.deciding or case.deciding in found.deciding or case.deciding in found.why
    return found.verdict is case.verdict and set(found.fitting) == set(case.fitting) and named


def measure(small: bool) -> dict[str, float | int]:
    chance = random.Random(SEED)
    cases = [MAKERS[kind](chance) for kind, count in COUNTS.items() for _ in range(2 if small else count)]
    right, times = 0, []
    hole_match(cases[0].gasket, cases[0].block)
    for case in cases:
        start = time.perf_counter()
        found = hole_match(case.gasket, case.block)
        times.append(1000 * (time.perf_counter() - start))
        good = is_right(case, found)
        right += good
        if not good:
            print(case.kind, found.verdict.value, found.fitting, found.deciding, found.why, file=sys.stderr)
    return {
        "right": right,
        "total": len(cases),
        "right_share": right / len(cases),
        "ms_median": round(statistics.median(times), 2),
    }


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="a few cases only")
    given = parser.parse_args()
    figures = measure(given.small)
    text = "\n".join(f"{key:12} {value}" for key, value in figures.items())
    print(json.dumps(figures) if given.json else text)


if __name__ == "__main__":
    main()
