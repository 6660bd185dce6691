"""Reading a procedure: what parts it, what belongs together, and every fault as one line with its step."""

import pytest

from firedeck.errors import JobErrors
from firedeck.fasteners.procedure_lines import Act, Place
from firedeck.fasteners.procedure_reading import parse
from firedeck.fasteners.procedure_words import explain, write


def acts(text: str) -> list[str]:
    return [step.act.value for step in parse(text).steps]


def faults(text: str) -> list[str]:
    with pytest.raises(JobErrors) as caught:
        parse(text, "joint.head.procedure.text")
    return str(caught.value).splitlines()


@pytest.mark.parametrize(
    "text",
    [
        "30 N·m\n60 N·m\n+90°",
        "30 N·m; 60 N·m; +90°",
        "30 N·m, 60 N·m, +90°",
        "30 N·m then 60 N·m then +90°",
        "Step 1: 30 N·m; step 2: 60 N·m; step 3: turn 90°",
        "1. 30 N·m\n2. 60 N·m\n3. a further 90°",
        "30 Nm, 60 Nm plus 90°.",
        "tighten to 30 N·m, torque to 60 N·m, turn a further quarter turn",
    ],
)
def test_ways_of_parting(text: str) -> None:
    assert acts(text) == ["torque", "torque", "turn"]


def test_a_comma_without_a_blank_is_a_decimal_comma() -> None:
    assert parse("2,5 kgf·m").final_torque("all").low == pytest.approx(24516.625)
    assert len(parse("2,5 kgf·m, 6,0 kgf·m").steps) == 2


def test_figures_keep_the_text_as_typed() -> None:
    (step,) = parse("48  ft-lb (65 N·m)").steps
    assert (step.setting.text, step.setting.also, step.setting.unit) == ("48 ft-lb", "65 N·m", "lbf·ft")


def test_words_that_stand_alone_belong_to_the_next_part() -> None:
    first, last = parse("60 lb-ft; after 500 miles, cold, 60 lb-ft").steps
    assert (last.after[0].text, last.heat) == ("500 miles", "cold")
    assert first.after == ()


def test_retorque_by_distance_or_time() -> None:
    step = parse("60 N·m; after 1500 km or 30 h cold 60 N·m").steps[1]
    assert [one.kind.value for one in step.after] == ["distance", "time"]
    assert [one.low for one in step.after] == [1.5e9, 108000.0]


def test_bare_retorque_takes_the_last_torque_of_its_group() -> None:
    procedure = parse("long: 40 N·m, 90 N·m\nshort: 30 N·m\nlong: re-torque after 50 h hot")
    assert procedure.steps[-1].setting.text == "90 N·m"


def test_repeat_leaves_the_loosening_before_it_out() -> None:
    step = parse("40 N·m; 80 N·m; wait 10 min; loosen fully; repeat from step 1").steps[-1]
    assert (step.first, step.last) == (1, 2)


def test_repeat_counts_by_the_papers_own_numbers() -> None:
    step = parse("1. oil\n2. 30 N·m\n3. 60 N·m\n4. loosen fully\n5. repeat from step 3").steps[-1]
    assert (step.first, step.last) == (2, 2)


def test_repeat_in_a_group_takes_its_own_steps_and_those_for_all() -> None:
    text = "20 N·m\nlong: 60 N·m\nshort: 30 N·m\nlong: loosen fully; repeat steps 1 to 2"
    rounds = [step.setting.text for step in parse(text).rounds("long") if step.act is Act.TORQUE]
    assert rounds == ["20 N·m", "60 N·m", "20 N·m", "60 N·m"]


def test_lubricant_by_place_and_on_the_line_of_a_torque() -> None:
    procedure = parse("threads sealer, heads oiled; 60 N·m\nshort: dry 24 N·m")
    assert [(line.kind.value, line.place) for line in procedure.lubrication("long")] == [
        ("sealer", Place.THREADS),
        ("oiled", Place.HEADS),
    ]
    assert [line.kind.value for line in procedure.lubrication("short")] == ["dry"]


