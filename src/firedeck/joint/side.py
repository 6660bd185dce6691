"""Where a place of a ring lies, in words a mechanic can find it by: end, neighbour, exhaust side, nearest fastener."""

from math import cos, hypot, sin

from firedeck.errors import OutOfRange
from firedeck.joint.geometry.plan import JointPlan

ALONG = 0.5
"""A place this much of a radius along the crankshaft is called after the neighbour or the end it lies towards."""


def side_of(plan: JointPlan, bore: str, angle: float, exhaust: int = 0) -> str:
    """Say where on its ring a place lies.

    Parameters
    ----------
    plan : JointPlan
        Hole pattern; x runs from front to rear [mm].
    bore : str
        Label of the bore [text].
    angle : float
        From the x axis to the y axis [rad].
    exhaust : int
        1 where the exhaust is on the side of rising y, -1 on the other, 0 where nobody said [1].

    Returns
    -------
    str
        Such as "exhaust side, towards No 3, by fastener 5" [text].

    Raises
    ------
    OutOfRange
        If the plan has no such bore.

    Source
    ------
    common-practice

    Examples
    --------
    >>> from firedeck.joint.geometry.plan import Bore, Fastener, plain_outline
    >>> bores = (Bore("1", 0.0, 0.0, 80.0, 83.0, 81.0), Bore("2", 90.0, 0.0, 80.0, 83.0, 81.0))
    >>> bolts = tuple(Fastener(str(n), x, y, 11, 10, 11, 20, 8, 20) for n, (x, y) in enumerate(
    ...     [(-45.0, 50.0), (45.0, 50.0), (135.0, 50.0), (45.0, -50.0)], start=1))
    >>> plan = JointPlan(plain_outline(bores, bolts), bores, bolts)
    >>> side_of(plan, "1", 0.6, exhaust=1)
    'towards No 2, exhaust side, by fastener 2'
    >>> side_of(plan, "1", 3.1416)
    'front end, by fastener 1'
    """
    here = next((one for one in plan.bores if one.label == bore), None)
    if here is None:
        raise OutOfRange("bore", repr(bore), f"known: {', '.join(one.label for one in plan.bores)}")
    along, across = cos(angle), sin(angle)
    words = []
    if abs(along) >= ALONG:
        beyond = [one for one in plan.bores if (one.x - here.x) * along > here.diameter / 2.0]
        near = min(beyond, key=lambda one: abs(one.x - here.x), default=None)
        end = "rear end" if along > 0.0 else "front end"
        words.append(f"towards No {near.label}" if near else end)
    if abs(across) >= ALONG and exhaust:
        words.append("exhaust side" if across * exhaust > 0.0 else "side away from the exhaust")
    x, y = here.x + along * here.ring / 2.0, here.y + across * here.ring / 2.0
    bolt = min(plan.fasteners, key=lambda one: hypot(one.x - x, one.y - y))
    return ", ".join([*words, f"by fastener {bolt.label}"])
