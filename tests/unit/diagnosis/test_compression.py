"""Compression rules side by side, suspects, neighbours, and what stands exactly at a rule."""

import pytest

from firedeck.diagnosis import CompressionSpread, compression_signs, compression_spread
from firedeck.diagnosis.spread_rules import rule_from_text, rules_in_use
from firedeck.diagnosis.who_is_low import alike_runs, neighbours, pattern_of
from firedeck.errors import OutOfRange
from firedeck.quantity import Kind, parse_list


def psi(text: str) -> tuple[float, ...]:
    return tuple(one.value for one in parse_list(f"{text} psi", Kind.PRESSURE_GAUGE))


def read(dry: str, wet: str | None = None, **more: object) -> CompressionSpread:
    return compression_spread(psi(dry), wet=psi(wet) if wet else None, **more)  # type: ignore[arg-type]


def texts(spread: CompressionSpread) -> str:
    return " ".join(note.text for note in (*spread.notes, *spread.assumed))


def test_ratio_and_spread() -> None:
    found = read("160/128/168")
    assert found.lowest_over_highest == pytest.approx(128 / 168)
    assert found.spread == pytest.approx(psi("40/1")[0])


def test_rules_disagree_and_say_so() -> None:
    found = read("137/133/119/133")
    assert found.outcome_by_rule == {"10 psi": "fails", "10 %": "fails", "15 %": "holds", "25 %": "holds"}
    assert found.disagree
    assert "The rules disagree: passes by 15 %, 25 %; fails by 10 psi, 10 %." in texts(found)


def test_rules_that_agree_say_so() -> None:
    found = read("107/60/80/105")
    assert not found.disagree
    assert "All rules say the same" in texts(found)


@pytest.mark.parametrize(
    ("readings", "rule"),
    [
        ("160/150/160", "10 psi"),
        ("160/144/160", "10 %"),
        ("160/136/160", "15 %"),
        ("160/120/160", "25 %"),
        ("173/129.75/170", "25 %"),
    ],
)
def test_exactly_at_the_rule(readings: str, rule: str) -> None:
    found = read(readings)
    assert found.outcome_by_rule[rule] == "at-limit"
    assert f"exactly at the limit by {rule}" in texts(found)


def test_the_book_rule_comes_first_and_beside_the_others() -> None:
    found = read("168/126/160", limit_rule="75 % of the highest")
    assert list(found.outcome_by_rule) == ["75 %", "10 psi", "10 %", "15 %", "25 %"]
    assert found.outcome_by_rule["75 %"] == "at-limit"


def test_a_few_psi_on_a_diesel_make_no_suspect() -> None:
    found = read("400/388/395/402")
    assert found.outcome_by_rule["10 psi"] == "fails"
    assert found.suspects == ()
    assert "does not clear the head gasket" in texts(found)


def test_a_book_spread_makes_suspects() -> None:
    assert read("400/388/395/402", limit_rule="10 psi").suspects == (2,)


@pytest.mark.parametrize(
    ("readings", "pattern"),
    [
        ("150/148/149", "even"),
        ("150/100/149", "one low: 2"),
        ("107/60/80/105", "adjacent pair low: 2-3"),
        ("115/30/30/115", "adjacent pair low: 2-3"),
        ("75/15/105/105", "adjacent pair low but unequal: 1-2"),
        ("180/30/0/0", "adjacent pair low: 3-4; low beside it: 2"),
        ("95/140/180/40", "adjacent pair low: 1-2; one low: 4"),
        ("60/150/70/150", "one low: 1; one low: 3"),
        ("50/50/50/150", "adjacent 3 low: 1-2-3"),
    ],
)
def test_pattern(readings: str, pattern: str) -> None:
    assert read(readings).pattern == pattern


@pytest.mark.parametrize(
    ("readings", "sign"),
    [
        ("150/148/149/150", "even"),
        ("150/100/149/150", "one-low"),
        ("107/60/80/105", "adjacent-pair-low"),
        ("75/15/105/105", "several-low"),
        ("50/50/50/150", "several-low"),
        ("180/30/0/0", "adjacent-pair-low"),
    ],
)
def test_one_outcome_for_the_evidence(readings: str, sign: str) -> None:
    signs = compression_signs(read(readings))
    assert [name for name, seen in signs.items() if seen] == [f"compression-{sign}"]
    assert len(signs) == 4


def test_wet_sign_speaks_of_the_low_ones_only() -> None:
    assert compression_signs(read("125/110/100/125", "145/120/125/135"))["wet-gain-on-low"] is True
    assert compression_signs(read("75/15/105/105", "85/25/120/120"))["wet-gain-on-low"] is False
    assert "wet-gain-on-low" not in compression_signs(read("150/149/150", "160/160/160"))


def test_neighbours_and_runs() -> None:
    assert neighbours((1, 2, 4, 5, 6)) == ((1, 2), (4, 5, 6))
    assert alike_runs((1.0, 0.4, 0.1), (2, 3)) == ((2,), (3,))
    assert pattern_of((1.0, 1.0), ()) == "even"


@pytest.mark.parametrize("text", ["bananas", "75", "0 %", "100 %", "120 %", "-5 psi", "25 mm", ""])
def test_rules_nobody_can_read(text: str) -> None:
    with pytest.raises(OutOfRange, match="limit_rule") as fault:
        rule_from_text(text)
    assert "25 psi" in str(fault.value)


@pytest.mark.parametrize(
    ("dry", "wet", "says"),
    [
        ((1.0,), None, "two cylinders"),
        ((1.0, -0.1), None, "cylinder 2"),
        ((0.0, 0.0), None, "every cylinder"),
        ((1.0, 1.0), (1.0, 1.0, 1.0), "as many as dry"),
    ],
)
def test_bad_readings(dry: tuple[float, ...], wet: tuple[float, ...] | None, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        compression_spread(dry, wet=wet)


def test_every_rule_names_its_source() -> None:
    assert {rule.source for rule in rules_in_use()} == {"common-practice"}
