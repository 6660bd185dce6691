"""Tightening into yield: tension goes with yield strength and falls with friction in the thread."""

from cases import published

from firedeck import sums


def _tension(yield_stress, friction):
    return (
        sums.assembly_tension(
            thread="M10x1.25",
            yield_stress=f"{yield_stress} MPa",
            thread_friction=str(friction),
            head_friction="0.12",
            utilisation="1",
        )
        .results["tension"]
        .value
    )


@published(__file__, "yield_tightening.csv")
def test_yield_tightening(row):
    assert row["id"] == "FAS-134"
    assert abs(_tension(1100, 0.12) / _tension(940, 0.12) - 1100 / 940) < 1e-9
    assert _tension(940, 0.08) > _tension(940, 0.12) > _tension(940, 0.16)
    # and the tension an angle leaves is held at yield, with the rest of the turn as lasting stretch
    turned = [
        sums.angle_tension(
            thread="M10x1.25",
            angle=f"{angle} deg",
            bolt_stiffness="150 kN/mm",
            member_stiffness="500 kN/mm",
            class_="10.9",
        ).results
        for angle in (150, 180)
    ]
    assert turned[0]["tension"].value == turned[1]["tension"].value
    assert turned[0]["plastic_stretch"].value < turned[1]["plastic_stretch"].value
