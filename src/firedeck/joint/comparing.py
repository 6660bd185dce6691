"""Held against the same engine as it left the factory: no worse, worse, or not to be ranked.

What the bands share (the head's inner section, the gasket's curve, the gas) moves both alike, so the change is known
far better than either load. The change is therefore given in N/mm, with its band from pairs of joints that share it.
"""

from enum import StrEnum

from firedeck.trace import Band

SLACK = 1.0
"""Change of a line load that counts as none: the model does not tell finer [N/mm]."""


class Rank(StrEnum):
    """How a place stands against the factory's joint."""

    NO_WORSE = "no worse"
    WORSE = "worse"
    CANNOT_RANK = "cannot rank"


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
