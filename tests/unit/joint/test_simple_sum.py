"""Clamp against gas force: shares, band, and the two words it may say."""

import pytest

from firedeck.errors import JobError, OutOfRange
from firedeck.joint.simple_sum import (
    Bore,
    Fastener,
    Scatter,
    SimpleSum,
    Standing,
    against_as_built,
    clamp_against_gas,
    clamp_wanted,
    shared_out,
)

BORES = [Bore(str(n + 1), 96.0 * n, 0.0, 90.0) for n in range(4)]
BOLTS = [Fastener(f"{side}{n}", 96.0 * n - 48.0, 52.0 * side, 50000.0) for n in range(5) for side in (-1, 1)]


def four(peak: float = 8.0, scatter: Scatter = Scatter(), tension: float = 50000.0) -> SimpleSum:  # noqa: B008
    bolts = [Fastener(bolt.label, bolt.x, bolt.y, tension) for bolt in BOLTS]
    return clamp_against_gas(BORES, bolts, peak, scatter)


def test_every_pull_is_given_out_once() -> None:
    assert sum(bore.clamp for bore in four().bores) == pytest.approx(10 * 50000.0)
    for bolt in BOLTS:
        assert sum(shared_out(bolt, BORES).values()) == pytest.approx(1.0)


def test_inner_bores_have_less_than_end_bores() -> None:
    found = four()
    assert found.of("1").clamp == pytest.approx(2 * 50000.0 + 2 * 25000.0)
    assert found.of("2").clamp == pytest.approx(4 * 25000.0)
    assert found.weakest in ("2", "3")


def test_single_scatter_averages_out_and_common_does_not() -> None:
    common, single = four(scatter=Scatter(0.2, 0.0)), four(scatter=Scatter(0.0, 0.2))
    ratio = common.of("2").ratio
    assert common.of("2").band.low == pytest.approx(0.8 * ratio)
    assert single.of("2").band.low == pytest.approx(0.9 * ratio)


def test_more_gas_is_worse_and_never_better_than_cannot_rank() -> None:
    stock = four()
    assert against_as_built(four(11.0), stock, clamp_doubt=0.0).standing is Standing.WORSE
    assert against_as_built(four(5.0), stock, clamp_doubt=0.0).standing is Standing.CANNOT_RANK
    assert against_as_built(stock, stock, clamp_doubt=0.0).standing is Standing.CANNOT_RANK
    assert against_as_built(four(tension=40000.0), stock, clamp_doubt=0.1).standing is Standing.WORSE
    assert against_as_built(four(tension=40000.0), stock, clamp_doubt=0.3).standing is Standing.CANNOT_RANK


def test_it_has_no_word_for_holds() -> None:
    assert {standing.value for standing in Standing} == {"worse", "cannot-rank"}


def test_refusals() -> None:
    with pytest.raises(JobError, match="no bore or no fastener"):
        clamp_against_gas([], BOLTS, 8.0, Scatter())
    with pytest.raises(OutOfRange, match="peak"):
        four(0.0)
    with pytest.raises(OutOfRange, match="tension of"):
        four(tension=-1.0)
    with pytest.raises(OutOfRange, match="scatter"):
        four(scatter=Scatter(1.5, 0.0))
    with pytest.raises(JobError, match="no fastener near it"):
        clamp_against_gas([*BORES, Bore("9", 5000.0, 0.0, 90.0)], BOLTS, 8.0, Scatter())
    with pytest.raises(JobError, match="known: 1"):
        four().of("9")
    with pytest.raises(JobError, match="other bores"):
        against_as_built(four(), clamp_against_gas(BORES[:2], BOLTS, 8.0, Scatter()), clamp_doubt=0.0)
    with pytest.raises(OutOfRange, match="clamp_doubt"):
        against_as_built(four(), four(), clamp_doubt=1.0)
    with pytest.raises(OutOfRange, match="clamp ratio"):
        clamp_wanted(1000.0, 0.0, 4)
