"""Kinds of head gasket and what is usual for each."""

from dataclasses import dataclass
from functools import cache

from firedeck.errors import TableGap
from firedeck.quantity import Kind, parse
from firedeck.tables import Row, rows


@dataclass(frozen=True)
class Construction:
    """A kind of gasket: what goes on it, whether it is re-torqued, what it bears and wants."""

    name: str
    words: str
    faces: str
    retorque: str
    sliding: str
    finish: str
    one_use: bool
    crush_least: float
    crush_most: float
    source: str
    note: str


@cache
def constructions() -> tuple[Construction, ...]:
    """Return every construction of the table.

    Returns
    -------
    tuple of Construction
        In the order of tables/data/gasket_constructions.csv [text].

    Source
    ------
    [common-practice] row by row.

    Examples
    --------
    >>> all(kind.one_use for kind in constructions())
    True
    """
    return tuple(
        Construction(
            name=row["construction"],
            words=row["words"],
            faces=row["faces"],
            retorque=row["retorque"],
            sliding=row["sliding"],
            finish=row["finish"],
            one_use=row["one_use"] == "yes",
            crush_least=float(row["crush_least"]),
            crush_most=float(row["crush_most"]),
            source=row["source"],
            note=row["note"],
        )
        for row in rows("gasket_constructions")
    )


def construction(name: str) -> Construction:
    """Return one construction.

    Parameters
    ----------
    name : str
        Its name in the table [text].

    Returns
    -------
    Construction
        What is usual for it [text].

    Raises
    ------
    TableGap
        If the table has no such construction.

    Source
    ------
    [common-practice] row by row.

    Examples
    --------
    >>> construction("multi-layer-steel").sliding
    'well'
    """
    for kind in constructions():
        if kind.name == name:
            return kind
    raise TableGap("gasket_constructions", name, ", ".join(kind.name for kind in constructions()))


@dataclass(frozen=True)
class CodeFactors:
    """Gasket factor m [1] and seating stress y [MPa] of the pressure-vessel code."""

    key: str
    kind: str
    material: str
    factor: float
    seating_stress: float
    source: str


def code_factors(key: str) -> CodeFactors:
    """Gasket factor and seating stress that the pressure-vessel code suggests: order of size only.

    Parameters
    ----------
    key : str
        Key of tables/data/gasket_code_factors.csv [text].

    Returns
    -------
    CodeFactors
        Factor m [1] and seating stress y [MPa].

    Raises
    ------
    TableGap
        If the table has no such key.

    Valid for
    ---------
    Pipe flanges; suggested, not mandatory, there. For a head gasket orientation only.

    Source
    ------
    [asme-viii-2-2010] and [asme-viii-1-2010] row by row.

    Examples
    --------
    >>> code_factors("flat-copper").seating_stress
    90.0
    """
    for row in rows("gasket_code_factors"):
        if row["key"] == key:
            stress = parse(_stress(row), Kind.STRESS).value
            return CodeFactors(key, row["kind"], row["material"], float(row["m"]), stress, row["source"])
    raise TableGap("gasket_code_factors", key, ", ".join(row["key"] for row in rows("gasket_code_factors")))


def _stress(row: Row) -> str:
    return f"{row['y_mpa']} MPa" if row["y_mpa"] else f"{row['y_psi']} psi"
