"""Where it leaks, tried on invented engines whose fault is known: how often it is right, sure and wrong.

    python benchmarks/diagnosis.py --json [--small] [--seed N] [--detail]
        →  {engines, first, top_three, tests_ratio, false_confident, calibration_error, also, equal_cost,
            unlisted}

The engines are made in tests/diagnosis_engines, which knows nothing of the likelihoods. Each is diagnosed twice from
what its owner tells, until the odds are 0.9 or twelve tests are done: with the test that firedeck names next, and in a
fixed order: dry compression, wet, leak-down, coolant pressure, gas in coolant, bores looked at, and after these the
other tests for parts the engine has, the quickest first.

first, top_three    where the true fault stands at the end of firedeck's tests
tests_ratio         mean tests to odds of 0.9 over all engines, firedeck's order over the fixed one; an engine that
                    never gets there counts twelve, in either order
false_confident     share that ends at 0.9 or more on a wrong cause
calibration_error   odds of the leader against how often it was right, after the telling and after every test, ten bins

also: the same places after six tests; tests_ratio_six, where the fixed order ends after its six and whoever is not
there by then counts six, in either order; minutes_ratio, the work of both orders; how many end sure; least engines of
one cause and share of impostors. equal_cost: the same engines with the next test
chosen as if every test cost the same, since tests are counted and not minutes; a mechanic is shown the order by
minutes. unlisted: engines with a fault that is not in the list.

The powers and the worth of settling were chosen on the engines of TRAINING; the set of SEED is none of them. No
likelihood was drawn from any engine.
"""

import argparse
import json
import sys
from collections import Counter, defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from statistics import fmean

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from diagnosis_engines import bench, finer, telling, trials
from diagnosis_engines.engine import Engine, invented
from diagnosis_engines.unlisted import strange_engines

from firedeck.diagnosis import (
    air_that_counts,
    compression_signs,
    compression_spread,
    leak_down,
    leak_down_signs,
)
from firedeck.diagnosis.case_book import ASK, UNLISTED, case_book
from firedeck.diagnosis.next_test import next_tests
from firedeck.diagnosis.odds import shares
from firedeck.diagnosis.thresholds import threshold

SEED = 20261126
TRAINING = (61, 62, 63, 64, 65, 66, 67)
SURE, MOST, SIX = 0.9, 12, 6
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


def listened(engine: Engine) -> Signs:
    """Read the gauges of the leak-down with firedeck, and where the air went."""
    test = bench.leak_down(engine)
    lost = [
        leak_down(test.supply * MPA, reading=held * MPA, restrictor=test.restrictor * 1e3).share
        for held in test.held
    ]
    goes = [{"coolant" if place == "water" else place for place in heard} for heard in test.heard]
    return leak_down_signs(air_that_counts(goes, lost), lost)


READ: dict[str, Callable[[Engine], Signs]] = {
    "dry-compression": dry,
    "wet-compression": wet,
    "leak-down": listened,
    **bench.LOOKED,
    **finer.LOOKED,
    **trials.LOOKED,
}


Shares = dict[str, float]
Next = Callable[[Signs, Engine, int], str | None]


@dataclass(frozen=True)
class Run:
    """One engine diagnosed one way: the share of every cause after the telling and after every test."""

    engine: Engine
    tests: tuple[str, ...]
    shares: tuple[Shares, ...]

    def after(self, tests: int) -> Shares:
        """Shares after so many tests, or at the end."""
        return self.shares[min(tests, len(self.tests))]

    def place(self, tests: int = MOST) -> int:
        """Where the true fault stands, counted from 1; a fault nobody listed is something else."""
        found, name = self.after(tests), self.engine.fault.name
        true = found[name if name in found else UNLISTED]
        return 1 + sum(share > true for share in found.values())

    @property
    def leader(self) -> str:
        """The likeliest cause at the end."""
        return max(self.shares[-1], key=self.shares[-1].__getitem__)

    @property
    def sure(self) -> bool:
        """Whether it ends sure enough."""
        return self.shares[-1][self.leader] >= SURE

    def count(self, most: int = MOST) -> int:
        """Tests to be sure; all of ``most`` where it was not."""
        return len(self.tests) if self.sure and len(self.tests) <= most else most

    @property
    def minutes(self) -> float:
        """Work of the tests done, cost put as minutes."""
        trials = case_book("leak").trials
        return sum(trials[test].minutes + trials[test].cost_minutes for test in self.tests)


def diagnosed(engine: Engine, choose: Next) -> Run:
    """Diagnose an engine with the tests that are chosen one after the other."""
    book, signs = case_book("leak"), telling.told(engine)
    found = [shares(book, signs, engine.absent, engine.present)]
    tests: list[str] = []
    while max(found[-1].values()) < SURE and len(tests) < MOST:
        test = choose(signs, engine, len(tests))
        if test is None:
            break
        tests.append(test)
        signs |= READ[test](engine)
        found.append(shares(book, signs, engine.absent, engine.present))
    return Run(engine, tuple(tests), tuple(found))


def guided(engine: Engine) -> Run:
    """Diagnose an engine with the test firedeck names next."""

    def best(signs: Signs, engine: Engine, _done: int) -> str | None:
        ranked = next_tests(case_book("leak"), signs, engine.absent, engine.present)
        return ranked[0].trial.id if ranked else None

    return diagnosed(engine, best)


