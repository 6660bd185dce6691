"""Assembly tension, friction classes, scatter and settling of VDI 2230."""

from math import pi, sqrt

from cases import published
from sum_rows import check

from firedeck import sums
from firedeck.tables import one


@published(__file__, "assembly.csv")
def test_assembly_tension_and_torque(row):
    check(row)


@published(__file__, "scatter.csv")
def test_scatter_by_method(row):
    check(row)


@published(__file__, "friction_classes.csv")
def test_friction_classes(row):
    found = one("friction_classes", row["class"], lambda line: line["class"] == row["class"])
    assert float(found["low"]) == float(row["low"])
    assert found["high"] == "" if not row["high"] else float(found["high"]) == float(row["high"])


@published(__file__, "settling.csv")
def test_settling(row):
    found = one(
        "embedding",
        row["id"],
        lambda line: (
            line["load"] == row["load"]
            and float(line["rz_over_um"]) <= float(row["rz_um"]) < float(line["rz_up_to_um"])
        ),
    )
    assert [float(found[name]) for name in ("thread_um", "face_um", "interface_um")] == [
        float(row[name]) for name in ("thread_um", "face_um", "interface_um")
    ]
    if row["load"] == "axial":
        loss = sums.embedding_loss(
            bolt_stiffness="200 kN/mm", member_stiffness="800 kN/mm", Rz=f"{row['rz_um']} µm", interfaces="2"
        ).results["loss"]
        settled = float(row["thread_um"]) + float(row["face_um"]) + 2 * float(row["interface_um"])
        assert abs(loss.value - settled * 160.0) < 1e-6 * loss.value


def _highest_over_lowest(figure):
    ratio = sums.torque_scatter(method="torque-wrench").results["high_over_low"].value
    # the worked example rounds the ratio 1.78 to 1.8: 1.3 %
    assert abs(41.9 / ratio - figure) <= 0.013 * figure


def _torsion_formula():
    found = sums.bolt_tension(
        thread="M10x1.25", torque="65 N·m", thread_friction="0.12", head_friction="0.12", class_="10.9"
    ).results
    size = sums.thread_geometry(thread="M10x1.25").results
    d2, pitch, d3 = (size[name].value for name in ("pitch_diameter", "pitch", "minor_diameter"))
    pull = found["tension"].value
    torsion = pull * (0.159 * pitch + 0.577 * d2 * 0.12) / (pi * ((d2 + d3) / 2) ** 3 / 12)
    # the printed lever leaves out the product of rise and friction: 0.6 % on the torsion
    assert abs(found["torsion_stress"].value / torsion - 1) < 0.008
    together = sqrt((pull / size["stress_area"].value) ** 2 + 3 * found["torsion_stress"].value ** 2)
    assert abs(found["equivalent_stress"].value / together - 1) < 1e-9


def _residual_torsion(figure):
    rule = one("bolt_rules", "residual torsion", lambda line: line["rule"] == "residual_torsion")
    assert float(rule["value"]) == figure


@published(__file__, "formulas.csv")
def test_formulas_and_plain_figures(row):
    match row["id"]:
        case "FAS-076":
            _highest_over_lowest(float(row["figure"]))
        case "FAS-135":
            _torsion_formula()
        case "FAS-136":
            _residual_torsion(float(row["figure"]))
        case other:
            raise AssertionError(f"{other} has no check")
