"""Where it leaks, tried on invented engines whose fault is known: how often it is right, sure and wrong.

    python benchmarks/diagnosis.py --json [--small] [--seed N] [--detail]
        →  {engines, first, top_three, tests_ratio, false_confident, calibration_error}

The engines are made in tests/diagnosis_engines, which knows nothing of the likelihoods. Each is diagnosed twice, from
what its owner tells: with the test that firedeck names next, until the odds are 0.9 or twelve tests are done, and in a
fixed order (dry compression, wet, leak-down, coolant pressure, gas in coolant, bores looked at).

first, top_three    where the true fault stands at the end of firedeck's tests
tests_ratio         mean tests to odds of 0.9, firedeck's order over the fixed one, over the engines that get there
                    within six tests in either order (six is all the fixed order has); not there counts six
false_confident     share that ends at 0.9 or more on a wrong cause
calibration_error   odds of the leader against how often it was right, after the telling and after every test, ten bins

With --detail also tests_ratio_all, the same over all engines, and a line for each fault. Half of every likelihood was
drawn from the engines of TRAINING; the set of SEED is none of them.
"""

import argparse
import json
import sys
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from statistics import fmean

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from diagnosis_engines import bench, telling
from diagnosis_engines.engine import Engine, invented

from firedeck.diagnosis import (
    compression_signs,
    compression_spread,
    leak_causes,
    leak_down,
    leak_down_signs,
)
from firedeck.diagnosis.case_book import case_book
from firedeck.diagnosis.odds import shares

SEED = 20261126
TRAINING = (41, 42, 43, 44, 45, 49, 50, 51, 52, 53, 54)
SURE, MOST, COUNTED = 0.9, 12, 6
FIXED_ORDER = (
    "dry-compression",
    "wet-compression",
    "leak-down",
    "coolant-pressure",
    "gas-in-coolant",
    "bores-looked-at",
)
MPA = 1e-6
Signs = dict[str, bool]


def dry(engine: Engine) -> Signs:
    """Read the dry compression with firedeck."""
    readings = bench.compression(engine).readings
    return compression_signs(compression_spread([one * MPA for one in readings]))


def wet(engine: Engine) -> Signs:
    """Read both compressions with firedeck, oil, swept volume and ratio known."""
    oil = bench.shot_of_oil(engine)
    before, after = bench.compression(engine), bench.compression(engine, oil)
    spread = compression_spread(
        [one * MPA for one in before.readings],
        wet=[one * MPA for one in after.readings],
        oil_volume=oil * 1e9,
        swept_volume=engine.swept * 1e9,
        ratio=engine.ratio,
    )
    return compression_signs(spread)


LEAST_LOST = 0.1
"""A hiss at a cylinder that loses less than this is let pass, bubbles in the water never are."""


def listened(engine: Engine) -> Signs:
    """Read the gauges of the leak-down with firedeck, and where the air went."""
    test = bench.leak_down(engine)
    places: set[str] = set()
    for held, heard in zip(test.held, test.heard, strict=True):
        found = leak_down(test.supply * MPA, reading=held * MPA, restrictor=test.restrictor * 1e3)
        places |= {place for place in heard if place == "water" or found.share >= LEAST_LOST}
    return leak_down_signs(sorted("coolant" if place == "water" else place for place in places))


READ: dict[str, Callable[[Engine], Signs]] = {
    "dry-compression": dry,
    "wet-compression": wet,
    "leak-down": listened,
    **bench.LOOKED,
}


Shares = dict[str, float]


@dataclass(frozen=True)
class Run:
    """One engine diagnosed one way: the share of every cause after the telling and after every test."""

    engine: Engine
    tests: tuple[str, ...]
    shares: tuple[Shares, ...]

    @property
    def place(self) -> int:
        """Where the true fault stands at the end, counted from 1."""
        last = self.shares[-1]
        return 1 + sum(share > last[self.engine.fault.name] for share in last.values())

    @property
    def leader(self) -> str:
        """The likeliest cause at the end."""
        return max(self.shares[-1], key=self.shares[-1].__getitem__)

    @property
    def sure(self) -> bool:
        """Whether it ends sure enough."""
        return self.shares[-1][self.leader] >= SURE

    @property
    def in_time(self) -> bool:
        """Whether it was sure within the tests that are counted."""
        return self.sure and len(self.tests) <= COUNTED

    @property
    def count(self) -> int:
        """Tests to be sure; all that are counted where it was not."""
        return len(self.tests) if self.in_time else COUNTED


