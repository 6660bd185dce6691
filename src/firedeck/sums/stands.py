"""Sums of what stands above the block: gasket thickness class by the pistons, step between liners."""

from firedeck.cylinder.liners import limits_in_order, liner_step
from firedeck.cylinder.piston_class import gasket_class
from firedeck.cylinder.thickness import compressed_thickness
from firedeck.quantity import Kind
from firedeck.sums.readings_by_cylinder import readings_by_cylinder
from firedeck.sums.registry import Figure, Rows, SumResult, a_sum
from firedeck.sums.written import written

_CLASS = (Kind.LENGTH, Kind.LENGTH, Kind.LENGTH)


@a_sum("gasket-class", rows={"classes": _CLASS})
def gasket_class_sum(protrusions: str, classes: Rows, rule: str) -> SumResult:
    """Thickness class of the gasket for the pistons as they stand, by the rule of the book."""
    pistons = readings_by_cylinder("gasket-class protrusions", protrusions)
    if len(pistons) == 1:
        pistons = tuple((reading,) for reading in pistons[0])
    found = gasket_class(pistons, [(low, high, thickness) for low, high, thickness in classes], rule)
    results = {
        "class": Figure(found.class_),
        "thickness": Figure(found.thickness, Kind.LENGTH),
        "deciding_value": Figure(found.deciding_value, Kind.LENGTH),
        "neighbour_spread": Figure(found.neighbour_spread, Kind.LENGTH),
    }
    return written(found, results)


@a_sum("liner-step")
def liner_step_sum(readings: str, limits: tuple[float, ...]) -> SumResult:
    """Spread round each liner and step from liner to liner, held against the limits of the book."""
    found = liner_step(readings_by_cylinder("liner-step readings", readings), limits_in_order(limits))
    results = {
        "spread_within": Figure(found.spread_within, Kind.LENGTH),
        "step_between": Figure(found.step_between, Kind.LENGTH),
        "verdict": Figure(found.verdict.value),
    }
    return written(found, results)


@a_sum("pressed-thickness")
def pressed_thickness_sum(free_thickness: float, construction: str | None = None) -> SumResult:
    """What a gasket may come to when it is pressed, from its free thickness."""
    found = compressed_thickness(free_thickness, "free", construction)
    results = {"thinnest": Figure(found.low, Kind.LENGTH), "thickest": Figure(found.high, Kind.LENGTH)}
    return written(found, results)
