"""The used gasket as a witness."""

import pytest
from unit.answers.cutting import ask, check

from firedeck.job.schema.joint import OldGasket
from firedeck.tables import rows

Q = "old-gasket-says"
OLD = "joint.head.gasket.old"


def test_the_example_is_read_with_ring_track_and_print():
    answer = ask(Q)
    assert (answer.state, answer.action) == ("decided", "read-as-listed")
    assert check(answer, "spread").value == pytest.approx(0.09)
    assert "3" in answer.headline
    assert any("asbestos" in line for line in answer.cautions)


def test_every_sign_of_the_document_has_its_reading():
    signs = OldGasket.model_fields["signs"].annotation.__args__[0].__args__
    assert {row["sign"] for row in rows("old_gasket_signs")} == set(signs)


@pytest.mark.parametrize("sign", [row["sign"] for row in rows("old_gasket_signs")])
def test_each_sign_gives_a_line_with_where_to_look(sign):
    answer = ask(Q, {OLD: {"signs": [sign]}})
    assert answer.action == "read-as-listed"
    assert answer.work[0].caution


def test_a_gasket_nobody_read_is_kept():
    answer = ask(Q, {OLD: {"construction": "composite"}})
    assert answer.state == "open"
    assert "keep it" in answer.headline


def test_one_ring_alone_has_no_spread():
    answer = ask(Q, {OLD: {"ring_thickness": {"1": "1.2 mm"}}})
    assert [one.name for one in answer.checks] == ["things read on the used gasket"]
