"""Tests read together, and the gas: figures against sums done another way."""

from math import asin, cos, pi, sin

import pytest
from unit.answers.testing import example, found, four, vee

from firedeck.answers.gas_said import of_the_gas
from firedeck.findings.air_tests import whip_of
from firedeck.findings.banks import neighbours_of
from firedeck.findings.gas import Gas, force_on_head
from firedeck.findings.tests import TestsRead
from firedeck.job import read_text
from firedeck.trace import Missing


def test_neighbours_stand_under_one_head():
    job = vee("")
    assert neighbours_of(job, "3") == ("1", "5")
    assert neighbours_of(job, "7") == ("5",)
    assert neighbours_of(job, "2") == ("4",)


def test_nothing_tested_is_missing():
    assert isinstance(found(four()).get(TestsRead), Missing)


def test_the_air_on_the_crank_by_another_way():
    whip = whip_of(example())
    radius, rod, area = 43.0, 143.0, pi / 4 * 86.0**2

    def travel(angle: float) -> float:
        return radius * (1 - cos(angle)) + rod * (1 - cos(asin(radius * sin(angle) / rod)))

    step = 1e-6
    ten = pi / 18
    lever = (travel(ten + step) - travel(ten - step)) / (2 * step)
    assert whip.at_ten.torque == pytest.approx(whip.supply * area * lever, rel=1e-6)
    assert whip.most.torque > whip.at_ten.torque
    assert whip.supply_said


def test_without_a_rod_there_is_no_figure_for_the_crank():
    assert whip_of(four(engine='bore = "80 mm"\nstroke = "80 mm"')) is None


def test_peak_of_the_papers_goes_before_our_own():
    gas = found(example(running__peak_pressure="80 bar")).get(Gas)
    assert gas.peak.from_papers
    assert gas.peak.value == pytest.approx(8.0)


def test_boost_before_is_the_engine_as_it_was():
    rest = '[running]\nboost = "0.5 bar"\nboost_before = "0 bar"'
    gas = found(four(rest, engine='fuel = "petrol"\nratio = "9:1"')).get(Gas)
    assert 1.2 < gas.share.value < 2.0
    assert not gas.same


def test_unknown_boost_on_a_turbo_engine_gives_no_peak():
    gas = found(four(engine='fuel = "petrol"\nratio = "9:1"\ncharging = "turbocharged"')).get(Gas)
    assert gas.peak is None
    assert "boost" in gas.missing[0].measure


def test_no_ratio_no_gas():
    assert isinstance(found(four()).get(Gas), Missing)


def test_oil_that_would_fill_the_chamber_is_left_out():
    read = found(example(tests__conditions__oil_volume="80 cc")).get(TestsRead)
    assert read.compression.spread.oil is None
    assert read.compression.spread.wet


BOOST = '[engine]\narrangement = "inline"\ncylinders = ["1"]\nfuel = "petrol"\nratio = "9"\nbore = "80 mm"\n'
GAS = (
    "format = 0\n[job]\ntitle = 'Invented'\n"
    + BOOST
    + "[running]\nboost = '1 bar'\n{}\n[[joint]]\nname = 'head'\n{}\n"
)


def said_of_gas(running: str = "", joint: str = "") -> str:
    job = read_text(GAS.format(running, joint))
    gas = found(job).get(Gas)
    return " ".join(note.text for note in of_the_gas(job, job.joints[0], gas))


def test_the_peak_never_stands_without_standard_knock_and_force():
    text = said_of_gas("boost_before = '6 psi'")
    assert "As it left the factory it was" in text
    assert "light adds 0.2 bar" in text
    assert "the ring is wider" in text
    assert "not known: write the boost before" in said_of_gas()
    assert "nothing that makes it has changed" in said_of_gas("boost_before = '1 bar'")


def test_the_force_acts_inside_the_gasket_where_its_bore_is_known():
    new = "[[joint.gasket.candidates]]\nname = 'one'\nbore = '3.2 in'"
    job = read_text(GAS.format("", new))
    pushed = force_on_head(job, job.joints[0], 8.0)
    assert pushed.force == pytest.approx(8.0 * pi / 4 * 81.28**2)
    assert "the gasket's bore" in said_of_gas("", new)
