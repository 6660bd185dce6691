"""The conversion factors: the only place in firedeck where they stand.

Every factor is an exact fraction: how many core units one such unit is. The inch, the pound, the
standard fall of gravity and the conventional millimetre of mercury are exact by definition, and all
the others follow from them. Angles are kept exactly in degrees; the radian is the only factor here
that is not a fraction, and it is rounded at fifty digits.

Spellings are written in the form that ``units.key`` makes of what a person types: ``.`` joins words,
``/`` divides, powers are plain digits.
"""

from dataclasses import dataclass
from fractions import Fraction

from firedeck.quantity.kinds import Kind

SI, SP811, OURS = "si-brochure", "nist-sp811", "generic-ours"

INCH = Fraction("25.4")
POUND = Fraction("0.45359237")
GRAVITY = Fraction("9.80665")
POUND_FORCE = POUND * GRAVITY
PSI = POUND_FORCE / INCH**2
MMHG = Fraction("13595.1") * GRAVITY / 10**9
DEGREES_IN_RADIAN = Fraction("57.295779513082320876798154814105170332405472466564")


@dataclass(frozen=True)
class Unit:
    """One unit: ``core = (number - zero) * factor``.

    ``exact_case`` marks units where a capital letter is a factor of a thousand million (MPa, mPa),
    so that the spelling must match to the letter.
    """

    name: str
    factor: Fraction
    kinds: tuple[Kind, ...]
    spellings: tuple[str, ...]
    source: str
    zero: Fraction = Fraction(0)
    exact_case: bool = False


def _unit(
    name: str,
    factor: Fraction | int | str,
    kinds: str,
    spellings: str,
    source: str = SI,
    *,
    zero: str = "0",
    exact_case: bool = False,
) -> Unit:
    known_as = tuple(spellings.split())
    of_kinds = tuple(Kind(kind) for kind in kinds.split())
    return Unit(name, Fraction(factor), of_kinds, known_as, source, Fraction(zero), exact_case)


_LENGTH = "length finish"
_PRESSURE = "pressure-gauge pressure-absolute"
_STRESS = "stress pressure-gauge pressure-absolute"
_PER_LENGTH = "stiffness line-load"

