"""Held against the same engine as it left the factory: no worse, worse, or not to be ranked.

What the bands share (the head's inner section, the gasket's curve, the gas) moves both alike, so the change is known
far better than either load. The change is therefore given in N/mm, with its band from draws that both share.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.laws import Floats
from firedeck.trace import DERIVED, NO_UNIT, Band, Step

SLACK = 1.0
"""Change of a line load that counts as none: the model does not tell finer [N/mm]."""


class Rank(StrEnum):
    """How a place stands against the factory's joint."""

    NO_WORSE = "no worse"
    WORSE = "worse"
    CANNOT_RANK = "cannot rank"


@dataclass(frozen=True)
class Change:
    """One place against the factory's joint: loads [N/mm], change [N/mm] with its band, share of the factory's [1].

    ``share`` is None where the factory's joint has nothing left there.
    """

    place: str
    here: float
    anchor: float
    change: float
    share: float | None
    band: Band
    rank: Rank
    steps: tuple[Step, ...]


def compare(place: str, here: float, anchor: float, changes: Floats, slack: float = SLACK) -> Change:
    """Hold the lowest line load of a place against the factory's.

    Parameters
    ----------
    place : str
        Name of the place [text].
    here : float
        Lowest line load of the joint asked about [N/mm].
    anchor : float
        The same of the joint as it left the factory [N/mm].
    changes : ndarray, shape (m,)
        Change of the load in m pairs of joints that share their luck and variants [N/mm].
    slack : float
        Change either way that counts as none: the model does not tell finer [N/mm].

    Returns
    -------
    Change
        Change with its band, and the rank [N/mm].

    Raises
    ------
    OutOfRange
        If no change is given or the slack is negative.

    Source
    ------
    derived

    Examples
    --------
    >>> found = compare("2 firing", here=70.0, anchor=100.0, changes=np.linspace(-40.0, -20.0, 50))
    >>> found.rank.value, found.share
    ('worse', 0.7)
    """
    if not len(changes) or not np.isfinite(changes).all() or slack < 0.0:
        raise OutOfRange(
            f"change at {place}", f"{len(changes)} changes, slack {slack:g} N/mm", "one or more, 0 or more"
        )
    low, high = (float(end) for end in np.quantile(changes, [0.025, 0.975]))
    figures = {"here": (here, "N/mm"), "anchor": (anchor, "N/mm")}
    change = Step.work_out(
        "Change of the lowest line load", "here - anchor", figures, ("change", "N/mm"), DERIVED
    )
    steps: tuple[Step, ...] = (change,)
    share = None
    if anchor > 0.0:
        part = Step.work_out(
            "Of what standard has left", "here / anchor", figures, ("share", NO_UNIT), DERIVED
        )
        steps, share = (change, part), part.value
    band = Band(min(low, change.value), max(high, change.value), why="pairs of joints with the same luck")
    return Change(place, here, anchor, change.value, share, band, ranked(band, slack), steps)


def ranked(band: Band, slack: float = SLACK) -> Rank:
    """Rank a change by its band.

    Parameters
    ----------
    band : Band
        Of the change [N/mm].
    slack : float
        Change either way that counts as none [N/mm].

    Returns
    -------
    Rank
        No worse where all of the band is above it, worse where all is below, else not to be ranked [text].

    Source
    ------
    derived

    Examples
    --------
    >>> [ranked(Band(low, high)).value for low, high in ((-0.5, 9.0), (-9.0, -2.0), (-9.0, 3.0))]
    ['no worse', 'worse', 'cannot rank']
    """
    if band.low >= -slack:
        return Rank.NO_WORSE
    return Rank.WORSE if band.high < -slack else Rank.CANNOT_RANK
