"""Heights as printed on a map: millimetres to three decimals, or thou to one."""

from firedeck.quantity import Kind, System, in_unit


def unit_of(system: System) -> str:
    """Return the unit heights are printed in."""
    return "mm" if system == "mm" else "thou"


def printed(height: float, system: System) -> str:
    """Return a height without its unit, its sign always shown."""
    number = in_unit(height, Kind.LENGTH, unit_of(system))
    decimals = 3 if system == "mm" else 1
    text = f"{number:+.{decimals}f}"
    return text.lstrip("+-") if float(text) == 0 else text.replace("-", "−")
