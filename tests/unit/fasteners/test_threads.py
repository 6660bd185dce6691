"""Names of threads, as people write them."""

import pytest

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners import bearing_of, class_of, thread_of


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("M10", "M10x1.5"),
        ("m10x1.25", "M10x1.25"),
        ("M12 x 1.75", "M12x1.75"),
        ("M12 × 1,75", "M12x1.75"),
        ("M 8", "M8x1.25"),
        ("M11x1.25", "M11x1.25"),
        ("7/16-14", "7/16-14"),
        ("7/16-14 UNC", "7/16-14"),
        ("7/16-14UNC", "7/16-14"),
        ("7/16 - 20 UNF", "7/16-20"),
        ("7/16 UNF", "7/16-20"),
        ("7/16-16 UN", "7/16-16"),
        ("1-1/8-7", "1 1/8-7"),
        ("1 1/8-12 UNF", "1 1/8-12"),
        ("#10-24", "#10-24"),
        ("#10 UNF", "#10-32"),
    ],
)
def test_ways_of_writing(written, name):
    assert thread_of(written).name == name


@pytest.mark.parametrize(
    "written", ["", "M", "M10x", "banana", "M-10", "10", "7/16-14 UNX", "M10x1.25x3", "7-16/14", "#99-1"]
)
def test_what_is_no_thread(written):
    with pytest.raises((OutOfRange, TableGap), match=r"found|no row"):
        thread_of(written)


def test_inch_and_metric_core_units():
    assert thread_of("1/2-13").major_diameter == 12.7
    assert thread_of("1/2-20").pitch == pytest.approx(1.27)
    assert not thread_of("1/2-20").metric


def test_wrong_series_names_the_right_count():
    with pytest.raises(OutOfRange, match="14 threads per inch"):
        thread_of("7/16-20 UNC")


@pytest.mark.parametrize(
    ("written", "name"),
    [("grade 5", "sae-5"), ("SAE 8", "sae-8"), ("sae grade 2", "sae-2"), (" 10.9 ", "10.9")],
)
def test_ways_of_writing_a_class(written, name):
    assert class_of(written, thread_of("3/8-16")).name == name


def test_class_goes_by_size():
    assert class_of("8.8", thread_of("M16")).yield_stress == 640.0
    assert class_of("8.8", thread_of("M18")).yield_stress == 660.0
    assert (
        class_of("sae-5", thread_of("1-8")).proof_stress
        > class_of("sae-5", thread_of("1 1/8-7")).proof_stress
    )


def test_a_class_that_is_not_made_so_large():
    with pytest.raises(TableGap, match=r"9\.8"):
        class_of("9.8", thread_of("M20"))


def test_ring_under_the_head():
    assert bearing_of(thread_of("M12")).mean == pytest.approx((16.63 + 13.5) / 2)
    assert bearing_of(thread_of("1/2-13")).mean == pytest.approx(1.25 * 12.7)
    assert bearing_of(thread_of("M11x1.25")).notes[0].source == "generic-ours"
    typed = bearing_of(thread_of("M12"), 24.0, 13.0)
    assert typed.mean == 18.5
    assert typed.notes == ()
