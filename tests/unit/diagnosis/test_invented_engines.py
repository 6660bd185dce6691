"""The invented engines: they know nothing of what they try, hold every cause, and a small set is diagnosed well."""

import ast
import importlib.util
import random
from collections import Counter
from pathlib import Path
from types import ModuleType

import pytest
from diagnosis_engines import bench, finer, telling, trials
from diagnosis_engines.engine import Engine, invented
from diagnosis_engines.faults import FAULTS
from diagnosis_engines.flows import cranked, gas_flow, held

from firedeck.diagnosis import leak_down
from firedeck.diagnosis.case_book import UNLISTED, case_book

ROOT = Path(__file__).parents[3]
MAKER = ROOT / "tests" / "diagnosis_engines"
READING = {
    "open",
    "read_text",
    "read_bytes",
    "rows",
    "read_csv",
    "import_module",
    "__import__",
    "exec",
    "eval",
}


def _benchmark() -> ModuleType:
    spec = importlib.util.spec_from_file_location("diagnosis_benchmark", ROOT / "benchmarks" / "diagnosis.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("file", sorted(MAKER.glob("*.py")), ids=lambda file: file.stem)
def test_the_maker_imports_nothing_of_firedeck_and_reads_nothing(file: Path) -> None:
    tree = ast.parse(file.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            assert not any(
                name.name.split(".")[0] in {"firedeck", "csv", "pathlib", "os", "io"} for name in node.names
            )
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0
            assert (node.module or "").split(".")[0] in {
                "collections", "dataclasses", "math", "diagnosis_engines",
            }  # fmt: skip
        if isinstance(node, ast.Call):
            called = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
            assert called not in READING


def test_every_named_cause_is_invented_often_enough() -> None:
    engines = invented(1)
    count = Counter(one.fault.name for one in engines)
    assert set(count) == set(case_book("leak").causes) - {UNLISTED}
    assert min(count.values()) >= 15
    assert len(engines) >= 300
    assert sum(one.fault.impostor for one in engines) >= 0.2 * len(engines)


def test_impostors_are_the_same_on_both_sides() -> None:
    causes = case_book("leak").causes
    assert {fault.name for fault in FAULTS if fault.impostor} == {
        one.id for one in causes.values() if one.impostor
    }


def test_no_engine_has_a_fault_of_a_part_it_has_not_got() -> None:
    assert not [one for one in invented(2) if one.fault.name in one.absent]


def test_the_words_of_the_tests_are_signs_of_the_table() -> None:
    book, engine = case_book("leak"), invented(3, 0.01)[0]
    for test, look in (bench.LOOKED | finer.LOOKED | trials.LOOKED).items():
        assert set(look(engine)) == {sign.id for sign in book.signs_of(test) if not sign.sums_up}, test
    assert set(telling.going_on(engine)) == {sign.id for sign in book.signs_of("symptoms")}


def test_the_same_seed_makes_the_same_engines_and_readings() -> None:
    one, other = invented(4, 0.02), invented(4, 0.02)
    assert [bench.compression(engine) for engine in one] == [bench.compression(engine) for engine in other]
    assert [telling.told(engine) for engine in one] == [telling.told(engine) for engine in other]


def test_leak_down_of_the_maker_and_of_firedeck_agree_though_written_apart() -> None:
    chance = random.Random(5)
    for _ in range(20):
        restrictor, leak, supply = (
            chance.uniform(0.8, 1.6),
            chance.uniform(0.3, 4.0),
            chance.uniform(0.4, 0.8),
        )
        theirs = held(0.7853982 * leak**2 * 1e-6, 0.7853982 * restrictor**2 * 1e-6, supply * 1e6, 101325.0)
        ours = leak_down(supply, restrictor=restrictor, leak_hole=leak).reading
        assert theirs / 1e6 == pytest.approx(ours, rel=1e-3)


def test_a_larger_leak_reads_lower_and_a_tight_cylinder_near_the_polytrope() -> None:
    tight, small, large = (
        cranked(area * 1e-6, 0.5e-3, 10.0, speed=200 / 60, air=101325.0, exponent=1.25)
        for area in (0.0, 1.0, 5.0)
    )
    assert tight == pytest.approx(101325.0 * (10.0**1.25 - 1), rel=0.02)
    assert tight > small > large > 0.0


def test_no_gas_flows_uphill() -> None:
    assert gas_flow(1e-6, 1e5, 2e5, 300.0) == 0.0
    assert gas_flow(1e-6, 5e5, 1e5, 300.0) == pytest.approx(2 * gas_flow(1e-6, 2.5e5, 1e5, 300.0), rel=1e-3)


def _plain(engine: Engine) -> bool:
    return engine.fault.name in {"gasket-between-bores", "valve-exhaust", "rings-bore", "hose-or-pump"}


def test_plain_faults_are_found() -> None:
    benchmark = _benchmark()
    runs = [benchmark.guided(engine) for engine in invented(6, 0.1) if _plain(engine)]
    right = sum(run.place() == 1 for run in runs)
    assert right >= 0.8 * len(runs)


def test_calibration_error_of_honest_and_of_boastful_odds() -> None:
    benchmark = _benchmark()
    honest = [(0.75, True)] * 3 + [(0.75, False)]
    assert benchmark.calibration_error(honest) == pytest.approx(0.0)
    assert benchmark.calibration_error([(0.95, False)] * 4) == pytest.approx(0.95)
