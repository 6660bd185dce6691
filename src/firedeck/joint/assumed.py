"""Our own figures for what nobody measured, from one table that says what each is."""

from firedeck.tables import one


def assumed(key: str) -> float:
    """Return one of our own figures.

    Parameters
    ----------
    key : str
        Its name in the table of what the joint assumes [text].

    Returns
    -------
    float
        The figure in the unit of the table [core].

    Raises
    ------
    TableGap
        If the table has no such figure.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> assumed("frost")
    -20.0
    """
    return float(one("joint_assumed", key, lambda row: row["key"] == key)["value"])
