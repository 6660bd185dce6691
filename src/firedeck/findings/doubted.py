"""A figure no sum can be done with: instead of an exception, the reading to take again."""

from firedeck.errors import OutOfRange
from firedeck.job import Joint
from firedeck.trace import Missing


def doubted(joint: Joint, fault: OutOfRange, path: str) -> Missing:
    """Turn a figure outside what a sum is valid for into what to measure once more."""
    return Missing(
        paths=(f"joint.{joint.name}.{path}",),
        measure=f"{fault.name.replace('_', ' ')} once more: {fault.found} cannot be",
        tool="the instrument it was read with",
        how=f"Wanted: {fault.allowed}. Look for a slip of unit or sign, or a figure in the wrong line.",
    )
