"""The press test of a candidate's ring, as it stands in the document: rows of closure and load with their units."""

import numpy as np

from firedeck.errors import BadQuantity, JobError, OutOfRange, TableGap
from firedeck.job.paths import join_path
from firedeck.job.schema.joint import Candidate
from firedeck.joint.law_fitting import Fitted
from firedeck.joint.law_table import laws_of
from firedeck.joint.laws import Per
from firedeck.joint.own_curve import own_law
from firedeck.quantity import Kind, read_columns

HEADER = "rows under a header such as: closure [mm], load [N/mm]"
PER = {Kind.LINE_LOAD: Per.LINE, Kind.STRESS: Per.AREA}


def ring_curve(joint: str, candidate: Candidate) -> Fitted | None:
    """Make a law of the candidate's own curve; None where it has none.

    Parameters
    ----------
    joint : str
        Name of the joint [text].
    candidate : Candidate
        The gasket.

    Returns
    -------
    Fitted or None
        The law, and what was ironed out of it [N/mm or MPa].

    Raises
    ------
    JobError
        If it cannot be read, has other columns, or its loads fall by more than noise.

    Source
    ------
    derived
    """
    if not candidate.ring_curve:
        return None
    path = join_path(("joint", joint, "gasket", "candidates", candidate.name, "ring_curve"))
    try:
        like = laws_of(candidate.construction or "")["ring"]
        columns = read_columns(candidate.ring_curve)
        closure, load = (np.array(columns.column(name)) for name in ("closure", "load"))
    except TableGap:
        raise JobError(
            path,
            f"construction {candidate.construction or 'not named'}",
            "name it: the other parts are as in others of it",
        ) from None
    except BadQuantity as fault:
        raise JobError(path, repr(fault.found), f"{fault.allowed}; {HEADER}") from None
    if columns.kinds["closure"] is not Kind.LENGTH or columns.kinds["load"] not in PER:
        raise JobError(
            path, "closure or load in another unit", f"a length, and N/mm of ring or MPa; {HEADER}"
        )
    try:
        return own_law(candidate.name, PER[columns.kinds["load"]], closure, load, like)
    except OutOfRange as fault:
        raise JobError(path, fault.found, fault.allowed) from None
