"""Compression readings held against several spread rules at once, dry and wet."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.diagnosis.compression_words import assumed, said
from firedeck.diagnosis.spread_rules import RuleVerdict, SpreadRule, rule_from_text, rules_in_use, verdict_of
from firedeck.diagnosis.wet_test import OilGain, WetReading, oil_gain, oil_is_felt, read_wet
from firedeck.diagnosis.who_is_low import pattern_of
from firedeck.errors import OutOfRange
from firedeck.quantity import Kind, show_both
from firedeck.trace import Note, Step, as_printed


@dataclass(frozen=True)
class CompressionSpread:
    """Compression readings of one engine or bank, read together.

    ``lowest_over_highest`` [1], ``spread`` highest less lowest [MPa], ``suspects`` cylinders counted
    from 1 in the order given, ``pattern`` in words, ``verdicts`` one per rule, ``disagree`` whether
    the rules give more than one verdict, ``wet`` one per cylinder, ``oil`` what the oil does by itself,
    ``oil_felt`` whether the middle cylinder shows it, so that it is taken off,
    ``notes`` what the readings say, ``assumed`` what was taken for granted.
    """

    readings: tuple[float, ...]
    lowest_over_highest: float
    spread: float
    suspects: tuple[int, ...]
    pattern: str
    verdicts: tuple[RuleVerdict, ...]
    disagree: bool
    wet: tuple[WetReading, ...]
    oil: OilGain | None
    oil_felt: bool
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]
    assumed: tuple[Note, ...]

    @property
    def outcome_by_rule(self) -> dict[str, str]:
        """What each rule says, by the rule as typed."""
        return {verdict.rule.name: verdict.outcome.value for verdict in self.verdicts}


def compression_spread(
    readings: Sequence[float],
    *,
    limit_rule: str | None = None,
    wet: Sequence[float] | None = None,
    oil_volume: float | None = None,
    swept_volume: float | None = None,
    ratio: float | None = None,
) -> CompressionSpread:
    """Read the compression of all cylinders of one bank together.

    Parameters
    ----------
    readings : sequence of float
        Dry gauge readings in the order in which the cylinders stand in line, shape (n,) [MPa].
    limit_rule : str, optional
        Rule of the book: "75 %" of the highest, or a spread such as "25 psi" [text].
    wet : sequence of float, optional
        Readings with oil in, same order, shape (n,) [MPa].
    oil_volume : float, optional
        Oil put in each cylinder [mm³].
    swept_volume : float, optional
        Swept volume of one cylinder [mm³].
    ratio : float, optional
        Compression ratio [1].

    Returns
    -------
    CompressionSpread
        Figures, suspects, pattern and the verdict of each rule [core].

    Raises
    ------
    OutOfRange
        For fewer than two readings, a negative one, all nil, a wet list of another length, or a
        rule that cannot be read.

    Valid for
    ---------
    All cylinders read alike: same gauge, speed, throttle, puffs and warmth.

    Source
    ------
    [common-practice] spread rules of tables/data/compression_rules.csv.

    Examples
    --------
    >>> read = compression_spread((1.10, 0.61, 0.63, 1.08))
    >>> read.suspects, read.pattern
    ((2, 3), 'adjacent pair low: 2-3')
    """
    _readable("readings", readings)
    highest, lowest = max(readings), min(readings)
    ends = {"lowest": (as_printed(lowest), "MPa"), "highest": (as_printed(highest), "MPa")}
    share = Step.work_out(
        "Lowest over highest", "lowest / highest", ends, ("lowest_over_highest", "1"), "derived"
    )
    spread = Step.work_out("Highest less lowest", "highest - lowest", ends, ("spread", "MPa"), "derived")
    asked = () if limit_rule is None else (rule_from_text(limit_rule),)
    general = tuple(rule for rule in rules_in_use() if rule.name not in {own.name for own in asked})
    verdicts = tuple(verdict_of(rule, readings) for rule in (*asked, *general))
    suspects = _suspects(verdicts, asked)
    oil = _oil(oil_volume, swept_volume, ratio)
    if wet is not None:
        _readable("wet", wet, nil_allowed=True)
    felt = oil is not None and (
        wet is None or len(wet) != len(readings) or oil_is_felt(readings, wet, oil.gain)
    )
    taken_off = oil.gain if oil and felt else None
    wets, wet_steps = read_wet(readings, wet, taken_off) if wet is not None else ((), ())
    return CompressionSpread(
        tuple(readings),
        lowest / highest,
        highest - lowest,
        suspects,
        pattern_of(readings, suspects),
        verdicts,
        len({verdict.outcome for verdict in verdicts}) > 1,
        wets,
        oil,
        felt,
        (
            share,
            spread,
            *(_bound_step(verdict.rule, highest) for verdict in verdicts),
            *(oil.steps if oil else ()),
            *wet_steps,
        ),
        said(verdicts, suspects, wets, oil if felt else None),
        assumed(wets, oil, felt),
    )


def _readable(name: str, readings: Sequence[float], nil_allowed: bool = False) -> None:
    if len(readings) < 2:
        raise OutOfRange(name, f"{len(readings)} reading", "allowed: two cylinders or more, to compare")
    for place, reading in enumerate(readings, start=1):
        if reading < 0.0:
            raise OutOfRange(
                name,
                f"{show_both(reading, Kind.PRESSURE_GAUGE)} for cylinder {place}",
                "allowed: 0 or more above ambient",
            )
    if max(readings) == 0.0 and not nil_allowed:
        raise OutOfRange(name, "0 for every cylinder", "allowed: at least one above 0; look at the gauge")


def _bound_step(rule: SpreadRule, highest: float) -> Step:
    """The lowest reading a rule lets pass."""
    name = ("lowest_allowed", "MPa")
    if rule.form == "spread":
        return Step.work_out(
            f"Lowest reading that passes the rule {rule.name}",
            "highest - allowed_spread",
            {"highest": (highest, "MPa"), "allowed_spread": (rule.bound, "MPa")},
            name,
            rule.source,
        )
    return Step.work_out(
        f"Lowest reading that passes the rule {rule.name}",
        "highest * least_share",
        {"highest": (highest, "MPa"), "least_share": (rule.bound, "1")},
        name,
        rule.source,
    )


def _suspects(verdicts: Sequence[RuleVerdict], asked: Sequence[SpreadRule]) -> tuple[int, ...]:
    """Cylinders low by the book's rule or by any share; our fixed spreads are too strict at high readings."""
    counted = [verdict for verdict in verdicts if verdict.rule.form == "share" or verdict.rule in asked]
    return tuple(sorted({place for verdict in counted for place in verdict.low}))


def _oil(oil_volume: float | None, swept_volume: float | None, ratio: float | None) -> OilGain | None:
    if oil_volume is None or swept_volume is None or ratio is None:
        return None
    return oil_gain(swept_volume, ratio, oil_volume)
