"""One way to a figure, given whole: mixed or incomplete ways are refused in one line."""

import pytest

from firedeck.cylinder.chamber_cut import chamber_cut
from firedeck.cylinder.cut_for_ratio import cut_for_ratio
from firedeck.cylinder.volumes import compression_ratio
from firedeck.errors import JobError, OutOfRange

PARTS = {
    "bore": 86.0,
    "stroke": 86.0,
    "chamber_volume": 45000.0,
    "gasket_thickness": 1.2,
    "gasket_bore": 87.0,
    "deck_clearance": 0.3,
}
VOLUMES = {"swept_volume": 499557.0, "clearance_volume": 52134.0}


def refusal(call: object, **given: float) -> str:
    with pytest.raises(JobError) as caught:
        call(**given)  # type: ignore[operator]
    text = str(caught.value)
    assert "\n" not in text
    return text


@pytest.mark.parametrize("name", PARTS)
def test_a_part_left_out_is_named(name: str) -> None:
    text = refusal(compression_ratio, **{key: value for key, value in PARTS.items() if key != name})
    assert f"without {name};" in text


@pytest.mark.parametrize("name", VOLUMES)
def test_a_volume_left_out_is_named(name: str) -> None:
    text = refusal(compression_ratio, **{key: value for key, value in VOLUMES.items() if key != name})
    assert f"without {name};" in text


@pytest.mark.parametrize("name", [*PARTS, "dish_volume", "dome_volume", "crevice_volume"])
def test_parts_and_volumes_are_not_mixed(name: str) -> None:
    text = refusal(compression_ratio, **VOLUMES, **{name: 1.0})
    assert f"with {name};" in text
    assert "not both" in text


def test_nothing_at_all() -> None:
    assert "found nothing without" in refusal(compression_ratio)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"cut": 0.2}, "found cut without plan_area"),
        ({"cut": 0.2, "plan_area": 5000.0, "rim_length": 250.0}, "with rim_length"),
        ({"cut": 0.2, "volume_before": 45000.0}, "without volume_after"),
        ({"plan_area": 5000.0}, "without cut"),
        ({"cut": 0.2, "plan_area": 5000.0, "volume_after": 44000.0}, "with volume_after"),
    ],
)
def test_chamber_cut(given: dict[str, float], said: str) -> None:
    assert said in refusal(chamber_cut, **given)


def test_cut_for_ratio_wants_exactly_one_area() -> None:
    now = {"swept_volume": 500000.0, "clearance_volume": 55000.0, "ratio": 11.0}
    assert "without plan_area" in refusal(cut_for_ratio, **now)
    assert "with volume_per_cut" in refusal(cut_for_ratio, **now, plan_area=5000.0, volume_per_cut=5000.0)


@pytest.mark.parametrize("name", ["bore", "stroke", "chamber_volume", "gasket_thickness", "gasket_bore"])
@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf")])
def test_sizes_are_above_nought(name: str, value: float) -> None:
    with pytest.raises(OutOfRange, match=name):
        compression_ratio(**{**PARTS, name: value})


def test_no_room_left() -> None:
    with pytest.raises(OutOfRange, match="no room for gas"):
        compression_ratio(**PARTS, dome_volume=60000.0)
