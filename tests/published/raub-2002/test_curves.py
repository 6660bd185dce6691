"""Measured pressing curves as held in the table: the printed points, and shapes that a gasket must have."""

from cases import Row, published

from firedeck.tables import rows


def held(part: str, path: str) -> list[tuple[float, float]]:
    return [
        (float(row["stress"]), float(row["deflection"]))
        for row in rows("gasket_curves")
        if (row["part"], row["path"]) == (part, path)
    ]


@published(__file__, "curves.csv")
def test_curve(row: Row) -> None:
    printed = [tuple(float(cell) for cell in point.split(":")) for point in row["points"].split()]
    found = held(row["part"], row["path"])
    assert found == printed
    by_deflection = sorted(found, key=lambda point: point[1])
    assert by_deflection == sorted(found)
    assert len({deflection for _, deflection in found}) == len(found)
