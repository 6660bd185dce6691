"""Ink, paper, and twelve steps of one hue from dark to light.

Every step is lighter than the one before by the same amount to the eye, so the order survives a
copier that knows no colour. The palest grey, lighter than all of them, means "not measured".
"""

STEPS = (
    "#032d2f",
    "#013d3f",
    "#044d50",
    "#0f5d61",
    "#1f6e72",
    "#317f83",
    "#458f93",
    "#5ba0a4",
    "#72b0b4",
    "#8bc1c3",
    "#a6d0d2",
    "#c3e0e1",
)
NOT_MEASURED = "#f4f4f1"
INK = "#161616"
FAINT = "#6a6a6a"
PAPER = "#ffffff"


def step_of(value: float, low: float, high: float) -> int:
    """Return which of the twelve steps a value falls in, 0 the darkest and lowest."""
    if not high > low:
        return len(STEPS) // 2
    share = (value - low) / (high - low)
    return min(int(share * len(STEPS)), len(STEPS) - 1)
