"""Classes by the marks on a head, and the softest class a bolt of unknown class can be."""

from firedeck.errors import TableGap
from firedeck.fasteners.strength import StrengthClass, class_of
from firedeck.fasteners.threads import Thread
from firedeck.tables import Row, rows

SOFTEST = {True: "4.6", False: "sae-2"}
"""Softest class of the tables, for metric threads and for inch threads."""


def class_by_marks(marks: str, thread: Thread) -> StrengthClass:
    """Find the class a head is marked for.

    Parameters
    ----------
    marks : str
        What stands on the head: 10.9, three lines, six lines, none [text].
    thread : Thread
        The thread of the bolt; lines are the marks of inch bolts [core].

    Returns
    -------
    StrengthClass
        Least strengths of that class [MPa].

    Raises
    ------
    TableGap
        If the mark is not of the table, or the class is not made in this size.

    Valid for
    ---------
    Marks of the standards; a maker's own letters name the maker, not the class.

    Source
    ------
    [iso-898-1] and [sae-j429], marks from memory.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> class_by_marks("three lines", thread_of("3/8-16")).name
    'sae-5'
    """
    said = _said(marks)
    family = "metric" if thread.metric else "inch"
    known = [row for row in rows("head_marks") if row["family"] == family]
    for row in known:
        if _names(row, said):
            return class_of(row["class"], thread)
    try:
        return class_of(said, thread)
    except TableGap:
        allowed = ", ".join(row["mark"] for row in known)
        raise TableGap("head_marks", f"mark {marks!r} on a {family} bolt", f"a class, {allowed}") from None


def is_bare(marks: str) -> bool:
    """Tell whether marks say that a head bears none: a bound, and no proof that the bolt is soft.

    Parameters
    ----------
    marks : str
        What stands on the head [text].

    Returns
    -------
    bool
        True for none, plain, bare [1].

    Source
    ------
    [iso-898-1] and [sae-j429], marks from memory.

    Examples
    --------
    >>> is_bare("plain"), is_bare("10.9")
    (True, False)
    """
    said = _said(marks)
    return any(_names(row, said) for row in rows("head_marks") if row["mark"] == "none")


def _said(marks: str) -> str:
    return " ".join(marks.strip().lower().split())


def _names(row: Row, said: str) -> bool:
    return said in (row["mark"], *row["also"].split("|"))


def softest_class(thread: Thread) -> StrengthClass:
    """Softest class of the tables for a thread: what an unknown class is safely taken for.

    Parameters
    ----------
    thread : Thread
        The thread [core].

    Returns
    -------
    StrengthClass
        Its least strengths [MPa].

    Raises
    ------
    TableGap
        If the class is not made in this size.

    Source
    ------
    [iso-898-1] and [sae-j429].

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> softest_class(thread_of("M10")).name
    '4.6'
    """
    return class_of(SOFTEST[thread.metric], thread)
