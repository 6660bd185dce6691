"""Gasket thickness class from how far the pistons stand, by the rule of the book."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from firedeck.cylinder.bounds import positive
from firedeck.errors import JobError
from firedeck.quantity import Outcome, meets
from firedeck.trace import DERIVED, GENERIC, Note, Step

RULES = ("highest", "highest-mean", "mean-of-all")


@dataclass(frozen=True)
class GasketClass:
    """Class by number from the thinnest, its thickness [mm], and the value that decided [mm]."""

    class_: str
    thickness: float | None
    deciding_value: float
    neighbour_spread: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


def gasket_class(
    protrusions: Sequence[Sequence[float]], classes: Sequence[tuple[float, float, float]], rule: str
) -> GasketClass:
    """Thickness class for the pistons as they stand.

    Parameters
    ----------
    protrusions : sequence of sequence of float
        Readings piston by piston in engine order, one or more each [mm].
    classes : sequence of (float, float, float)
        From, to and thickness of each class, thinnest first, bounds inclusive [mm].
    rule : str
        Rule of the book: highest, highest-mean or mean-of-all; books differ, there is no default [text].

    Returns
    -------
    GasketClass
        Class number from the thinnest, or where the value lies outside all of them [text],
        thickness [mm], deciding value [mm], largest step between neighbours [mm].

    Raises
    ------
    JobError
        If readings or classes are missing, the classes overlap, or the rule is another word.

    Source
    ------
    derived

    Examples
    --------
    >>> classes = [(0.91, 1.00, 1.53), (1.01, 1.10, 1.63), (1.11, 1.20, 1.73)]
    >>> found = gasket_class([[0.95], [1.02], [0.98], [0.97]], classes, "highest")
    >>> found.class_, found.thickness
    ('2', 1.63)
    """
    _check(protrusions, classes, rule)
    deciding = deciding_step(protrusions, rule)
    spread = neighbour_step(protrusions)
    name, thickness, caution = _place(deciding.value, classes)
    return GasketClass(
        name,
        thickness,
        deciding.value,
        spread.value,
        (deciding, spread),
        (Note(f"rule of the book: {rule}; another rule can give another class", GENERIC),),
        (caution,) if caution else (),
    )


def _check(
    protrusions: Sequence[Sequence[float]], classes: Sequence[tuple[float, float, float]], rule: str
) -> None:
    if rule not in RULES:
        raise JobError("gasket-class rule", repr(rule), f"allowed: {', '.join(RULES)}")
    if not protrusions or any(not readings for readings in protrusions):
        raise JobError("gasket-class protrusions", "no reading for a piston", "give one or more for each")
    if not classes:
        raise JobError("gasket-class classes", "no class", "give from/to/thickness of each")
    for low, high, thickness in classes:
        positive("thickness", thickness, "mm")
        if high <= low:
            raise JobError("gasket-class classes", f"{low:g} to {high:g} mm", "from must be less than to")
    for (_, end, _), (start, _, _) in pairwise(classes):
        if meets(start, low=end) is Outcome.FAILS:
            raise JobError(
                "gasket-class classes", f"{start:g} mm after {end:g} mm", "thinnest first, no overlap"
            )


def _means(protrusions: Sequence[Sequence[float]]) -> list[float]:
    return [sum(readings) / len(readings) for readings in protrusions]


def deciding_step(protrusions: Sequence[Sequence[float]], rule: str) -> Step:
    """Value of piston stand that decides the class, by the rule of the book.

    Parameters
    ----------
    protrusions : sequence of sequence of float
        Readings piston by piston in engine order, one or more each [mm].
    rule : str
        Rule of the book: highest, highest-mean or mean-of-all [text].

    Returns
    -------
    Step
        The sum; its value decides [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> deciding_step([[0.50, 0.52], [0.48, 0.49]], "highest").value
    0.52
    """
    if rule == "highest":
        values = [reading for readings in protrusions for reading in readings]
        says = "Highest single reading decides"
    else:
        values = _means(protrusions)
        says = "Highest piston mean decides" if rule == "highest-mean" else "Mean of all pistons decides"
    inputs = {f"stand_{n}": (value, "mm") for n, value in enumerate(values, start=1)}
    if rule == "mean-of-all":
        formula = f"({' + '.join(inputs)}) / {len(inputs)}"
    else:
        formula = f"max({', '.join(inputs)})" if len(inputs) > 1 else "stand_1"
    return Step.work_out(says, formula, inputs, ("deciding_value", "mm"), DERIVED)


def neighbour_step(protrusions: Sequence[Sequence[float]]) -> Step:
    """Largest step between the means of neighbouring pistons.

    Parameters
    ----------
    protrusions : sequence of sequence of float
        Readings piston by piston in engine order, one or more each [mm].

    Returns
    -------
    Step
        The sum; its value is the step [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> round(neighbour_step([[0.50], [0.47], [0.49]]).value, 3)
    0.03
    """
    means = _means(protrusions)
    inputs = {f"mean_{n}": (value, "mm") for n, value in enumerate(means, start=1)}
    pairs = [f"abs(mean_{n + 1} - mean_{n})" for n in range(1, len(means))]
    if not pairs:
        return Step.work_out("Only one piston", "0 * mean_1", inputs, ("neighbour_spread", "mm"), DERIVED)
    formula = f"max({', '.join(pairs)})" if len(pairs) > 1 else pairs[0]
    return Step.work_out(
        "Largest step between neighbours", formula, inputs, ("neighbour_spread", "mm"), DERIVED
    )


def _place(
    value: float, classes: Sequence[tuple[float, float, float]]
) -> tuple[str, float | None, Note | None]:
    for number, (low, high, thickness) in enumerate(classes, start=1):
        if meets(value, low, high) is not Outcome.FAILS:
            return str(number), thickness, None
    if value < classes[0][0]:
        short = classes[0][0] - value
        text = f"pistons stand {short:.3g} mm below the thinnest class: thinnest gasket, and the ratio is low"
        return "below 1", classes[0][2], Note(text, DERIVED)
    if value > classes[-1][1]:
        over = value - classes[-1][1]
        text = f"pistons stand {over:.3g} mm above the thickest class: no gasket of this list, find out why"
        return f"above {len(classes)}", None, Note(text, DERIVED)
    number = next(n for n, (low, _, _) in enumerate(classes, start=1) if value < low)
    text = f"value lies between class {number - 1} and {number}: the thicker is given, read again"
    return f"between {number - 1} and {number}", classes[number - 1][2], Note(text, DERIVED)
