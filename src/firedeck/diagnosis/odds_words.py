"""Shares as words and as odds."""

from firedeck.tables import rows


def share_in_words(share: float) -> str:
    """Say a share in words.

    Parameters
    ----------
    share : float
        Between 0 and 1 [1].

    Returns
    -------
    str
        Word of tables/data/odds_words.csv [text].

    Source
    ------
    [generic-ours] the table.

    Examples
    --------
    >>> share_in_words(0.6), share_in_words(0.01)
    ('likely', 'very unlikely')
    """
    return next(row["word"] for row in rows("odds_words") if share >= float(row["from_share"]))


def odds_in_words(share: float) -> str:
    """Say a share as odds.

    Parameters
    ----------
    share : float
        Between 0 and 1 [1].

    Returns
    -------
    str
        Odds to one significant place, at most 99 to 1 [text].

    Source
    ------
    [derived] share against the rest.

    Examples
    --------
    >>> odds_in_words(0.8), odds_in_words(0.1), odds_in_words(0.5)
    ('4 to 1 on', '9 to 1 against', 'evens')
    """
    better, worse = max(share, 1.0 - share), min(share, 1.0 - share)
    odds = min(99.0, better / worse) if worse > 0.0 else 99.0
    if odds < 1.05:
        return "evens"
    number = f"{odds:.1f}".removesuffix(".0") if odds < 3.0 else f"{odds:.0f}"
    return f"{number} to 1 {'on' if share > 0.5 else 'against'}"