def test_a_turn_after_the_run_belongs_to_fitting_one_after_a_distance_does_not() -> None:
    assert parse("60 N·m, +30°, run to working heat, +30°").total_angle("all").text == "60°"
    assert parse("60 N·m, +30°, after 1000 km +30°").total_angle("all").text == "30°"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("", "step 1: found ''; no step is written"),
        ("60", "step 1: found '60'; say the unit: 60 N·m or 60 lb-ft?"),
        ("60 pounds", "step 1: found '60 pounds'; pounds of what? 60 lb-ft or 60 lb-in?"),
        ("1,100 in-lb", "step 1: found '1,100 in-lb'; "),
        ("20 N·m; gently", "step 2: found 'gently'; a step is TORQUE, +ANGLE, loosen ANGLE"),
        ("20 N·m,+90°", "step 1: found '20 N·m,+90°'; a comma parts two steps only with a blank"),
        ("20 N·m; loosen", "step 2: found 'loosen'; say how far"),
        ("20 N·m; repeat", "step 2: found 'repeat'; repeat from step N"),
        ("20 N·m; repeat from step 4", "step 2: found 'repeat from step 4'; a step of this group before"),
        ("20 N·m; repeat from step 2", "step 2: found 'repeat from step 2'; a step of this group before"),
        ("long: 20 N·m\nshort: 9 N·m; repeat from step 1", "step 3: found 'repeat from step 1'"),
        (
            "9 N·m; loosen fully; repeat step 1; repeat steps 1 to 3",
            "step 4: found 'repeat steps 1 to 3'; the",
        ),
        ("9 N·m; wait 5 min; repeat step 2", "step 3: found 'repeat step 2'; nothing is tightened"),
        ("+90°", "step 1: found a turn; a torque (or finger tight) before it"),
        ("20 N·m; loosen fully; +90°", "step 3: found a turn; a torque"),
        ("loosen 90°; 20 N·m", "step 1: found a loosening; something tightened before it"),
        ("20 N·m; loosen fully", "step 2: found a loosening at the end; the torque or turn that follows"),
        ("at least 20 N·m; 30 N·m", "step 1: found a torque to check; something tightened"),
        ("20 N·m +45° +45° = 100°", "step 3: found total 100°; the turns add up to 90°"),
        ("20 N·m +90°, at most 100°, after 9 h +45°", "step 2: found at most 100°; the turns add up to 135°"),
        ("20 N·m (30 lb-ft)", "step 1: found '20 N·m (30 lb-ft)'; the figure in brackets is another"),
        ("32-25 lb-ft", "step 1: found '32-25 lb-ft'; the smaller figure first"),
        ("0 N·m", "step 1: found '0 N·m'; above nought"),
        ("20 N·m +2000°", "found '20 N·m +2000°'; a tightening turn of at most two turns"),
        ("20 N·m, total 90°", "found 'total 90°'; a sum of turns stands behind the last turn"),
        ("20 N·m; after 1000 km", "step 2: found 'nothing more'; say what to do"),
        ("20 N·m; after 30 N·m +3°", "step 2: found 'after 30 N·m +3°'; "),
        ("20 N·m +90°; re-torque after 50 h", "step 3: found 're-torque'; say the torque or the turn"),
        ("step 1: 20 N·m; step 3: 40 N·m", "step 2: found '40 N·m'; step 2 of the papers"),
        ("8-1: 20 N·m", "step 1: found '8-1'; a span goes up"),
        ("long?: 20 N·m", "step 1: found 'long?'; a group is a name or labels"),
        (
            "20 N·m, long: 40 N·m",
            "step 1: found '20 N·m, long'; a group is a name or labels and a colon at the",
        ),
        ("20 N·m; long:", "group long: found nothing; at least one step"),
        ("20 N·m; run", "step 2: found 'run'; say how long or until what"),
        ("oiled; dry; 20 N·m", "group all: found 'dry'; one lubricant: oiled or dry"),
        ("threads oiled and heads dry; 20 N·m", "one lubricant to a part"),
        ("20 ± 25 N·m", "step 1: found '20 ± 25 N·m'; above nought"),
        ("20 ± 2/0 N·m", "does not divide by nought"),
    ],
)
def test_a_fault_is_one_line_with_its_step(text: str, line: str) -> None:
    said = faults(text)
    assert len(said) == 1
    assert said[0].startswith("joint.head.procedure.text")
    assert line in said[0]


def test_all_faults_at_once_and_numbers_stay_right() -> None:
    said = faults("60; 40 N·m; loosen; 80 N·m; +12")
    assert [line.split(":")[0].split()[-1] for line in said] == ["1", "3", "5"]


def test_too_long_and_too_many() -> None:
    assert "at most 20000 characters" in faults("x" * 20001)[0]
    assert "at most 200 steps" in faults("9 N·m\n" * 300)[0]


def test_not_a_text() -> None:
    with pytest.raises(JobErrors, match="as a text in quotes"):
        parse(30)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "text",
    [
        "60 N·m; one at a time: loosen 90°; 62 N·m",
        "60 N·m; one bolt at a time loosen 90°, 62 N·m",
        "60 N·m; each in turn: loosen 90°, then 62 N·m",
        "60 N·m\nloosen 90° bolt by bolt\n62 N·m",
        "60 N·m; after 1000 km cold, one by one, loosen 90°; 62 N·m",
    ],
)
def test_one_at_a_time_is_a_way_of_working_and_no_group(text):
    steps = parse(text).steps
    assert [step.group for step in steps] == ["all"] * 3
    assert [step.singly for step in steps] == [False, True, False]
    assert parse(write(parse(text))) == parse(text)


def test_one_at_a_time_is_said_and_its_reverse_order_is_not():
    line = explain(parse("60 N·m; one at a time: loosen 90°; 62 N·m"))[1]
    assert "one at a time, in order" in line
    assert "the next step on it before the next one is touched" in line
