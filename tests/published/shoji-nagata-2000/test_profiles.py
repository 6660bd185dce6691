"""Gasket stress over the width of a flange, against a published finite-element analysis: 15 % at each printed place."""

import numpy as np
import pytest
from bolted_flange import GASKET_BORE, MEAN, PULL, RAISED, flange
from cases import published


def ours(case, sheet=5.0):
    return getattr(flange(sheet, ring_of_bolts=case != "between_bolts"), case)


def printed(row):
    return np.array([float(stress) for stress in row["stress"].split(";")])


@published(__file__, "profiles.csv")
def test_every_printed_place_is_within_15_per_cent(row):
    miss = ours(row["case"]) / printed(row) - 1.0
    assert np.abs(miss).max() < 0.15


@published(__file__, "profiles.csv")
def test_the_rise_from_bore_to_edge_is_within_a_quarter(row):
    """Nothing was chosen by the rise. Even stress would be inside the 15 %; it is far outside this."""
    found, wanted = ours(row["case"]), printed(row)
    assert (found[-1] - found[0]) / (wanted[-1] - wanted[0]) == pytest.approx(1.0, abs=0.25)


def test_pressure_takes_away_what_is_printed_within_15_per_cent_of_the_stress():
    """Printed: 1.92 MPa at the bore, 0.82 MPa at the edge; ours takes 0.7 and 0.1 MPa more."""
    taken = ours("bolted") - ours("pressurised")
    assert taken[0] == pytest.approx(1.92, abs=0.8)
    assert taken[-1] == pytest.approx(0.82, abs=0.2)
    assert taken[0] > 2.0 * taken[-1]


@published(__file__, "movements.csv")
def test_the_rim_moves_as_printed(row):
    """With bolts as a ring the thickness of the sheet was chosen by this; with single bolts nothing was."""
    found = flange(5.0, ring_of_bolts=row["case"] == "bolted").rim
    assert found == pytest.approx(float(row["movement"]), rel=0.05)


def test_round_the_ring_the_stress_hardly_changes():
    """GAM-067 prints less than 0.03 MPa between bolt and gap; ours is 0.11 MPa: a miss, of 0.8 % of the stress."""
    found = flange(5.0, ring_of_bolts=False)
    assert np.abs(found.through_bolts - found.between_bolts).max() < 0.15


def test_the_wrong_gasket_is_seen():
    """A sheet of 1.5 mm, not 5 mm: places miss by a third, the rise by more than three times."""
    wrong = ours("pressurised", sheet=1.5)
    assert wrong[0] / 10.80 - 1.0 < -0.25


def test_force_balance_gave_the_bore_of_the_gasket():
    assert np.pi * (RAISED**2 - GASKET_BORE**2) * MEAN == pytest.approx(8 * PULL, rel=1e-12)