def guided(engine: Engine) -> Run:
    """Diagnose an engine with the test firedeck names next."""
    signs = telling.told(engine)
    found = [leak_causes(signs, engine.absent)]
    tests: list[str] = []
    while found[-1].leader.share < SURE and len(tests) < MOST:
        tests.append(found[-1].next[0].trial.id)
        signs |= READ[tests[-1]](engine)
        found.append(leak_causes(signs, engine.absent))
    return Run(
        engine, tuple(tests), tuple({one.cause.id: one.share for one in each.causes} for each in found)
    )


def in_order(engine: Engine) -> Run:
    """Diagnose an engine in the fixed order, weighed the same way."""
    book, signs = case_book("leak"), telling.told(engine)
    found = [shares(book, signs, engine.absent)]
    tests: list[str] = []
    while max(found[-1].values()) < SURE and len(tests) < len(FIXED_ORDER):
        tests.append(FIXED_ORDER[len(tests)])
        signs |= READ[tests[-1]](engine)
        found.append(shares(book, signs, engine.absent))
    return Run(engine, tuple(tests), tuple(found))


def calibration_error(claims: list[tuple[float, bool]]) -> float:
    """Odds claimed against how often they were right, weighed over ten bins."""
    bins: dict[int, list[tuple[float, bool]]] = defaultdict(list)
    for share, right in claims:
        bins[min(int(share * 10), 9)].append((share, right))
    gaps = (abs(sum(share for share, _ in one) - sum(right for _, right in one)) for one in bins.values())
    return sum(gaps) / len(claims)


def claims_of(run: Run) -> list[tuple[float, bool]]:
    """The leader's share at every stage, and whether it was right."""
    leaders = (max(each, key=each.__getitem__) for each in run.shares)
    return [(each[one], one == run.engine.fault.name) for each, one in zip(run.shares, leaders, strict=True)]


def tests_ratio(runs: list[Run], fixed: list[Run], everyone: bool) -> float:
    """Mean tests of one order over those of the other."""
    both = [
        (one, other)
        for one, other in zip(runs, fixed, strict=True)
        if everyone or one.in_time or other.in_time
    ]
    return round(fmean(one.count for one, _ in both) / fmean(other.count for _, other in both), 4)


def figures(runs: list[Run], fixed: list[Run]) -> dict[str, float | int]:
    """The figures of one set."""
    return {
        "engines": len(runs),
        "first": round(fmean(run.place == 1 for run in runs), 4),
        "top_three": round(fmean(run.place <= 3 for run in runs), 4),
        "tests_ratio": tests_ratio(runs, fixed, everyone=False),
        "false_confident": round(fmean(run.sure and run.place > 1 for run in runs), 4),
        "calibration_error": round(calibration_error([claim for run in runs for claim in claims_of(run)]), 4),
    }


def by_fault(runs: list[Run], fixed: list[Run]) -> str:
    """One line for each fault: how many, right first, in the first three, sure, mean tests both ways."""
    lines = []
    for name in dict.fromkeys(run.engine.fault.name for run in runs):
        own = [run for run in runs if run.engine.fault.name == name]
        other = [run for run in fixed if run.engine.fault.name == name]
        first, three = (sum(run.place <= most for run in own) for most in (1, 3))
        wrong = ", ".join(sorted(run.leader for run in own if run.place > 1))
        counts = (
            f"{fmean(run.count for run in own):.1f} tests against {fmean(run.count for run in other):.1f}"
        )
        lines.append(
            f"{name:22} {len(own):3}: first {first}, three {three}, sure {sum(r.sure for r in own)}, {counts}; {wrong}"
        )
    return "\n".join(lines)


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="a few engines of each fault only")
    parser.add_argument("--seed", type=int, default=SEED, help="another set of engines")
    parser.add_argument("--detail", action="store_true", help="a line for each fault, to stderr")
    asked = parser.parse_args()
    engines = invented(asked.seed, 0.06 if asked.small else 1.0)
    runs, fixed = [guided(one) for one in engines], [in_order(one) for one in engines]
    found = figures(runs, fixed)
    if asked.detail:
        print(by_fault(runs, fixed), file=sys.stderr)
        print(f"tests_ratio_all {tests_ratio(runs, fixed, everyone=True)}", file=sys.stderr)
    print(json.dumps(found) if asked.json else "\n".join(f"{key:18}{value}" for key, value in found.items()))


if __name__ == "__main__":
    main()
