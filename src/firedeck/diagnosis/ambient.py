"""Air pressure at a height above the sea."""

from firedeck.errors import OutOfRange
from firedeck.trace import Step

SEA_LEVEL = 0.101325
_LOWEST, _HIGHEST = -1.0e6, 11.0e6


def ambient_pressure(altitude: float) -> Step:
    """Air pressure of the standard atmosphere.

    Parameters
    ----------
    altitude : float
        Height above the sea [mm].

    Returns
    -------
    Step
        The written sum; its value is the absolute pressure [MPa].

    Raises
    ------
    OutOfRange
        Below -1 km or above 11 km.

    Valid for
    ---------
    The lowest layer; geopotential height taken as height (0.05 % apart at 4 km).

    Source
    ------
    [iso-2533] pressure of the layer with 6.5 K/km.

    Examples
    --------
    >>> round(ambient_pressure(1.0e6).value * 1e6)
    89875
    """
    if not _LOWEST <= altitude <= _HIGHEST:
        raise OutOfRange("altitude", f"{altitude / 1000:.6g} m", "allowed: -1000 m to 11000 m")
    return Step.work_out(
        "Air pressure at this height",
        "sea_level * (1 - lapse * altitude / temperature)**5.25588",
        {
            "sea_level": (SEA_LEVEL, "MPa"),
            "lapse": (6.5e-6, "K/mm"),
            "altitude": (altitude, "mm"),
            "temperature": (288.15, "K"),
        },
        ("ambient", "MPa"),
        "iso-2533",
    )
