"""Clamp over gas force: the figures of a trade article, by the plain sum and bolt by bolt round a bore."""

import math

import pytest
from cases import Row, published

from firedeck.cylinder.gas_force import gas_force
from firedeck.joint.simple_sum import Bore, Fastener, Scatter, clamp_against_gas, clamp_wanted
from firedeck.quantity import Kind, parse


def pounds(text: str) -> float:
    return parse(f"{text} lbf", Kind.FORCE).value


@published(__file__, "clamp_ratio.csv")
def test_clamp_ratio(row: Row) -> None:
    peak, bore = parse("1100 psi", Kind.PRESSURE_GAUGE).value, parse("4.0 in", Kind.LENGTH).value
    force = gas_force(peak, bore).force
    within = 0.0001 if row["id"] == "GAM-027" else 0.003
    assert force == pytest.approx(pounds(row["gas_force"]), rel=within)
    whole, each = clamp_wanted(force, 3.0, int(row["bolts"]))
    assert whole.value == pytest.approx(pounds(row["clamp"]), rel=0.003)
    assert each.value == pytest.approx(pounds(row["each"]), rel=0.003)
    angles = [2 * math.pi * n / int(row["bolts"]) for n in range(int(row["bolts"]))]
    round_it = [Fastener(str(a), 70 * math.cos(a), 70 * math.sin(a), each.value) for a in angles]
    found = clamp_against_gas([Bore("1", 0.0, 0.0, bore)], round_it, peak, Scatter())
    assert found.of("1").ratio == pytest.approx(3.0)
