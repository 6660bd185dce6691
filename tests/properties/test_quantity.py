"""Rules that hold for every quantity, whatever is typed."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from firedeck.errors import BadQuantity
from firedeck.quantity import (
    UNITS,
    Kind,
    Outcome,
    Quantity,
    Unit,
    from_unit,
    in_unit,
    meets,
    number,
    parse,
    parse_list,
    parse_rows,
    show,
    slips,
)
from firedeck.quantity.guard import SLIPS

NUMERIC = [kind for kind in Kind if kind not in (Kind.CHOICE, Kind.TEXT)]
UNIT_OF_KIND = [(kind, row) for kind in NUMERIC for row in UNITS[kind]]
MEASURED = [(kind, row) for kind, row in UNIT_OF_KIND if row.name and kind not in (Kind.COUNT, Kind.SHARE)]
decimals = st.decimals(min_value=1, max_value=9999, places=4, allow_nan=False)
workshop = st.text(alphabet=" 0123456789.,/;:-+'\"°µ½·%#_abcdefghilmnoprstuFKNMP", max_size=40)


def _outcome(read: Callable[[str, Kind], object], text: str, kind: Kind) -> object:
    """What was read, or the refusal; anything else is a fault and passes through."""
    try:
        return read(text, kind)
    except BadQuantity as refused:
        return refused


class TestReading:
    """Nothing but a quantity or one short line comes back."""

    @given(st.one_of(st.text(max_size=60), workshop), st.sampled_from(list(Kind)))
    def test_reads_or_says_why(self, text: str, kind: Kind) -> None:
        found = _outcome(parse, text, kind)
        if isinstance(found, Quantity):
            assert found.text == text
            assert abs(found.exact) <= 10**21
        else:
            assert "\n" not in str(found)
            assert len(str(found)) < 400

    @given(workshop, st.sampled_from(NUMERIC))
    def test_lists_and_rows_read_or_say_why(self, text: str, kind: Kind) -> None:
        for read in (parse_list, lambda typed, each: parse_rows(typed, (each, each))):
            found = _outcome(read, text, kind)
            assert found if isinstance(found, tuple) else "\n" not in str(found)

    @given(st.sampled_from(MEASURED), decimals)
    def test_the_number_is_converted_exactly(self, pair: tuple[Kind, Unit], typed: Decimal) -> None:
        kind, row = pair
        found = parse(f"{typed} {row.name}", kind)
        assert found.exact == (Fraction(str(typed)) - row.zero) * row.factor
        assert found.unit == row.name

    @given(st.sampled_from(MEASURED), decimals)
    def test_a_decimal_comma_reads_as_a_point(self, pair: tuple[Kind, Unit], typed: Decimal) -> None:
        kind, row = pair
        text = f"{typed} {row.name}"
        assert parse(text.replace(".", ","), kind).exact == parse(text, kind).exact


class TestThereAndBack:
    """A number taken to a unit and back is the same number."""

    @given(st.sampled_from(UNIT_OF_KIND), st.floats(min_value=1e-3, max_value=1e6))
    def test_through_any_unit(self, pair: tuple[Kind, Unit], value: float) -> None:
        kind, row = pair
        unit = row.name or "1"
        assert abs(from_unit(in_unit(value, kind, unit), kind, unit) - value) <= 1e-12 * (abs(value) + 300)

    @given(
        st.sampled_from(NUMERIC), st.sampled_from(["mm", "inch"]), st.floats(min_value=1e-3, max_value=1e4)
    )
    def test_what_is_shown_can_be_typed(self, kind: Kind, system: str, value: float) -> None:
        if kind in (Kind.HARDNESS, Kind.COUNT):
            return
        shown = show(value, kind, system)
        again = parse(shown, kind).value
        unit_step = abs(value) * 0.051 + (1.0 if kind is Kind.TEMPERATURE else 0.0)
        assert abs(again - value) <= unit_step

    @given(st.floats(min_value=-1e15, max_value=1e15, allow_subnormal=False))
    def test_six_digits_are_kept(self, value: float) -> None:
        assert abs(float(number(value)) - value) <= 5.1e-6 * abs(value)


class TestLimits:
    """Holding a value against limits does not depend on how it was typed."""

    @given(decimals, decimals)
    def test_the_unit_of_the_limit_does_not_matter(self, reading: Decimal, limit: Decimal) -> None:
        value = parse(f"{reading} thou", Kind.LENGTH)
        same = parse(f"{limit * Decimal('0.0254'):f} mm", Kind.LENGTH)
        assert meets(value, high=parse(f"{limit} thou", Kind.LENGTH)) is meets(value, high=same)

    @given(decimals, decimals)
    def test_an_upper_limit_is_the_mirror_of_a_lower_one(self, one: Decimal, other: Decimal) -> None:
        a, b = Fraction(str(one)), Fraction(str(other))
        assert meets(a, high=b) is meets(b, low=a)
        assert (meets(a, high=b) is Outcome.AT_LIMIT) == (a == b)


class TestGuard:
    """The guard speaks outside the range only, and never changes what was typed."""

    @given(st.sampled_from([pair for pair in MEASURED if pair[1].name in SLIPS.get(pair[0], {})]), decimals)
    def test_quiet_exactly_inside(self, pair: tuple[Kind, Unit], typed: Decimal) -> None:
        kind, row = pair
        found = parse(f"{typed} {row.name}", kind)
        said = slips(found, 0.001, 100.0)
        assert (said is None) == (0.001 <= found.value <= 100.0)
        assert found == parse(f"{typed} {row.name}", kind)
