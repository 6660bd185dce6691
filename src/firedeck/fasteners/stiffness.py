"""How stiff a bolt is, and how stiff the parts are that it clamps."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi, radians

from firedeck.errors import OutOfRange
from firedeck.fasteners.guards import above_nought, within
from firedeck.fasteners.threads import Thread
from firedeck.trace import Note, Step

SOURCE = "shigley-9"
CONE_ANGLE = radians(30.0)


@dataclass(frozen=True)
class Section:
    """A length of a bolt of one section [mm²] and [mm]."""

    area: float
    length: float


@dataclass(frozen=True)
class Frustum:
    """A slice of the cone a bolt presses: modulus [MPa], smaller face diameter and thickness [mm]."""

    modulus: float
    face_diameter: float
    thickness: float


@dataclass(frozen=True)
class BoltStiffness:
    """Stiffness of a bolt [N/mm] and its stretch per force [mm/N]."""

    stiffness: float
    stretch_per_force: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


@dataclass(frozen=True)
class MemberStiffness:
    """Stiffness of the clamped parts together and slice by slice [N/mm]."""

    stiffness: float
    each: tuple[float, ...]
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def round_section(diameter: float, length: float) -> Section:
    """A length of a bolt of round section.

    Parameters
    ----------
    diameter : float
        Diameter [mm].
    length : float
        Length of it that stretches [mm].

    Returns
    -------
    Section
        Its area and length [mm² and mm].

    Raises
    ------
    OutOfRange
        If a figure is not above nought.

    Source
    ------
    derived

    Examples
    --------
    >>> round(round_section(10.0, 40.0).area, 3)
    78.54
    """
    above_nought("section diameter", diameter, "mm")
    above_nought("section length", length, "mm")
    return Section(pi / 4 * diameter**2, length)


def bolt_sections(thread: Thread, shank_length: float, thread_length: float) -> tuple[Section, ...]:
    """Sections of a bolt with a plain shank: the shank, and the thread within the grip.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    shank_length : float
        Plain shank within the grip, nought for a bolt threaded to the head [mm].
    thread_length : float
        Thread within the grip, nought where the shank fills it [mm].

    Returns
    -------
    tuple of Section
        Shank at the nominal diameter, thread at the stress area [core].

    Raises
    ------
    OutOfRange
        If a length is below nought or both are nought.

    Source
    ------
    [shigley-9] eq. 8-16 and 8-17.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> len(bolt_sections(thread_of("M12"), 30.0, 15.0))
    2
    """
    for name, length in (("shank_length", shank_length), ("thread_length", thread_length)):
        if length != 0.0:
            above_nought(name, length, "mm")
    sections = (
        Section(pi / 4 * thread.major_diameter**2, shank_length),
        Section(thread.stress_area, thread_length),
    )
    stretching = tuple(section for section in sections if section.length > 0.0)
    if not stretching:
        raise OutOfRange("shank_length and thread_length", "both 0 mm", "some length must stretch")
    return stretching


def sections_given(
    rows: Sequence[Sequence[float]] | None,
    thread: Thread | None,
    shank_length: float | None,
    thread_length: float | None,
) -> tuple[Section, ...]:
    """Sections of a bolt, either typed one by one or from thread, shank and thread length.

    Parameters
    ----------
    rows : sequence of (float, float) or None
        Diameter and length of each section [mm].
    thread : Thread or None
        The thread [core].
    shank_length : float or None
        Plain shank within the grip [mm].
    thread_length : float or None
        Thread within the grip [mm].

    Returns
    -------
    tuple of Section
        Area and length of each section [core].

    Raises
    ------
    OutOfRange
        If neither way or both are given, or a figure is missing.

    Source
    ------
    derived

    Examples
    --------
    >>> len(sections_given(((13.0, 30.0), (10.1, 60.0)), None, None, None))
    2
    """
    by_thread = (thread, shank_length, thread_length)
    if rows is not None:
        if any(part is not None for part in by_thread):
            raise OutOfRange(
                "sections", "sections and a thread", "give sections, or thread with its two lengths"
            )
        return tuple(round_section(diameter, length) for diameter, length in rows)
    if thread is None or shank_length is None or thread_length is None:
        allowed = "sections, or thread with shank_length and thread_length"
        raise OutOfRange("sections", "not all that is needed", f"needed: {allowed}")
    return bolt_sections(thread, shank_length, thread_length)


def bolt_stiffness(sections: Sequence[Section], modulus: float) -> BoltStiffness:
    """Stiffness of a bolt from its sections, one behind the other.

    Parameters
    ----------
    sections : sequence of Section
        Lengths of one section each [core].
    modulus : float
        Modulus of the bolt [MPa].

    Returns
    -------
    BoltStiffness
        Stiffness and stretch per force [N/mm and mm/N].

    Raises
    ------
    OutOfRange
        If the modulus is not above nought or there is no section.

    Valid for
    ---------
    Elastic bolt; head and the thread in the hole count only as far as they are given as sections.

    Source
    ------
    [shigley-9] eq. 8-17.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> round(bolt_stiffness(bolt_sections(thread_of("M12"), 30.0, 15.0), 207000.0).stiffness, -2)
    467000.0
    """
    above_nought("modulus", modulus, "MPa")
    if not sections:
        raise OutOfRange("sections", "none", "at least one diameter and length")
    inputs: dict[str, tuple[float, str]] = {"modulus": (modulus, "MPa")}
    for place, section in enumerate(sections, start=1):
        inputs |= {f"length_{place}": (section.length, "mm"), f"area_{place}": (section.area, "mm²")}
    slack = " + ".join(f"length_{place} / area_{place}" for place in range(1, len(sections) + 1))
    stiff = Step.work_out(
        "Stiffness of the bolt", f"modulus / ({slack})", inputs, ("bolt_stiffness", "N/mm"), SOURCE
    )
    stretch = Step.work_out(
        "Stretch per force",
        "1 / bolt_stiffness",
        {"bolt_stiffness": stiff.figure()},
        ("stretch_per_force", "mm/N"),
        SOURCE,
    )
    note = Note("head and thread in the hole also give a little: stiffer than the real bolt", "derived")
    return BoltStiffness(stiff.value, stretch.value, (stiff, stretch), (note,))


def member_stiffness(
    frusta: Sequence[Frustum], bolt_diameter: float, cone_angle: float = CONE_ANGLE
) -> MemberStiffness:
    """Stiffness of clamped parts as slices of a cone under the head, one behind the other.

    Parameters
    ----------
    frusta : sequence of Frustum
        Slices, each with the diameter of its smaller face [core].
    bolt_diameter : float
        Diameter of bolt and hole [mm].
    cone_angle : float
        Half angle of the cone, usually 30° [rad].

    Returns
    -------
    MemberStiffness
        Stiffness together and slice by slice [N/mm].

    Raises
    ------
    OutOfRange
        If a slice is not wider than the bolt, or a figure is not above nought.

    Valid for
    ---------
    Parts wide enough to hold the whole cone; elastic, no gasket.

    Source
    ------
    [shigley-9] eq. 8-19.

    Examples
    --------
    >>> slices = (Frustum(206843.0, 19.05, 15.113), Frustum(99974.0, 19.05, 17.0815))
    >>> len(member_stiffness(slices, 12.7).each)
    2
    """
    above_nought("bolt_diameter", bolt_diameter, "mm")
    within("cone_angle", cone_angle, radians(10.0), radians(60.0), "rad")
    if not frusta:
        raise OutOfRange("frusta", "none", "at least one modulus/face diameter/thickness")
    each = [_slice(place, slice_, bolt_diameter, cone_angle) for place, slice_ in enumerate(frusta, start=1)]
    names = {f"slice_{place}": step.figure() for place, step in enumerate(each, start=1)}
    together = Step.work_out(
        "Stiffness of the clamped parts together",
        f"1 / ({' + '.join(f'1 / {name}' for name in names)})",
        names,
        ("member_stiffness", "N/mm"),
        SOURCE,
    )
    note = Note("a gasket is not in this sum: it is far softer than the metal", "derived")
    return MemberStiffness(together.value, tuple(step.value for step in each), (*each, together), (note,))


def _slice(place: int, frustum: Frustum, bolt_diameter: float, cone_angle: float) -> Step:
    above_nought(f"modulus of slice {place}", frustum.modulus, "MPa")
    above_nought(f"thickness of slice {place}", frustum.thickness, "mm")
    if not frustum.face_diameter > bolt_diameter:
        found = f"{frustum.face_diameter:g} mm round a {bolt_diameter:g} mm bolt"
        raise OutOfRange(f"face diameter of slice {place}", found, "the face must be wider than the bolt")
    widening = "2 * thickness * tan(cone_angle) + face_diameter"
    top = f"({widening} - bolt_diameter) * (face_diameter + bolt_diameter)"
    bottom = f"({widening} + bolt_diameter) * (face_diameter - bolt_diameter)"
    return Step.work_out(
        f"Stiffness of slice {place}",
        f"pi * modulus * bolt_diameter * tan(cone_angle) / log({top} / ({bottom}))",
        {
            "modulus": (frustum.modulus, "MPa"),
            "face_diameter": (frustum.face_diameter, "mm"),
            "thickness": (frustum.thickness, "mm"),
            "bolt_diameter": (bolt_diameter, "mm"),
            "cone_angle": (cone_angle, "rad"),
        },
        (f"slice_{place}", "N/mm"),
        SOURCE,
    )