def guided_at_equal_cost(engine: Engine) -> Run:
    """Diagnose an engine with the test that tells and settles most, every test at one cost: what counts is tests."""

    def best(signs: Signs, engine: Engine, _done: int) -> str | None:
        ranked = next_tests(case_book("leak"), signs, engine.absent, engine.present)
        worth = {one.trial.id: one.bits + threshold("settling") * one.settles for one in ranked}
        return max(worth, key=worth.__getitem__) if worth else None

    return diagnosed(engine, best)


def in_order(engine: Engine) -> Run:
    """Diagnose an engine in the fixed order, weighed the same way."""
    trials = sorted(case_book("leak").trials.values(), key=lambda one: one.minutes + one.cost_minutes)
    others = (one.id for one in trials if one.form != ASK and one.needs not in engine.absent)
    order = tuple(dict.fromkeys((*FIXED_ORDER, *others)))
    return diagnosed(engine, lambda _signs, _engine, done: order[done] if done < len(order) else None)


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


def share_of(runs: list[Run], holds: Callable[[Run], bool]) -> float:
    """Share of engines for which something holds."""
    return round(fmean(holds(run) for run in runs), 4)


def ratio_of_tests(runs: list[Run], fixed: list[Run], most: int = MOST) -> float:
    """Mean tests of one order over those of the other, over all engines."""
    return round(fmean(run.count(most) for run in runs) / fmean(run.count(most) for run in fixed), 4)


def figures_at_equal_cost(runs: list[Run], fixed: list[Run]) -> dict[str, float]:
    """Figures of the order in which every test costs the same."""
    return {
        "first": share_of(runs, lambda run: run.place() == 1),
        "tests_ratio": ratio_of_tests(runs, fixed),
        "tests_ratio_six": ratio_of_tests(runs, fixed, SIX),
        "false_confident": share_of(runs, lambda run: run.sure and run.place() > 1),
        "minutes_ratio": round(fmean(run.minutes for run in runs) / fmean(run.minutes for run in fixed), 4),
    }


def figures(runs: list[Run], fixed: list[Run]) -> dict[str, object]:
    """The figures of one set."""
    return {
        "engines": len(runs),
        "first": share_of(runs, lambda run: run.place() == 1),
        "top_three": share_of(runs, lambda run: run.place() <= 3),
        "tests_ratio": ratio_of_tests(runs, fixed),
        "false_confident": share_of(runs, lambda run: run.sure and run.place() > 1),
        "calibration_error": round(calibration_error([claim for run in runs for claim in claims_of(run)]), 4),
        "also": {
            "first_after_six": share_of(runs, lambda run: run.place(SIX) == 1),
            "top_three_after_six": share_of(runs, lambda run: run.place(SIX) <= 3),
            "tests_ratio_six": ratio_of_tests(runs, fixed, SIX),
            "mean_tests": [round(fmean(run.count() for run in one), 2) for one in (runs, fixed)],
            "mean_tests_six": [round(fmean(run.count(SIX) for run in one), 2) for one in (runs, fixed)],
            "minutes_ratio": round(
                fmean(run.minutes for run in runs) / fmean(run.minutes for run in fixed), 4
            ),
            "sure": [share_of(one, lambda run: run.sure) for one in (runs, fixed)],
            "least_of_a_cause": min(Counter(run.engine.fault.name for run in runs).values()),
            "impostors": share_of(runs, lambda run: run.engine.fault.impostor),
        },
    }


def figures_unlisted(runs: list[Run]) -> dict[str, object]:
    """Engines with a fault that is not in the list: how often a listed cause is taken for certain."""
    return {
        "engines": len(runs),
        "sure_of_a_listed_cause": share_of(runs, lambda run: run.sure and run.leader != UNLISTED),
        "something_else_first": share_of(runs, lambda run: run.place() == 1),
        "something_else_in_three": share_of(runs, lambda run: run.place() <= 3),
        "mean_share_of_something_else": round(fmean(run.shares[-1][UNLISTED] for run in runs), 4),
    }


def by_fault(runs: list[Run], fixed: list[Run]) -> str:
    """One line for each fault: how many, right first, in the first three, sure, mean tests both ways."""
    lines = []
    for name in dict.fromkeys(run.engine.fault.name for run in runs):
        own = [run for run in runs if run.engine.fault.name == name]
        other = [run for run in fixed if run.engine.fault.name == name]
        first, three = (sum(run.place() <= most for run in own) for most in (1, 3))
        taken = Counter(run.leader for run in own if run.place() > 1).most_common(3)
        wrong = ", ".join(f"{leader} {count}" for leader, count in taken)
        means = (fmean(run.count() for run in each) for each in (own, other) if each)
        counts = " tests against ".join(f"{mean:.1f}" for mean in means)
        sure = sum(run.sure for run in own)
        lines.append(f"{name:24} {len(own):3}: first {first}, three {three}, sure {sure}, {counts}; {wrong}")
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
    strange = [guided(one) for one in strange_engines(asked.seed, 2 if asked.small else 15)]
    equal = [guided_at_equal_cost(one) for one in engines]
    found = {
        **figures(runs, fixed),
        "equal_cost": figures_at_equal_cost(equal, fixed),
        "unlisted": figures_unlisted(strange),
    }
    if asked.detail:
        print(by_fault(runs, fixed), file=sys.stderr)
        print(by_fault(strange, []), file=sys.stderr)
    print(json.dumps(found) if asked.json else "\n".join(f"{key:18}{value}" for key, value in found.items()))


if __name__ == "__main__":
    main()
