"""Figures of castings and steels."""

import pytest
from cases import published

from firedeck.tables import rows
from firedeck.tables.materials import material


def _range(text, factor=1.0):
    return pytest.approx(tuple(float(end) * factor for end in text.split("..")), rel=1e-12)


@published(__file__, "materials.csv")
def test_figures(row):
    found = material(row["material"])
    pairs = [("modulus_gpa", found.modulus, 1e3), ("expansion", found.expansion, 1e-6)]
    pairs += [(name, getattr(found, name), 1.0) for name in ("tensile", "yield_stress", "shear")]
    looked_at = [name for name, _, _ in pairs if row[name]]
    assert looked_at
    for name, ends, factor in pairs:
        if row[name]:
            assert ends == _range(row[name], factor)
    if row["poisson"]:
        assert found.poisson == float(row["poisson"])


@published(__file__, "grey_iron.csv")
def test_grey_iron(row):
    moduli = [float(value) for value in row["modulus_gpa"].split("/")]
    if row["id"] == "FAS-157":
        for number, modulus in zip(row["classes"].split("/"), moduli, strict=True):
            assert material(f"grey-iron-{number}").usual_modulus == modulus * 1e3
    else:
        irons = [float(line["modulus_high"]) for line in rows("materials") if line["family"] == "grey-iron"]
        assert max(irons) == moduli[0]


@published(__file__, "grey_iron_strength.csv")
def test_strength_of_grey_iron_lies_between_its_ends(row):
    iron = material("grey-iron")
    assert iron.shear is not None
    assert iron.shear[0 if row["class"] == "20" else 1] == pytest.approx(float(row["shear_mpa"]), abs=0.5)
    ends = (float(row["tensile_low_mpa"]), float(row["tensile_high_mpa"]))
    assert iron.tensile is not None
    assert iron.tensile[0] <= ends[0]
    assert ends[1] <= 1.1 * iron.tensile[1]
