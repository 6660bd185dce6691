"""How the compression ratio differs from cylinder to cylinder."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from firedeck.cylinder.volumes import CompressionRatio
from firedeck.errors import JobError
from firedeck.trace import DERIVED, NO_UNIT, Step


@dataclass(frozen=True)
class RatioSpread:
    """Ratios of all cylinders [1], the ends, and the difference between them."""

    ratios: Mapping[str, float]
    lowest: float
    highest: float
    spread: float
    steps: tuple[Step, ...]


def ratio_spread(by_cylinder: Mapping[str, CompressionRatio]) -> RatioSpread:
    """How much the compression ratio differs from cylinder to cylinder.

    Parameters
    ----------
    by_cylinder : mapping of str to CompressionRatio
        Result of each cylinder by its label [1].

    Returns
    -------
    RatioSpread
        Ratios by label, lowest, highest and their difference [1].

    Raises
    ------
    JobError
        If no cylinder is given.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.cylinder.volumes import ratio_of_volumes
    >>> one, two = ratio_of_volumes(500000.0, 50000.0), ratio_of_volumes(500000.0, 51000.0)
    >>> round(ratio_spread({"1": one, "2": two}).spread, 3)
    0.196
    """
    if not by_cylinder:
        raise JobError("ratio by cylinder", "no cylinder", "give at least one")
    ratios = {label: found.ratio for label, found in by_cylinder.items()}
    low, high = min(ratios.values()), max(ratios.values())
    step = Step.work_out(
        "Highest less lowest ratio",
        "highest - lowest",
        {"highest": (high, NO_UNIT), "lowest": (low, NO_UNIT)},
        ("spread", NO_UNIT),
        DERIVED,
    )
    return RatioSpread(MappingProxyType(ratios), low, high, step.value, (step,))
