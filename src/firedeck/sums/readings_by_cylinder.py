"""Reading of several readings per cylinder: cells by "/", cylinders by "," or ";", one unit may serve all."""

from firedeck.errors import BadQuantity, JobError
from firedeck.quantity import Kind, parse, split_rows
from firedeck.quantity.reading import is_bare, unit_text

Readings = tuple[tuple[float, ...], ...]


def readings_by_cylinder(where: str, text: str, kind: Kind = Kind.LENGTH) -> Readings:
    """Core numbers cylinder by cylinder.

    >>> readings_by_cylinder("protrusions", "0.94/0.96, 0.95/0.95 mm")
    ((0.94, 0.96), (0.95, 0.95))
    """
    try:
        rows = split_rows(text)
        cells = [cell for row in rows for cell in row]
        shared = ""
        if len(cells) > 1 and all(is_bare(cell, kind) for cell in cells[:-1]):
            shared = unit_text(cells[-1], kind)
        last = len(cells) - 1
        values = [
            parse(f"{cell} {shared}" if shared and place < last else cell, kind).value
            for place, cell in enumerate(cells)
        ]
    except BadQuantity as fault:
        raise JobError(where, repr(fault.found), fault.allowed) from fault
    numbers = iter(values)
    return tuple(tuple(next(numbers) for _ in row) for row in rows)
