"""What heads, blocks, bolts and the things between them are made of."""

from dataclasses import dataclass

from firedeck.errors import TableGap
from firedeck.tables.book import Row, rows


@dataclass(frozen=True)
class Material:
    """A material; a range is low to high, None where the table is silent.

    ``modulus`` in MPa, ``expansion`` per K, strengths in MPa. ``bearing_yield`` is the stress at
    which a face under a bolt head begins to sink.
    """

    name: str
    family: str
    modulus: tuple[float, float]
    poisson: float
    expansion: tuple[float, float]
    tensile: tuple[float, float] | None
    yield_stress: tuple[float, float] | None
    shear: tuple[float, float] | None
    bearing_yield: float | None
    says: str
    source: str

    @property
    def usual_modulus(self) -> float:
        """Middle of the range of the modulus [MPa]."""
        return sum(self.modulus) / 2

    @property
    def usual_expansion(self) -> float:
        """Middle of the range of the expansion [1/K]."""
        return sum(self.expansion) / 2


def material(name: str) -> Material:
    """Return one material by name.

    Parameters
    ----------
    name : str
        As in tables/data/materials.csv: aluminium, grey-iron, steel, aluminium-356 ... [text].

    Returns
    -------
    Material
        Its figures [core].

    Raises
    ------
    TableGap
        If the table has no such material.

    Valid for
    ---------
    Room temperature.

    Source
    ------
    [public-alloy-table], [grey-iron-classes], [mdme-ferrous] and others, named in each row.

    Examples
    --------
    >>> material("aluminium-356").modulus
    (70000.0, 70000.0)
    """
    wanted = "-".join(name.strip().lower().split()).replace("gray", "grey").replace("aluminum", "aluminium")
    for row in rows("materials"):
        if row["material"] == wanted:
            return _read(row)
    raise TableGap("materials", repr(name), ", ".join(row["material"] for row in rows("materials")))


def _read(row: Row) -> Material:
    return Material(
        name=row["material"],
        family=row["family"],
        modulus=(float(row["modulus_low"]) * 1e3, float(row["modulus_high"]) * 1e3),
        poisson=float(row["poisson"]),
        expansion=(float(row["expansion_low"]) * 1e-6, float(row["expansion_high"]) * 1e-6),
        tensile=_range(row, "tensile"),
        yield_stress=_range(row, "yield"),
        shear=_range(row, "shear"),
        bearing_yield=float(row["bearing_yield"]) if row["bearing_yield"] else None,
        says=row["says"],
        source=row["source"],
    )


def _range(row: Row, what: str) -> tuple[float, float] | None:
    low, high = row[f"{what}_low"], row[f"{what}_high"]
    return (float(low), float(high)) if low and high else None