ROWS: tuple[Unit, ...] = (
    # lengths, finishes and distances, kept in mm
    _unit("mm", 1, "length finish distance", "mm millimetre millimetres millimeter millimeters"),
    _unit("cm", 10, "length", "cm centimetre centimetres centimeter centimeters"),
    _unit("m", 1000, "length distance", "m metre metres meter meters"),
    _unit("km", 10**6, "distance", "km kms kilometre kilometres kilometer kilometers"),
    _unit("µm", "0.001", _LENGTH, "um micron microns micrometre micrometres micrometer micrometers"),
    _unit("nm", "0.000001", "finish", "nm nanometre nanometres nanometer nanometers"),
    _unit("in", INCH, _LENGTH, "in ins inch inches \" ''", SP811),
    _unit(
        "thou",
        INCH / 1000,
        _LENGTH,
        "thou thous thousandths.of.an.inch thousandth.of.an.inch thousandths.inch thousandths.in",
        SP811,
    ),
    _unit(
        "µin",
        INCH / 10**6,
        _LENGTH,
        'uin uinch uinches microinch microinches micro.inch micro.inches micro.in u.in u.inch u"',
        SP811,
    ),
    _unit("ft", INCH * 12, "length distance", "ft foot feet", SP811),
    _unit("mile", INCH * 63360, "distance", "mi mile miles", SP811),
    # areas, kept in mm²
    _unit("mm²", 1, "area", "mm2 sq.mm sqmm square.mm square.millimetres square.millimeters"),
    _unit("cm²", 100, "area", "cm2 sq.cm sqcm square.cm square.centimetres square.centimeters"),
    _unit("m²", 10**6, "area", "m2 sq.m square.metres square.meters"),
    _unit("in²", INCH**2, "area", "in2 sq.in sqin sq.inch sq.inches square.inch square.inches", SP811),
    # volume per depth of a cut, which is an area
    _unit("cc/mm", 1000, "area", "cc/mm ccm/mm ml/mm cm3/mm cc.per.mm"),
    _unit("cc/thou", 1000 / (INCH / 1000), "area", "cc/thou ml/thou cm3/thou cc.per.thou", SP811),
    _unit("cc/in", 1000 / INCH, "area", "cc/in cc/inch ml/in cc.per.in cc.per.inch", SP811),
    # volumes, kept in mm³
    _unit("cc", 1000, "volume", "cc ccm ccs cm3 ml cu.cm cubic.cm cubic.centimetres cubic.centimeters"),
    _unit("mm³", 1, "volume", "mm3 cu.mm cubic.mm"),
    _unit("l", 10**6, "volume", "l litre litres liter liters ltr dm3"),
    _unit(
        "cu in",
        INCH**3,
        "volume",
        "cu.in cuin cu.ins cu.inch cu.inches in3 ci cid cubic.in cubic.inch cubic.inches",
        SP811,
    ),
    # angles, kept exactly in degrees
    _unit("deg", 1, "angle", "deg degs degree degrees"),
    _unit("turn", 360, "angle", "turn turns rev revs revolution revolutions of.a.turn of.turn"),
    _unit("rad", DEGREES_IN_RADIAN, "angle", "rad radian radians"),
    _unit("mrad", DEGREES_IN_RADIAN / 1000, "angle", "mrad milliradian milliradians"),
    _unit("arcmin", Fraction(1, 60), "angle", "arcmin arcmins arc.min arcminute arcminutes minutes.of.arc"),
    _unit("arcsec", Fraction(1, 3600), "angle", "arcsec arcsecs arc.sec arcsecond arcseconds seconds.of.arc"),
    # slopes of a level, as the angle they are: within a millionth up to 1.7 mm/m
    _unit("mm/m", DEGREES_IN_RADIAN / 1000, "angle", "mm/m mm/metre mm/meter"),
    _unit("µm/m", DEGREES_IN_RADIAN / 10**6, "angle", "um/m um/metre um/meter micron/m microns/m"),
    _unit("in/ft", DEGREES_IN_RADIAN / 12, "angle", "in/ft in/foot inch/ft inch/foot inches/foot"),
    _unit("thou/ft", DEGREES_IN_RADIAN / 12000, "angle", "thou/ft thou/foot"),
    # forces, kept in N
    _unit("N", 1, "force", "N newton newtons"),
    _unit("daN", 10, "force", "daN decanewton decanewtons"),
    _unit("kN", 1000, "force", "kN kilonewton kilonewtons"),
    _unit("MN", 10**6, "force", "MN", exact_case=True),
    _unit("kgf", GRAVITY, "force", "kgf kg kp kilopond", SP811),
    _unit("lbf", POUND_FORCE, "force", "lbf lb lbs pound pounds # pounds.force pound.force", SP811),
    _unit("kip", POUND_FORCE * 1000, "force", "kip kips klbf", SP811),
    # torques, kept in N·mm
    _unit("N·m", 1000, "torque", "N.m Nm newton.metre newton.metres newton.meter newton.meters m.N"),
    _unit("N·mm", 1, "torque", "N.mm Nmm"),
    _unit("N·cm", 10, "torque", "N.cm Ncm"),
    _unit("kN·m", 10**6, "torque", "kN.m kNm"),
    _unit("daN·m", 10**4, "torque", "daN.m daNm m.daN mdaN"),
    _unit(
        "kgf·m",
        GRAVITY * 1000,
        "torque",
        "kgf.m kgfm kg.m kgm mkg m.kg mkgf m.kgf kp.m kpm mkp m.kp",
        SP811,
    ),
    _unit("kgf·cm", GRAVITY * 10, "torque", "kgf.cm kgfcm kg.cm kgcm cmkg cm.kg cm.kgf kp.cm kpcm", SP811),
    _unit(
        "lbf·ft",
        POUND_FORCE * INCH * 12,
        "torque",
        "lbf.ft lbfft ft.lbf ftlbf lb.ft lbft lbs.ft lbsft ft.lb ftlb ft.lbs ftlbs ft/lb ft/lbs lb/ft lbs/ft "
        "foot.pound foot.pounds foot.lb foot.lbs pound.foot pound.feet pounds.foot pounds.feet ft.# ft#",
        SP811,
    ),
    _unit(
        "lbf·in",
        POUND_FORCE * INCH,
        "torque",
        "lbf.in lbfin in.lbf inlbf lb.in lbin lbs.in lbsin in.lb inlb in.lbs inlbs in/lb in/lbs lb/in lbs/in "
        "inch.pound inch.pounds inch.lb inch.lbs pound.inch pound.inches pounds.inch pounds.inches in.# in#",
        SP811,
    ),
    # stresses and pressures, kept in MPa
    _unit("MPa", 1, _STRESS, "MPa Mpa MPA N/mm2 n/mm2 megapascal megapascals", exact_case=True),
    _unit("GPa", 1000, "stress", "GPa kN/mm2 gigapascal gigapascals"),
    _unit("kPa", "0.001", _STRESS, "kPa kilopascal kilopascals"),
    _unit("hPa", "0.0001", _PRESSURE, "hPa hectopascal hectopascals"),
    _unit("Pa", "0.000001", _STRESS, "Pa pascal pascals N/m2"),
    _unit("bar", "0.1", _STRESS, "bar bars"),
    _unit("mbar", "0.0001", _PRESSURE, "mbar millibar millibars"),
    _unit("kgf/cm²", GRAVITY / 100, _PRESSURE, "kgf/cm2 kg/cm2 kp/cm2 at", SP811),
    _unit("kgf/mm²", GRAVITY, "stress", "kgf/mm2 kg/mm2 kp/mm2", SP811),
    _unit(
        "psi",
        PSI,
        _STRESS,
        "psi lbf/in2 lb/in2 lbs/in2 lbf/sq.in lb/sq.in lbs/sq.in pounds/square.inch lbs/square.inch",
        SP811,
    ),
    _unit("ksi", PSI * 1000, "stress", "ksi kpsi kip/in2 kips/in2", SP811),
    _unit("Mpsi", PSI * 10**6, "stress", "Mpsi MPSI Msi", SP811, exact_case=True),
    _unit("psig", PSI, "pressure-gauge", "psig psi.g psi.gauge", SP811),
    _unit("bar gauge", "0.1", "pressure-gauge", "barg bar.g bar.gauge"),
    _unit("psia", PSI, "pressure-absolute", "psia psi.a psi.abs psi.absolute", SP811),
    _unit("bar abs", "0.1", "pressure-absolute", "bar.abs bara bar.a bar.absolute"),
    _unit("kPa abs", "0.001", "pressure-absolute", "kPa.abs kPaa kPa.a kPa.absolute"),
    _unit("mmHg", MMHG, _PRESSURE, "mmHg mm.Hg torr", SP811),
    _unit("inHg", MMHG * INCH, _PRESSURE, 'inHg in.Hg "Hg ".Hg inches.Hg inches.of.mercury', SP811),
    _unit("atm", "0.101325", _PRESSURE, "atm", SP811),
    # temperatures, kept in °C, and their changes, kept in K
    _unit("°C", 1, "temperature", "degC C deg.C degrees.C degree.C celsius degrees.celsius"),
    _unit(
        "°F",
        Fraction(5, 9),
        "temperature",
        "degF F deg.F degrees.F degree.F fahrenheit degrees.fahrenheit",
        SP811,
        zero="32",
    ),
    _unit("K", 1, "temperature", "K kelvin kelvins degK", zero="273.15"),
    _unit("K", 1, "temperature-change", "K kelvin kelvins degK"),
    _unit("°C", 1, "temperature-change", "degC C deg.C degrees.C degree.C celsius degrees.celsius"),
    _unit(
        "°F",
        Fraction(5, 9),
        "temperature-change",
        "degF F deg.F degrees.F degree.F fahrenheit degrees.fahrenheit",
        SP811,
    ),
    # stiffness and load per length, kept in N/mm
    _unit("N/mm", 1, _PER_LENGTH, "N/mm"),
    _unit("N/m", "0.001", _PER_LENGTH, "N/m"),
    _unit("N/cm", "0.1", _PER_LENGTH, "N/cm"),
    _unit("N/µm", 1000, _PER_LENGTH, "N/um"),
    _unit("kN/m", 1, _PER_LENGTH, "kN/m"),
    _unit("kN/mm", 1000, _PER_LENGTH, "kN/mm"),
    _unit("MN/m", 1000, _PER_LENGTH, "MN/m", exact_case=True),
    _unit("kgf/mm", GRAVITY, _PER_LENGTH, "kgf/mm kg/mm kp/mm", SP811),
    _unit("kgf/cm", GRAVITY / 10, _PER_LENGTH, "kgf/cm kg/cm kp/cm", SP811),
    _unit("lbf/in", POUND_FORCE / INCH, _PER_LENGTH, "lbf/in lb/in lbs/in lbf/inch lb/inch pli", SP811),
    _unit("kip/in", POUND_FORCE * 1000 / INCH, _PER_LENGTH, "kip/in kips/in klbf/in klb/in", SP811),
    _unit("Mlbf/in", POUND_FORCE * 10**6 / INCH, _PER_LENGTH, "Mlbf/in Mlb/in", SP811, exact_case=True),
    # mass, time and turning, kept in kg, s and rpm
    _unit("kg", 1, "mass", "kg kgs kilo kilos kilogram kilograms"),
    _unit("g", "0.001", "mass", "g gram grams"),
    _unit("lb", POUND, "mass", "lb lbs pound pounds #", SP811),
    _unit("oz", POUND / 16, "mass", "oz ounce ounces", SP811),
    _unit("s", 1, "time", "s sec secs second seconds"),
    _unit("min", 60, "time", "min mins minute minutes"),
    _unit("h", 3600, "time", "h hr hrs hour hours"),
    _unit("day", 86400, "time", "day days d"),
    _unit("week", 604800, "time", "week weeks wk wks"),
    _unit("rpm", 1, "speed", "rpm r/min rev/min revs/min 1/min /min min.1 r.p.m"),
    # heat per mass [kJ/kg]
    _unit("kJ/kg", 1, "specific-energy", "kJ/kg kj/kg J/g"),
    _unit("MJ/kg", 1000, "specific-energy", "MJ/kg", exact_case=True),
    _unit("BTU/lb", "2.326", "specific-energy", "BTU/lb btu/lb Btu/lbm BTU/lbm", SP811),
    # plain numbers
    _unit("", 1, "ratio share count", "", OURS),
    _unit(":1", 1, "ratio", ":1 to.1 to.one", OURS),
    _unit("%", "0.01", "share", "% percent pc /cent", OURS),
    # hardness keeps its scale
    _unit("HB", 1, "hardness", "HB HBW BHN brinell", OURS),
    _unit("HV", 1, "hardness", "HV vickers", OURS),
    _unit("HRB", 1, "hardness", "HRB", OURS),
    _unit("HRC", 1, "hardness", "HRC", OURS),
)
