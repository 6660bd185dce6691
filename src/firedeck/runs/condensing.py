"""Heads and blocks, each from the cache or condensed by processes of one thread."""

import threading
from collections.abc import Sequence
from contextlib import ExitStack

from firedeck.joint.geometry.condensed import CondensedBody, Flexibility, put_together
from firedeck.runs.cache import Cache, cache_folder
from firedeck.runs.hands import Stopped, Told, condensed_by_hands
from firedeck.runs.request import PARTS, JointRequest
from firedeck.runs.tasks import Wanted

__all__ = ["Stopped", "Told", "Wanted", "bodies", "flexibility"]


def flexibility(
    request: JointRequest,
    cache: Cache | None = None,
    told: Told | None = None,
    stop: threading.Event | None = None,
) -> Flexibility:
    """Condense head and block, or take them from the cache, and put them together.

    ``told`` hears how far each is; setting ``stop`` ends the children and raises :class:`Stopped`. Faults of the
    geometry are raised as they were named in the child.
    """
    head, block = bodies([Wanted(request, part, part) for part in PARTS], cache, told, stop)
    return put_together(request.plan, request.points(), head, block)


def bodies(
    wanted: Sequence[Wanted],
    cache: Cache | None = None,
    told: Told | None = None,
    stop: threading.Event | None = None,
) -> tuple[CondensedBody, ...]:
    """Condense bodies, two at a time in the order given, or take them from the cache; in the order they were asked for.

    One or two that lack are shared out between the two processes.

    Two processes that want the same body do it once: the other waits.
    """
    kept = cache or Cache(cache_folder())
    tell = told or (lambda _part, _share: None)

    def stopped() -> None:
        if stop is not None and stop.is_set():
            raise Stopped("condensing was ended before it was done")

    asked = {one.key: one for one in wanted}
    found = {key: body for key in asked if (body := kept.read(key)) is not None}
    with ExitStack() as held:
        for key in sorted(asked.keys() - found.keys()):  # in one order, so that no two wait for each other
            held.enter_context(kept.writing(key, stopped))
            body = kept.read(key)
            if body is not None:
                found[key] = body
        lacking = [one for key, one in asked.items() if key not in found]
        for one, body in condensed_by_hands(lacking, tell, stopped) if lacking else ():
            kept.write(one.key, body)
            found[one.key] = body
    for one in asked.values():
        tell(one.says, 1.0)
    return tuple(found[one.key] for one in wanted)
