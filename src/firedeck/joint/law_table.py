"""The pressing laws held as data, by name and by construction of gasket."""

from functools import cache

from firedeck.errors import TableGap
from firedeck.joint.laws import Law, Per
from firedeck.tables import Row, rows


@cache
def law(name: str) -> Law:
    """Return one pressing law of the table.

    Parameters
    ----------
    name : str
        Its name [text].

    Returns
    -------
    Law
        The law [N/mm or MPa].

    Raises
    ------
    TableGap
        If the table has no such law.

    Valid for
    ---------
    Orders of size: the scale of every law is our own assumption.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> law("wire-ring").per.value, law("wire-ring").load[-1]
    ('N/mm', 600.0)
    """
    for row in rows("gasket_laws"):
        if row["law"] == name:
            return _read(row)
    raise TableGap("gasket_laws", repr(name), ", ".join(row["law"] for row in rows("gasket_laws")))


def laws_of(construction: str) -> dict[str, Law]:
    """Return the laws of the parts of a gasket.

    Parameters
    ----------
    construction : str
        Kind of gasket: graphite-metal-core, composite, composite-printed, multi-layer-steel (with stopper),
        multi-layer-steel-plain, steel-shim, soft-copper, wire-ring [text].

    Returns
    -------
    dict of str to Law
        By part: ring, half-bead, body, those it has [N/mm or MPa].

    Raises
    ------
    TableGap
        If no law of that construction is held.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> sorted(laws_of("multi-layer-steel"))
    ['half-bead', 'ring']
    """
    found = {
        row["part"]: law(row["law"]) for row in rows("gasket_laws") if row["construction"] == construction
    }
    if not found:
        known = ", ".join(dict.fromkeys(row["construction"] for row in rows("gasket_laws")))
        raise TableGap("gasket_laws", f"construction {construction!r}", known)
    return found


def _read(row: Row) -> Law:
    pairs = [point.split("/") for point in row["curve"].split()]
    return Law(
        name=row["law"],
        per=Per(row["per"]),
        closure=tuple(float(closure) for closure, _ in pairs),
        load=tuple(float(load) for _, load in pairs),
        unloading_slope=float(row["unloading_slope"]),
        last_slope=float(row["last_slope"]),
        creep=float(row["creep"]),
        band=float(row["band"]),
        source=row["source"],
        note=row["note"],
    )
