"""Text to core numbers and back: the only room with conversion factors.

    characters   what keyboards make, as plain ASCII
    tokens       numbers, words, marks
    amounts      the number at the front, also in words and fractions
    kinds        length, torque, gauge pressure ... and their core units
    factors      the table of units
    units        finding a unit; in_unit, from_unit
    refusals     what is said when a text could mean two things
    reading      parse
    lists        parse_list, parse_rows
    columns      read_columns: CSV with units in its header
    compare      meets
    showing      show, show_both, number
    guard        slips

Core units: mm (finish too), mm², mm³, rad, N, N·mm, MPa, °C, K for a change, N/mm, kg, s, rpm.

>>> from firedeck.quantity import Kind, meets, parse, show
>>> reading = parse("4 thou", Kind.LENGTH)
>>> show(reading.value, Kind.LENGTH, "mm")
'0.102 mm'
>>> meets(reading, high=parse("0.1016 mm", Kind.LENGTH)).value
'at-limit'
"""

from firedeck.quantity.columns import Columns, read_columns
from firedeck.quantity.compare import Outcome, meets
from firedeck.quantity.factors import Unit
from firedeck.quantity.guard import slips
from firedeck.quantity.kinds import Kind, core_unit, is_number, json_unit
from firedeck.quantity.lists import parse_list, parse_rows, split_list, split_rows
from firedeck.quantity.reading import Quantity, parse
from firedeck.quantity.showing import System, number, show, show_both
from firedeck.quantity.units import UNITS, from_unit, in_unit

__all__ = [
    "UNITS",
    "Columns",
    "Kind",
    "Outcome",
    "Quantity",
    "System",
    "Unit",
    "core_unit",
    "from_unit",
    "in_unit",
    "is_number",
    "json_unit",
    "meets",
    "number",
    "parse",
    "parse_list",
    "parse_rows",
    "read_columns",
    "show",
    "show_both",
    "slips",
    "split_list",
    "split_rows",
]
