"""Rules of tightening procedures and orders that hold whatever is typed."""

import math

from hypothesis import given, settings
from hypothesis import strategies as st

from firedeck.errors import FiredeckError, JobErrors
from firedeck.fasteners.order import FastenerPlace, tightening_order
from firedeck.fasteners.procedure_reading import parse
from firedeck.fasteners.procedure_words import both_units, explain, write

PIECES = st.sampled_from(
    [
        "30 N·m",
        "60 lb-ft",
        "200 in-lb",
        "9 mkg",
        "2,5 kgf·m",
        "+90°",
        "+1/4 turn",
        "25-32 lb-ft",
        "60 ± 5 N·m",
        "loosen fully",
        "loosen 90°",
        "loosen one turn",
        "one at a time: loosen 90°",
        "loosen a quarter turn one by one",
        "repeat from step 1",
        "repeat step 2",
        "repeat steps 1 to 2",
        "wait 10 min",
        "wait until cold",
        "run to 80 °C",
        "after 1000 km cold +30°",
        "after 50 h hot 60 N·m",
        "re-torque after 9 h",
        "at least 20 N·m",
        "check at least 50 N·m",
        "oiled",
        "dry",
        "threads sealer",
        "long: 20 N·m",
        "1-8, 11:",
        "all:",
        "short:",
        "second sequence 70 N·m",
        "first sequence",
        "finger tight",
        "total 90°",
        "= 180°",
        "at most 200° in all",
        "step 1: 30 N·m",
        "2. 40 N·m",
        "cold",
        "hot",
        "then",
        "30 N·m (22 lb-ft)",
        "2 x 90°",
        "20 N·m +45° +45° = 90°",
        "plus",
        "60",
        "+",
        ":",
        ",",
        "°",
        "1-8",
        "tighten to",
        "turn a further 60°",
    ]
)
PARTERS = st.sampled_from(["\n", "; ", ", ", " then ", " ", ","])
MIXED = st.lists(st.tuples(PIECES, PARTERS), max_size=10).map(lambda cut: "".join(a + b for a, b in cut))
SOUND = st.lists(
    st.sampled_from(
        [
            "40 N·m",
            "+60°",
            "90 N·m, loosen fully, 50 N·m",
            "oiled",
            "long: 30 N·m",
            "short bolts: 20 lb-ft, +1/4 turn",
            "all: 60 N·m",
            "second sequence 70 N·m",
            "1-4, 7: 50 N·m",
            "after 1000 km cold 60 N·m",
            "wait 5 min",
            "run to working heat",
            "check at least 9 N·m",
            "30 N·m, 45 N·m, repeat step 1",
            "hot 55 N·m",
        ]
    ),
    max_size=9,
).map(lambda lines: "\n".join(["25 N·m", *lines]))


def faults(text: str) -> list[FiredeckError]:
    """All faults of a text, none when it reads; any other error goes through."""
    try:
        parse(text)
    except JobErrors as error:
        return list(error.faults)
    return []


class TestReading:
    """No text raises anything but an error meant for a person, one line for each fault."""

    @given(st.text(max_size=120) | MIXED)
    @settings(max_examples=400, deadline=None)
    def test_only_our_own_errors(self, text: str) -> None:
        for fault in faults(text):
            assert str(fault).startswith("procedure")
            assert len(str(fault).splitlines()) == 1

    @given(MIXED | SOUND)
    @settings(max_examples=400, deadline=None)
    def test_what_reads_comes_back_the_same(self, text: str) -> None:
        try:
            procedure = parse(text)
        except FiredeckError:
            return
        assert parse(write(procedure)) == procedure
        assert len(explain(procedure)) == len(procedure.lines)

    @given(SOUND)
    @settings(max_examples=200, deadline=None)
    def test_sound_texts_read(self, text: str) -> None:
        procedure = parse(text)
        for group in ("long", "short", "1", "other"):
            assert procedure.final_torque(group) is not None
            assert set(procedure.retorques(group)) <= set(procedure.rounds(group))
            assert [step.number for step in procedure.steps] == list(range(1, len(procedure.steps) + 1))

    @given(st.integers(1, 400), st.integers(0, 300))
    def test_both_units_say_the_same_torque(self, torque: int, spread: int) -> None:
        (step,) = parse(f"{torque}-{torque + spread} N·m").steps
        assert step.setting is not None
        assert math.isclose(step.setting.low, torque * 1000.0)
        assert both_units(step.setting).startswith(f"{torque}-{torque + spread} N·m (")


COORDINATES = st.integers(-400, 400).map(float)
PLACES = st.lists(
    st.tuples(COORDINATES, COORDINATES, st.sampled_from([None, 8.0, 10.0, 12.0])),
    min_size=1,
    max_size=20,
    unique_by=lambda spot: spot[:2],
).map(lambda spots: [FastenerPlace(str(at), x, y, size) for at, (x, y, size) in enumerate(spots)])


class TestOrder:
    """Each fastener once, from the middle, whatever the unit, the place of the origin or the typing order."""

    @given(PLACES)
    def test_each_once_and_loosening_is_the_reverse(self, places: list[FastenerPlace]) -> None:
        order = tightening_order(places)
        assert sorted(order.labels) == sorted(place.label for place in places)
        assert order.loosening == tuple(reversed(order.labels))

    @given(PLACES)
    def test_starts_nearest_the_middle_among_the_thickest(self, places: list[FastenerPlace]) -> None:
        order = tightening_order(places)
        most = max(place.diameter or 0.0 for place in places)
        thick = {place.label: place for place in places if (place.diameter or 0.0) == most}
        x = math.fsum(place.x for place in thick.values()) / len(thick)
        y = math.fsum(place.y for place in thick.values()) / len(thick)
        reach = {label: math.hypot(place.x - x, place.y - y) for label, place in thick.items()}
        assert reach[order.labels[0]] <= min(reach.values()) + 1e-3

    @given(PLACES, st.randoms(use_true_random=False))
    def test_typing_order_does_not_matter(self, places: list[FastenerPlace], random: object) -> None:
        shuffled = list(places)
        random.shuffle(shuffled)  # type: ignore[attr-defined]
        assert tightening_order(shuffled).labels == tightening_order(places).labels

    @given(PLACES)
    def test_inches_give_the_order_of_millimetres(self, places: list[FastenerPlace]) -> None:
        inch = [
            FastenerPlace(place.label, place.x / 25.4, place.y / 25.4, place.diameter) for place in places
        ]
        back = [FastenerPlace(place.label, place.x * 25.4, place.y * 25.4, place.diameter) for place in inch]
        assert tightening_order(back).labels == tightening_order(places).labels
