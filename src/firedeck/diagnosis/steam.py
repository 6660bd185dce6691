"""Boiling of water: the saturation line of the industrial formulation for water and steam."""

from firedeck.errors import OutOfRange
from firedeck.tables import rows
from firedeck.trace import Figure, Step

_SOURCE = "iapws-if97"
_LEAST, _MOST = 611.213e-6, 22.064


def _coefficients(*names: str) -> dict[str, Figure]:
    table = {row["name"]: float(row["value"]) for row in rows("if97_saturation")}
    return {name: (table[name], "1") for name in names}


def boiling_of_water(pressure: float) -> tuple[Step, ...]:
    """Temperature at which water boils.

    Parameters
    ----------
    pressure : float
        Absolute pressure over the water [MPa].

    Returns
    -------
    tuple of Step
        The written sum; the last step is the temperature [°C].

    Raises
    ------
    OutOfRange
        Outside the saturation line.

    Valid for
    ---------
    611.213 Pa to 22.064 MPa.

    Source
    ------
    [iapws-if97] equation 31, backward equation of region 4.

    Examples
    --------
    >>> round(boiling_of_water(0.1)[-1].value + 273.15, 6)
    372.755919
    """
    if not _LEAST <= pressure <= _MOST:
        raise OutOfRange("pressure", f"{pressure:.6g} MPa absolute", f"allowed: {_LEAST:.3g} to {_MOST} MPa")
    beta = Step.work_out(
        "Fourth root of the pressure in MPa",
        "pressure**0.25",
        {"pressure": (pressure, "MPa")},
        ("beta", "1"),
        _SOURCE,
    )
    parts = [beta]
    for name, formula, names in (
        ("E", "beta**2 + n3 * beta + n6", ("n3", "n6")),
        ("F", "n1 * beta**2 + n4 * beta + n7", ("n1", "n4", "n7")),
        ("G", "n2 * beta**2 + n5 * beta + n8", ("n2", "n5", "n8")),
    ):
        inputs = {"beta": beta.figure(), **_coefficients(*names)}
        parts.append(
            Step.work_out(f"Term {name} of the saturation line", formula, inputs, (name, "1"), _SOURCE)
        )
    e, f, g = (part.figure() for part in parts[1:])
    d = Step.work_out(
        "Term D of the saturation line",
        "2 * G / (-F - sqrt(F**2 - 4 * E * G))",
        {"E": e, "F": f, "G": g},
        ("D", "1"),
        _SOURCE,
    )
    kelvin = Step.work_out(
        "Boiling point of water above absolute zero",
        "(n10 + D - sqrt((n10 + D)**2 - 4 * (n9 + n10 * D))) / 2",
        {"D": d.figure(), **_coefficients("n9", "n10")},
        ("kelvin", "K"),
        _SOURCE,
    )
    celsius = Step.work_out(
        "Boiling point of water", "kelvin - 273.15", {"kelvin": kelvin.figure()}, ("boiling", "°C"), _SOURCE
    )
    return (*parts, d, kelvin, celsius)


def pressure_of_steam(temperature: float) -> tuple[Step, ...]:
    """Pressure at which water of this temperature boils.

    Parameters
    ----------
    temperature : float
        Temperature of the water [°C].

    Returns
    -------
    tuple of Step
        The written sum; the last step is the absolute pressure [MPa].

    Raises
    ------
    OutOfRange
        Outside the saturation line.

    Valid for
    ---------
    0 to 373.946 °C.

    Source
    ------
    [iapws-if97] equation 30, region 4.

    Examples
    --------
    >>> round(pressure_of_steam(226.85)[-1].value, 8)
    2.63889776
    """
    if not 0.0 <= temperature <= 373.946:
        raise OutOfRange("temperature", f"{temperature:.6g} °C", "allowed: 0 to 373.946 °C")
    theta = Step.work_out(
        "Shifted temperature",
        "kelvin + n9 / (kelvin - n10)",
        {"kelvin": (temperature + 273.15, "K"), **_coefficients("n9", "n10")},
        ("theta", "K"),
        _SOURCE,
    )
    parts = [theta]
    for name, formula, names in (
        ("A", "theta**2 + n1 * theta + n2", ("n1", "n2")),
        ("B", "n3 * theta**2 + n4 * theta + n5", ("n3", "n4", "n5")),
        ("C", "n6 * theta**2 + n7 * theta + n8", ("n6", "n7", "n8")),
    ):
        inputs = {"theta": theta.figure(), **_coefficients(*names)}
        parts.append(
            Step.work_out(f"Term {name} of the saturation line", formula, inputs, (name, "1"), _SOURCE)
        )
    a, b, c = (part.figure() for part in parts[1:])
    pressure = Step.work_out(
        "Pressure at which plain water of this temperature boils",
        "(2 * C / (-B + sqrt(B**2 - 4 * A * C)))**4",
        {"A": a, "B": b, "C": c},
        ("steam_pressure", "MPa"),
        _SOURCE,
    )
    return (*parts, pressure)
