"""Finish left by a single-point tool: feed and nose radius, and back."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange
from firedeck.trace import Note, Step

_SOURCE = "machining-textbook-feed"
REAL_IS_ROUGHER = Note(
    "A real cut is rougher than this: 1.5 to 3 times is common, more with chatter or a worn tip.",
    "machining-textbook-feed",
)


@dataclass(frozen=True)
class FeedFinish:
    """Finish of the ideal turned or fly-cut lay; mm."""

    Rz: float
    Ra: float
    steps: tuple[Step, ...]
    cautions: tuple[Note, ...] = (REAL_IS_ROUGHER,)


@dataclass(frozen=True)
class FeedWanted:
    """Largest feed per turn for a wanted finish; mm."""

    feed: float
    steps: tuple[Step, ...]
    cautions: tuple[Note, ...] = (REAL_IS_ROUGHER,)


def finish_by_feed(feed: float, nose_radius: float) -> FeedFinish:
    """Finish that feed and nose radius leave at best.

    Parameters
    ----------
    feed : float
        Feed per turn [mm].
    nose_radius : float
        Nose radius of the tip [mm].

    Returns
    -------
    FeedFinish
        Rz and Ra by the workshop formulas, with the exact arc beside them in the steps [mm].

    Raises
    ------
    OutOfRange
        If a figure is not positive, or the feed is over the nose radius.

    Valid for
    ---------
    Feeds up to the nose radius: the parabola is within 2 % of the arc at half of it, 7 % at all of it.

    Source
    ------
    machining-textbook-feed

    Examples
    --------
    >>> found = finish_by_feed(feed=0.2, nose_radius=0.8)
    >>> round(found.Rz * 1000, 4), round(found.Ra * 1000, 4)
    (6.25, 1.5625)
    """
    _check("feed", feed)
    _check("nose radius", nose_radius)
    if feed > nose_radius:
        raise OutOfRange("feed", f"{feed:g} mm", f"at most the nose radius, {nose_radius:g} mm")
    inputs = {"feed": (feed, "mm"), "nose_radius": (nose_radius, "mm")}
    height = Step.work_out(
        "Height of the cusps", "feed**2 / (8 * nose_radius)", inputs, ("Rz", "mm"), _SOURCE
    )
    mean = Step.work_out("Mean roughness", "feed**2 / (32 * nose_radius)", inputs, ("Ra", "mm"), _SOURCE)
    arc = Step.work_out(
        "For comparison: height of the cusps as exact arcs",
        "nose_radius - sqrt(nose_radius**2 - feed**2 / 4)",
        inputs,
        ("arc_height", "mm"),
        _SOURCE,
    )
    integral = Step.work_out(
        "For comparison: mean roughness of parabolic cusps by the integral",
        "feed**2 / (18 * sqrt(3) * nose_radius)",
        inputs,
        ("Ra_by_integral", "mm"),
        _SOURCE,
    )
    return FeedFinish(height.value, mean.value, (height, mean, arc, integral))


def feed_for_finish(Ra: float, nose_radius: float) -> FeedWanted:
    """Largest feed per turn that can leave a wanted mean roughness.

    Parameters
    ----------
    Ra : float
        Mean roughness wanted [mm].
    nose_radius : float
        Nose radius of the tip [mm].

    Returns
    -------
    FeedWanted
        Feed per turn [mm].

    Raises
    ------
    OutOfRange
        If a figure is not positive, or the feed would be over the nose radius.

    Valid for
    ---------
    Feeds up to the nose radius.

    Source
    ------
    machining-textbook-feed

    Examples
    --------
    >>> round(feed_for_finish(Ra=0.0008, nose_radius=0.8).feed, 4)
    0.1431
    """
    _check("Ra", Ra)
    _check("nose radius", nose_radius)
    step = Step.work_out(
        "Largest feed per turn",
        "sqrt(32 * nose_radius * Ra)",
        {"nose_radius": (nose_radius, "mm"), "Ra": (Ra, "mm")},
        ("feed", "mm"),
        _SOURCE,
    )
    if step.value > nose_radius:
        most = nose_radius / 32.0 * 1000.0
        raise OutOfRange("Ra", f"{Ra * 1000:g} µm", f"at most {most:.3g} µm with this nose radius")
    return FeedWanted(step.value, (step,))


def _check(name: str, value: float) -> None:
    if not value > 0.0:
        raise OutOfRange(name, f"{value:g} mm", "more than nothing")
