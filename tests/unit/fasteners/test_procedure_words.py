"""Words of a procedure: both units, sentences, and the text written back."""

import pytest

from firedeck.fasteners.procedure_reading import parse
from firedeck.fasteners.procedure_settings import read_setting
from firedeck.fasteners.procedure_words import both_units, explain, write
from firedeck.quantity import Kind


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("129 N·m", "129 N·m (95 lbf·ft)"),
        ("95 lb-ft", "95 lb-ft (129 N·m)"),
        ("25-32 lbf·ft", "25-32 lbf·ft (34-43 N·m)"),
        ("200 in-lb", "200 in-lb (22.6 N·m)"),
        ("8 N·m", "8 N·m (5.9 lbf·ft, 71 lbf·in)"),
        ("9 mkg", "9 mkg (88 N·m, 65 lbf·ft)"),
        ("30 N·m (22.14 lbf·ft)", "30 N·m (22.14 lbf·ft)"),
    ],
)
def test_torque_in_both_units(typed: str, printed: str) -> None:
    assert both_units(read_setting(typed, Kind.TORQUE)) == printed


def test_explained_in_words() -> None:
    text = """
    threads sealer
    40 N·m; loosen 90°; repeat from step 1
    second sequence 60 N·m +30° = 30°, at most 60°
    wait 10 min, check at least 50 N·m, run to working heat
    long: hot 65 N·m
    """
    assert explain(parse(text)) == (
        "All: threads sealer.",
        "1. All, in order: bring each to 40 N·m (30 lbf·ft).",
        "2. All, in reverse order: loosen each by 90°.",
        "3. All: do step 1 again, in the same order.",
        "4. All, in the second sequence: bring each to 60 N·m (44 lbf·ft).",
        "5. All, in the second sequence: turn each a further 30° (30° of turn up to here)"
        " (never more than 60° of turn in all).",
        "6. All: wait 10 min.",
        "7. All, in the second sequence: check that none turns below 50 N·m (37 lbf·ft);"
        " one that does is not tight, see the papers.",
        "8. All: run the engine to working heat.",
        "9. Engine hot: long, in order: bring each to 65 N·m (48 lbf·ft).",
    )


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("finger tight, 20 N·m", "finger tight\n20 N·m"),
        ("tighten to 20 N·m plus 2 x 90°", "20 N·m\n+90°\n+90°"),
        ("9 N·m; slacken fully; repeat step 1", "9 N·m\nloosen fully\nrepeat from step 1"),
        ("9 N·m; 12 N·m; repeat steps 1 to 1", "9 N·m\n12 N·m\nrepeat step 1"),
        ("9 N·m; 12 N·m; 15 N·m; repeat steps 1 to 2", "9 N·m\n12 N·m\n15 N·m\nrepeat steps 1 to 2"),
        ("second sequence 9 N·m; first sequence 12 N·m", "second sequence 9 N·m\nfirst sequence 12 N·m"),
        ("1 to 3 and 7 bolts: 9 N·m", "1-3, 7:\n9 N·m"),
        ("9 N·m; let it cool; 9 N·m", "9 N·m\nwait until cold\n9 N·m"),
        ("9 N·m; re-torque after 50 h of running hot", "9 N·m\nafter 50 h hot 9 N·m"),
    ],
)
def test_written_one_way(typed: str, written: str) -> None:
    assert write(parse(typed)) == written
