"""A weighed head."""

import pytest
from unit.joint.geometry.invented import ALLOY, three

from firedeck.errors import OutOfRange
from firedeck.joint.geometry.castings import head_section
from firedeck.joint.geometry.mesh import PREVIEW, head_body, scaled
from firedeck.joint.geometry.weight import metal_volume, section_of_weight

SECTION = head_section("aluminium-overhead-cam", 70.0)
DENSITY = 2.7e-9


def mass(section):
    return DENSITY * metal_volume(head_body(three(), section, ALLOY, scaled(PREVIEW, 70.0)))


def test_the_section_found_weighs_what_was_weighed():
    found = section_of_weight(three(), SECTION, 1.05 * mass(SECTION), DENSITY)
    assert mass(found) == pytest.approx(1.05 * mass(SECTION), rel=1e-3)
    assert found.ports > SECTION.ports


@pytest.mark.parametrize("share", [0.5, 2.0])
def test_a_mass_this_section_cannot_have_is_refused(share):
    with pytest.raises(OutOfRange, match="kg for this section"):
        section_of_weight(three(), SECTION, share * mass(SECTION), DENSITY)
