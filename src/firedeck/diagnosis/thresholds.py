"""The thresholds of the test reader, from their table."""

from functools import cache

from firedeck.tables import one


@cache
def threshold(name: str) -> float:
    """Return one threshold.

    Parameters
    ----------
    name : str
        Name as in tables/data/diagnosis_rules.csv [text].

    Returns
    -------
    float
        The figure, a plain ratio [1].

    Raises
    ------
    TableGap
        If the table has no such name.

    Source
    ------
    [generic-ours] each row says what it is for.

    Examples
    --------
    >>> threshold("low_dry_below")
    0.4
    """
    return float(one("diagnosis_rules", name, lambda row: row["name"] == name)["value"])
