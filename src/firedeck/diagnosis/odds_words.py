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


def share_said(share: float) -> str:
    """Say a share as a percentage that never claims to be certain.

    Parameters
    ----------
    share : float
        Between 0 and 1 [1].

    Returns
    -------
    str
        Whole percent, "over 99 %" and "under 1 %" at the ends [text].

    Source
    ------
    [generic-ours] our table cannot tell a hundredth from nothing.

    Examples
    --------
    >>> share_said(0.704), share_said(0.9996), share_said(0.0)
    ('70 %', 'over 99 %', 'under 1 %')
    """
    if share > 0.99:
        return "over 99 %"
    return f"{100 * share:.0f} %" if share >= 0.01 else "under 1 %"


def odds_in_words(share: float) -> str:
    """Say a share as odds.

    Parameters
    ----------
    share : float
        Between 0 and 1 [1].

    Returns
    -------
    str
        Odds to one significant place, "over 99 to 1" beyond that [text].

    Source
    ------
    [derived] share against the rest.

    Examples
    --------
    >>> odds_in_words(0.8), odds_in_words(0.1), odds_in_words(0.5)
    ('4 to 1 on', '9 to 1 against', 'evens')
    """
    better, worse = max(share, 1.0 - share), min(share, 1.0 - share)
    side = "on" if share > 0.5 else "against"
    if worse < 0.01:
        return f"over 99 to 1 {side}"
    odds = better / worse
    if odds < 1.05:
        return "evens"
    number = f"{odds:.1f}".removesuffix(".0") if odds < 3.0 else f"{odds:.0f}"
    return f"{number} to 1 {side}"
