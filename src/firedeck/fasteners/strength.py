"""Strength classes of bolts and studs, and the loads they mean for a thread."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners.guards import above_nought
from firedeck.fasteners.threads import Thread
from firedeck.fasteners.waist import weakest_section
from firedeck.quantity import Kind, parse
from firedeck.tables import Row, rows
from firedeck.trace import Note, Step


@dataclass(frozen=True)
class StrengthClass:
    """Least strengths of a class at one size [MPa]; ``source`` is where they stand."""

    name: str
    tensile_stress: float
    yield_stress: float
    proof_stress: float
    source: str


@dataclass(frozen=True)
class BoltStrength:
    """What a bolt bears: area in mm², loads in N, stresses in MPa."""

    stress_area: float
    proof_load: float
    yield_load: float
    tensile_load: float
    strength: StrengthClass
    steps: tuple[Step, ...]
    notes: tuple[Note, ...] = ()


def class_of(text: str, thread: Thread) -> StrengthClass:
    """Find the least strengths of a class for the size of a thread.

    Parameters
    ----------
    text : str
        8.8, 9.8, 10.9, 12.9 (also 4.6 to 6.8), sae-2, sae-5, sae-8 [text].
    thread : Thread
        The thread the strengths are for [core].

    Returns
    -------
    StrengthClass
        Least tensile, yield and proof stress [MPa].

    Raises
    ------
    TableGap
        If the class is not known, or is not made in this size.

    Valid for
    ---------
    Steel bolts, screws and studs at room temperature.

    Source
    ------
    [iso-898-1] and [sae-j429].

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> class_of("8.8", thread_of("M12")).proof_stress
    580.0
    """
    name = _class_name(text)
    known = [row for row in rows("property_classes") if row["class"] == name]
    if not known:
        names = dict.fromkeys(row["class"] for row in rows("property_classes"))
        raise TableGap("property_classes", f"class {text!r}", ", ".join(names))
    for row in known:
        if _length(row["over"]) < thread.major_diameter <= _length(row["up_to"]):
            return StrengthClass(
                name, _stress(row, "tensile"), _stress(row, "yield"), _stress(row, "proof"), row["source"]
            )
    raise TableGap("property_classes", f"class {name} in {thread.name}", f"{name} up to {known[-1]['up_to']}")


def _class_name(text: str) -> str:
    name = "-".join(text.strip().lower().replace("_", " ").split())
    for spelled in ("grade-", "sae-grade-", "sae"):
        if name.startswith(spelled) and name[len(spelled) :].isdigit():
            return f"sae-{name[len(spelled) :]}"
    return name


def _length(text: str) -> float:
    return parse(text, Kind.LENGTH).value


def _stress(row: Row, column: str) -> float:
    return parse(row[column], Kind.STRESS).value


def bolt_strength(thread: Thread, strength: StrengthClass, waist: float | None = None) -> BoltStrength:
    """Loads at which a thread of a class is proved, yields and breaks.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    strength : StrengthClass
        Its class [MPa].
    waist : float or None
        Thinnest diameter of the shank, None for one no thinner than the thread [mm].

    Returns
    -------
    BoltStrength
        Proof, yield and breaking load in pure tension [N].

    Valid for
    ---------
    Pull along the axis, no torsion; the weakest section is the thread or the waist given.

    Source
    ------
    [iso-898-1] load is stress area times stress.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> thread = thread_of("M8")
    >>> round(bolt_strength(thread, class_of("8.8", thread)).proof_load)
    21228
    """
    area, notes = _area(thread, waist)
    proof = _load("Proof load", area, strength, "proof")
    yielding = _load("Load at yield", area, strength, "yield")
    breaking = _load("Least breaking load", area, strength, "tensile")
    return BoltStrength(
        stress_area=area,
        proof_load=proof.value,
        yield_load=yielding.value,
        tensile_load=breaking.value,
        strength=strength,
        steps=(*thread.steps[-2:], proof, yielding, breaking),
        notes=notes,
    )


def _area(thread: Thread, waist: float | None) -> tuple[float, tuple[Note, ...]]:
    """Stress area as the tables of loads take it: of three figures for metric threads; that of a thinner waist whole."""
    area, _ = weakest_section(thread, waist)["stress_area"]
    if area < thread.stress_area:
        return area, (Note(f"the waist of {waist:g} mm is the weakest section", "vdi-2230"),)
    if not thread.metric:
        return thread.stress_area, ()
    said = "the standard multiplies the stress area rounded to three figures"
    return float(f"{thread.stress_area:.3g}"), (Note(said, "iso-898-1"),)


def _load(says: str, area: float, strength: StrengthClass, what: str) -> Step:
    stress: float = getattr(strength, f"{what}_stress")
    return Step.work_out(
        f"{says}, class {strength.name}",
        f"stress_area * {what}_stress",
        {"stress_area": (area, "mm²"), f"{what}_stress": (stress, "MPa")},
        (f"{what}_load", "N"),
        strength.source,
    )


def yield_stress_of(strength: StrengthClass | None, yield_stress: float | None) -> tuple[float, str]:
    """Yield stress from a class or typed, and where it is from.

    Parameters
    ----------
    strength : StrengthClass or None
        The class, where it is known [MPa].
    yield_stress : float or None
        A yield stress typed instead of a class [MPa].

    Returns
    -------
    tuple of (float, str)
        The yield stress and its source [MPa].

    Raises
    ------
    OutOfRange
        If neither or both are given.

    Source
    ------
    derived

    Examples
    --------
    >>> yield_stress_of(None, 900.0)
    (900.0, 'derived')
    """
    if (strength is None) == (yield_stress is None):
        found = "neither" if strength is None else "both"
        raise OutOfRange("class or yield_stress", found, "give one of the two")
    if strength is not None:
        return strength.yield_stress, strength.source
    assert yield_stress is not None
    above_nought("yield_stress", yield_stress, "MPa")
    return yield_stress, "derived"
