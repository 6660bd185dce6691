"""A written sum: what it says, its formula, the figures that went in and the one that came out."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from firedeck.trace.formula import FormulaError, evaluate, input_names

Figure = tuple[float, str]
"""A number and its unit, as printed."""

NO_UNIT = "1"


def as_printed(number: float) -> float:
    """Round to the six significant digits a written sum is printed with.

    A small difference of large figures is worked out from figures as printed, so that whoever does the
    sum again gets the same.

    Parameters
    ----------
    number : float
        Any figure [core].

    Returns
    -------
    float
        The figure with six significant digits [core].

    Source
    ------
    derived

    Examples
    --------
    >>> as_printed(109.77764)
    109.778
    """
    return float(f"{number:.6g}")


@dataclass(frozen=True)
class Step:
    """One line of a sum, kept so that anybody can do it again.

    Made with :meth:`work_out`, the result *is* the formula worked out from the inputs.
    """

    says: str
    formula: str
    inputs: Mapping[str, Figure]
    result: Mapping[str, Figure]
    source: str

    def __post_init__(self) -> None:
        missing = input_names(self.formula) - self.inputs.keys()
        if missing or len(self.result) != 1:
            raise FormulaError(f"{self.formula}: inputs {sorted(missing)} are not given, or not one result")
        object.__setattr__(self, "inputs", MappingProxyType(dict(self.inputs)))
        object.__setattr__(self, "result", MappingProxyType(dict(self.result)))

    @classmethod
    def work_out(
        cls, says: str, formula: str, inputs: Mapping[str, Figure], result: tuple[str, str], source: str
    ) -> "Step":
        """Make a step by working its formula out.

        Parameters
        ----------
        says : str
            What the sum is, in the words of the trade [text].
        formula : str
            Arithmetic over the input names, core units, angles in rad [text].
        inputs : mapping of str to (float, str)
            Each figure with its unit [core].
        result : (str, str)
            Name and unit of the result [text].
        source : str
            Source key of the formula [text].

        Returns
        -------
        Step
            The step with its result [core].

        Source
        ------
        derived

        Examples
        --------
        >>> Step.work_out("Bore area", "pi / 4 * bore**2", {"bore": (2.0, "mm")}, ("area", "mm²"), "derived").value
        3.141592653589793
        """
        value = evaluate(formula, {name: number for name, (number, _) in inputs.items()})
        name, unit = result
        return cls(says, formula, inputs, {name: (value, unit)}, source)

    @property
    def value(self) -> float:
        """The number that came out, in core units."""
        ((number, _),) = self.result.values()
        return number

    def figure(self) -> Figure:
        """The number that came out with its unit, ready to be the input of a later step."""
        (figure,) = self.result.values()
        return figure
