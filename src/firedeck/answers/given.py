"""The limits of the job's own papers as plain values, for ``limits.pick``."""

from firedeck.job import Joint
from firedeck.job.schema.joint import LimitText
from firedeck.quantity import Kind, parse
from firedeck.tables import Picked, pick
from firedeck.terms import term
from firedeck.trace import Context, Limit, Measure, Rank


def picked(joint: Joint, quantity: str, asked: Context) -> Picked:
    """Return the limit that holds for a quantity of this joint: its papers first."""
    return pick(quantity, asked, given_limits(joint))


def given_limits(joint: Joint) -> tuple[Limit, ...]:
    """Return every limit of [[joint.limits]]."""
    return tuple(_limit(text) for text in joint.limits)


def _limit(text: LimitText) -> Limit:
    kind = term(text.quantity).kind
    return Limit(
        quantity=text.quantity,
        low=_bound(text.low, kind),
        high=_bound(text.high, kind),
        measure=Measure(text.measure),
        applies=_context(text),
        rank=Rank(text.rank),
        source=text.source,
        where=f"limits.{text.name}",
        text=" to ".join(bound for bound in (text.low, text.high) if bound),
    )


def _bound(text: str, kind: Kind) -> float | None:
    return parse(text, kind).value if text else None


def _context(text: LimitText) -> Context:
    return Context(
        part=text.part,
        material=text.material,
        mating_material=text.mating_material,
        construction=text.construction,
        direction=text.direction,
        span=text.span.value if text.span else None,
        duty=text.duty,
        fastener=text.fastener,
        lubricant=text.lubricant,
        washer=text.washer,
        gasket=text.gasket,
        part_fitted=text.part_fitted,
    )
