"""Several ways to the same figure: exactly one must be given, and given whole."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from firedeck.errors import JobError


@dataclass(frozen=True)
class Route:
    """One way to a result: the figures it needs and those it may have besides."""

    needs: tuple[str, ...]
    may: tuple[str, ...] = ()

    def takes(self, name: str) -> bool:
        """Tell whether a figure belongs to this way."""
        return name in self.needs or name in self.may


def chosen(of: str, given: Mapping[str, float | str | None], routes: Sequence[Route]) -> Route:
    """Return the one route that the given figures make up.

    Parameters
    ----------
    of : str
        What is being worked out, for the message [text].
    given : mapping of str to float, str or None
        The figures by name; None where nothing was given [core].
    routes : sequence of Route
        The ways there are [text].

    Returns
    -------
    Route
        The way that is complete [text].

    Raises
    ------
    JobError
        One line, if the figures mix two ways or leave one incomplete.

    Source
    ------
    derived

    Examples
    --------
    >>> ways = (Route(("plan_area",)), Route(("rim_length",)))
    >>> chosen("chamber-cut", {"plan_area": 5000.0, "rim_length": None}, ways).needs
    ('plan_area',)
    >>> chosen("cut", {"plan_area": 5000.0, "rim_length": 250.0}, ways)
    Traceback (most recent call last):
    ...
    firedeck.errors.JobError: cut: found plan_area with rim_length; give plan_area or rim_length, not both
    """
    names = [name for name, value in given.items() if value is not None]
    ways = " or ".join(" + ".join(route.needs) for route in routes)
    able = [route for route in routes if all(route.takes(name) for name in names)]
    if not able:
        raise JobError(of, _mixed(names, routes), f"give {ways}, not both")
    for route in able:
        if all(need in names for need in route.needs):
            return route
    nearest = min(able, key=lambda route: len(_lacking(route, names)))
    found = ", ".join(names) if names else "nothing"
    raise JobError(of, f"{found} without {', '.join(_lacking(nearest, names))}", f"give {ways}")


def _lacking(route: Route, names: Sequence[str]) -> list[str]:
    return [need for need in route.needs if need not in names]


def _mixed(names: Sequence[str], routes: Sequence[Route]) -> str:
    """Name the figures of the best way and the one that does not belong to it."""
    best = max(routes, key=lambda route: sum(route.takes(name) for name in names))
    own = [name for name in names if best.takes(name)]
    strangers = [name for name in names if not best.takes(name)]
    return f"{', '.join(own)} with {', '.join(strangers)}"
