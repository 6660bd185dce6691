"""Whose limit wins: the order of precedence, with rivals; properties over drawn limits."""

from hypothesis import given
from hypothesis import strategies as st

from firedeck.tables import pick, published_limits
from firedeck.trace import Context, Limit, Measure, Rank

ASKED = Context(part="head", material="aluminium", direction="along")


def limit(high, rank, **applies):
    where = Context(**{"part": "head", **applies})
    return Limit("cut", None, high, Measure.COMPUTED, where, rank, f"{rank.value} {high}")


def test_bulletin_over_sheet_over_manual():
    limits = [limit(0.1, Rank.MANUAL), limit(0.3, Rank.BULLETIN), limit(0.05, Rank.PART_SHEET)]
    picked = pick("cut", ASKED, limits)
    assert picked.winner.rank is Rank.BULLETIN
    assert [rival.rank for rival in picked.rivals] == [Rank.PART_SHEET, Rank.MANUAL]


def test_of_one_rank_the_stricter_holds():
    assert pick("cut", ASKED, [limit(0.1, Rank.MANUAL), limit(0.05, Rank.MANUAL)]).winner.high == 0.05


def test_a_low_bound_is_stricter_when_higher():
    low = [Limit("cut", at, None, Measure.COMPUTED, Context(), Rank.MANUAL, "m") for at in (1.0, 2.0)]
    assert pick("cut", ASKED, low).winner.low == 2.0


def test_memory_never_wins_but_is_shown():
    picked = pick("cut", ASKED, [limit(0.1, Rank.MEMORY)])
    assert picked.winner is None
    assert len(picked.rivals) == 1
    assert picked.why == "no book limit known"


def test_every_stated_field_must_equal_the_context():
    assert pick("cut", ASKED, [limit(0.1, Rank.MANUAL, material="grey-iron")]).winner is None
    assert pick("cut", ASKED, [limit(0.1, Rank.MANUAL, direction="any")]).winner is not None
    assert pick("cut", Context(part="head"), [limit(0.1, Rank.MANUAL, material="aluminium")]).winner is None


RANKS = st.sampled_from(list(Rank))
DRAWN = st.lists(st.builds(limit, st.floats(0.01, 1.0), RANKS), max_size=6)


class TestOrderDoesNotMatter:
    """The winner is the same however the papers lie on the bench."""

    @given(DRAWN, st.randoms())
    def test_shuffled(self, limits, random):
        shuffled = random.sample(limits, len(limits))
        first, second = pick("cut", ASKED, limits).winner, pick("cut", ASKED, shuffled).winner
        assert (first and (first.rank, first.high)) == (second and (second.rank, second.high))

    @given(DRAWN)
    def test_nothing_stronger_is_left_among_the_rivals(self, limits):
        picked = pick("cut", ASKED, limits)
        able = [rival for rival in picked.rivals if rival.rank is not Rank.MEMORY]
        assert picked.winner or not able
        assert all(picked.winner.rank.order <= rival.rank.order for rival in able)


def test_published_limits_speak_of_a_construction_or_practice():
    for one in published_limits():
        assert one.source
        assert one.rank in (Rank.PUBLISHED, Rank.COMMON_PRACTICE, Rank.MEMORY)
