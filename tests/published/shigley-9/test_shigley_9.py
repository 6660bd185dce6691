"""Nut factors, joint examples and rules of Shigley's 9th edition."""

from math import log, pi, radians, tan
from statistics import mean, stdev

from cases import published
from sum_rows import check

from firedeck import sums
from firedeck.fasteners import scatter_of
from firedeck.tables import one


@published(__file__, "nut_factors.csv")
def test_nut_factors(row):
    found = one("nut_factors", row["condition"], lambda line: line["condition"] == row["condition"])
    assert float(found["nut_factor"]) == float(row["nut_factor"])


@published(__file__, "joints.csv")
def test_joints_and_torques(row):
    check(row)


def _ten_bolts(figures):
    assert abs(mean(figures) - 34.18) <= 0.005
    assert abs(stdev(figures) - 2.88) <= 0.005
    # two deviations are what we take as scatter from bolt to bolt, to two digits
    assert round(2 * stdev(figures) / mean(figures), 2) == scatter_of("torque-wrench").individual


def _cone_formula():
    modulus, d, face, thick, slope = 207000.0, 12.0, 18.0, 13.0, tan(radians(30))
    wide = 2 * thick * slope + face
    by_hand = pi * modulus * d * slope / log((wide - d) * (face + d) / ((wide + d) * (face - d)))
    found = (
        sums.member_stiffness(frusta="207 GPa/18 mm/13 mm", bolt_diameter="12 mm").results["stiffness"].value
    )
    assert abs(found / by_hand - 1) < 1e-9


def _shares_of_proof(figures):
    names = ("preload_reusable", "preload_permanent", "proof_over_yield")
    rules = [one("bolt_rules", name, lambda line, name=name: line["rule"] == name)["value"] for name in names]
    assert [float(value) for value in rules] == figures
    usual = sums.proof_torque(thread="1/2-13", class_="sae-5", nut_factor="0.2").results["tension"].value
    proof = sums.bolt_strength(thread="1/2-13", class_="sae-5").results["proof_load"].value
    assert abs(usual / proof - figures[0]) < 1e-9


@published(__file__, "formulas.csv")
def test_formulas_and_rules(row):
    figures = [float(figure) for figure in row["figure"].split()]
    match row["id"]:
        case "FAS-112":
            _ten_bolts(figures)
        case "FAS-113":
            _cone_formula()
        case "FAS-126":
            _shares_of_proof(figures)
        case other:
            raise AssertionError(f"{other} has no check")
