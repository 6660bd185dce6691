"""The fastener sums as a person calls them: results, units, written steps, refusals."""

import re
from pathlib import Path

import pytest
from unit.sums.fastener_calls import CALLS

from firedeck import sums
from firedeck.errors import FiredeckError
from firedeck.trace import FIXED, evaluate

ROOT = Path(__file__).parents[3]
KEYS = set(re.findall(r"^## (\S+)", (ROOT / "docs/sources.md").read_text(encoding="utf-8"), re.M)) | set(
    FIXED
)
IDS = [f"{name}-{place}" for place, (name, _) in enumerate(CALLS)]


def six(value):
    return float(f"{value:.6g}")


@pytest.mark.parametrize(("name", "given"), CALLS, ids=IDS)
def test_every_printed_step_comes_out_again(name, given):
    answer = sums.find_sum(name).run(**given)
    assert answer.steps
    for step in answer.steps:
        printed = {key: six(value) for key, (value, _) in step.inputs.items()}
        again = evaluate(step.formula, printed)
        assert again == pytest.approx(step.value, rel=1e-5, abs=1e-12), step.says


@pytest.mark.parametrize(("name", "given"), CALLS, ids=IDS)
def test_sources_are_known_and_figures_are_numbers(name, given):
    answer = sums.find_sum(name).run(**given)
    assert answer.sources
    assert set(answer.sources) <= KEYS
    for figure in answer.results.values():
        shown = figure.as_json()
        if isinstance(shown["value"], float):
            assert shown["value"] == shown["value"], "not a number"
            assert shown["unit"]


def test_every_sum_of_the_group_is_called():
    group = {name for name, _ in CALLS}
    assert len(group) == 21
    assert group <= set(sums.all_sums())


RESULTS = {
    "thread-geometry": "major_diameter pitch pitch_diameter minor_diameter internal_minor_diameter "
    "stress_area",
    "bolt-strength": "stress_area proof_load yield_load tensile_load "
    "proof_stress yield_stress tensile_stress",
    "assembly-tension": "tension torque",
    "bolt-tension": "tension tension_low tension_high torsion_stress equivalent_stress yield_fraction",
    "nut-factor-tension": "tension",
    "nut-factor-torque": "torque",
    "same-tension-torque": "torque torque_low torque_high tension",
    "proof-torque": "tension torque",
    "bolt-stiffness": "stiffness stretch_per_kN",
    "member-stiffness": "stiffness each",
    "joint-diagram": "load_fraction bolt_load member_load separation_factor load_factor proof_factor",
    "angle-tension": "tension stretch plastic_stretch reached_yield",
    "embedding-loss": "loss",
    "thermal-tension": "change",
    "thread-strip": "external_area internal_area bolt_strip_load hole_strip_load "
    "engagement_for_full_strength",
    "torque-scatter": "low high high_over_low",
    "bearing-pressure": "pressure share_of_yield",
    "trapped-liquid": "pressure hoop_stress hoop_share",
    "head-marks": "class proof_load yield_load",
    "break-away-tension": "tension tension_low tension_high",
}


@pytest.mark.parametrize("name", RESULTS)
def test_results_have_their_public_names(name):
    given = next(given for called, given in CALLS if called == name)
    assert list(sums.find_sum(name).run(**given).results) == RESULTS[name].split()


def test_bolt_torque_names_its_torque_first():
    given = next(given for called, given in CALLS if called == "bolt-torque")
    assert next(iter(sums.find_sum("bolt-torque").run(**given).results)) == "torque"


REFUSED = [
    (
        "trapped-liquid",
        {"thread": "M12", "tension": "40 kN", "boss_diameter": "11 mm"},
        "wider than the thread",
    ),
    ("head-marks", {"thread": "M10", "marks": "three lines"}, "metric"),
    ("head-marks", {"thread": "3/8-16", "marks": "a crown"}, "three lines"),
    (
        "break-away-tension",
        {"thread": "M10", "torque": "50 N·m", "lubricant": "oil", "way": "sideways"},
        "loosening",
    ),
    ("break-away-tension", {"thread": "M10", "torque": "50 N·m", "lubricant": "honey"}, "oil"),
    ("thread-geometry", {"thread": "M10x1.3"}, "allowed pitches"),
    ("thread-geometry", {"thread": "7/16"}, "7/16-14"),
    ("thread-geometry", {"thread": "7/16-14 UNF"}, "20 threads"),
    ("thread-geometry", {"thread": "M13"}, "coarse pitch"),
    ("thread-geometry", {"thread": "M500x6"}, "M64"),
    ("thread-geometry", {"thread": "5-1"}, "4 in"),
    ("thread-geometry", {"thread": "1/0-13"}, "1/0"),
    ("thread-geometry", {"thread": "1/2-0"}, "1/2-0"),
    ("bolt-strength", {"thread": "M20", "class": "9.8"}, "16 mm"),
    ("bolt-strength", {"thread": "M10", "class": "chewing gum"}, "8.8"),
    (
        "bolt-tension",
        {"thread": "M10", "torque": "-5 N·m", "thread_friction": "0.1", "head_friction": "0.1"},
        "above 0",
    ),
    (
        "bolt-tension",
        {"thread": "M10", "torque": "5 N·m", "thread_friction": "1.2", "head_friction": "0.1"},
        "0.6",
    ),
    (
        "bolt-torque",
        {"thread": "M10", "tension": "5 kN", "thread_friction": "0.1", "head_friction": "0"},
        "0.02",
    ),
    ("nut-factor-tension", {"diameter": "10 mm", "torque": "50 N·m", "nut_factor": "2"}, "0.6"),
    ("proof-torque", {"thread": "M10", "class": "8.8", "nut_factor": "0.2", "fraction": "140 %"}, "1"),
    (
        "same-tension-torque",
        {"thread": "M10", "torque": "5 N·m", "from_lubricant": "jam", "to_lubricant": "oil"},
        "dry",
    ),
    ("bolt-stiffness", {"modulus": "205 GPa"}, "sections"),
    ("bolt-stiffness", {"modulus": "205 GPa", "sections": "10 mm/0 mm"}, "above 0"),
    ("member-stiffness", {"frusta": "200 GPa/8 mm/10 mm", "bolt_diameter": "10 mm"}, "wider"),
    (
        "joint-diagram",
        {
            "bolt_stiffness": "1 kN/mm",
            "member_stiffness": "1 kN/mm",
            "preload": "1 kN",
            "external_load": "0 N",
        },
        "above 0",
    ),
    ("thread-strip", {"thread": "M10", "engagement": "0 mm"}, "above 0"),
    ("thread-strip", {"thread": "M10", "engagement": "9 mm", "internal_minor_maximum": "11 mm"}, "smaller"),
    ("torque-scatter", {"method": "by feel"}, "torque-wrench"),
    ("bearing-pressure", {"tension": "4 kN", "outer_diameter": "9 mm", "hole_diameter": "9 mm"}, "wider"),
    (
        "bearing-pressure",
        {"tension": "4 kN", "outer_diameter": "19 mm", "hole_diameter": "9 mm", "material": "ductile-iron"},
        "sinks",
    ),
]


@pytest.mark.parametrize(("name", "given", "says"), REFUSED)
def test_what_cannot_be_is_refused_in_one_line(name, given, says):
    with pytest.raises(FiredeckError) as caught:
        sums.find_sum(name).run(**given)
    assert says in str(caught.value)
    assert "\n" not in str(caught.value)
