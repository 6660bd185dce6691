"""Marking blue as a reading: where it takes the face lies within the film of the plate, where it stays bare it does not."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from firedeck.errors import DidNotConverge, OutOfRange
from firedeck.job.frame import Frame, Place, point
from firedeck.job.schema.fields import Point
from firedeck.job.schema.readings import FaceReadings, Touched
from firedeck.surfaces.interpolation import Sheet, heights_at, sheet
from firedeck.surfaces.on_plate import gap_to_plate
from firedeck.surfaces.points import Array
from firedeck.trace import COMMON_PRACTICE, Step


@dataclass(frozen=True)
class Spot:
    """A place in the frame of the joint, and in words in the axes of the readings."""

    place: Place
    says: str


@dataclass(frozen=True)
class BlueFound:
    """What the blue shows, in words, by ring and at single places in the frame of the joint.

    ``within`` is how near to the plate the face lies where it takes, ``beyond`` how far off at least where it is bare
    [mm]; both None where nobody said how thick the film is.
    """

    pattern: str
    against: str
    film: float | None
    within: Step | None
    beyond: Step | None
    rings: Mapping[str, str]
    takes: tuple[Spot, ...]
    bare: tuple[Spot, ...]

    @property
    def even(self) -> bool:
        """Tell whether it took all over the face."""
        return self.pattern == "even" and not self.bare and set(self.rings.values()) <= {"all-round"}


@dataclass(frozen=True)
class Otherwise:
    """A place where the face as read by edge or points says something else than the blue [mm]."""

    spot: Spot
    takes: bool
    gap: float


def blue_found(readings: FaceReadings, frame: Frame) -> BlueFound | None:
    """Take what the blue says; None where none was used."""
    if readings.blue is None and readings.touched is None:
        return None
    given = readings.touched or Touched()
    film = given.film.value if given.film else None
    return BlueFound(
        pattern=readings.blue or "",
        against=given.against,
        film=film,
        within=None if film is None else _within(film, given),
        beyond=None if film is None else _beyond(film, given),
        rings=given.rings,
        takes=tuple(_spots(given.takes, frame)),
        bare=tuple(_spots(given.bare, frame)),
    )


def _spots(pairs: Sequence[Point], frame: Frame) -> Iterator[Spot]:
    for pair in pairs:
        yield Spot(frame.place(*point(pair)), f"{pair[0].text}/{pair[1].text}")


def _within(film: float, given: Touched) -> Step:
    return Step.work_out(
        f"Blue takes: the face lies no further from the {given.against} than this",
        "film + error",
        {"film": (film, "mm"), "error": (_error(given), "mm")},
        ("within", "mm"),
        COMMON_PRACTICE,
    )


def _beyond(film: float, given: Touched) -> Step:
    return Step.work_out(
        f"Bare of blue: the face lies further from the {given.against} than this",
        "max(film - error, 0)",
        {"film": (film, "mm"), "error": (_error(given), "mm")},
        ("beyond", "mm"),
        COMMON_PRACTICE,
    )


def _error(given: Touched) -> float:
    return given.error.value if given.error else 0.0


def otherwise(
    blue: BlueFound, points: Array | None, out: float, rings: Mapping[str, Array]
) -> tuple[Otherwise, ...]:
    """Lay the face as read on a plate, and name where it says otherwise by more than it may be out [mm].

    ``rings`` are places (m, 2) along the ring of each cylinder; of a ring that took blue all round the lowest is named.
    """
    if points is None or blue.within is None or blue.beyond is None or blue.against != "plate":
        return ()
    try:
        gaps = sheet(np.column_stack((points[:, :2], gap_to_plate(points))))
    except (OutOfRange, DidNotConverge):
        return ()
    told = [(spot, True) for spot in blue.takes] + [(spot, False) for spot in blue.bare]
    told += [(spot, True) for spot in _lowest_of(blue, gaps, rings)]
    return tuple(
        Otherwise(spot, takes, gap)
        for spot, takes in told
        if (gap := _gap(gaps, spot.place)) is not None
        and (gap - out > blue.within.value if takes else gap + out < blue.beyond.value)
    )


def _lowest_of(blue: BlueFound, gaps: Sheet, rings: Mapping[str, Array]) -> Iterator[Spot]:
    """Name the lowest place of every ring that took blue all round."""
    for cylinder, how in blue.rings.items():
        if how == "all-round" and cylinder in rings:
            places = [(float(x), float(y)) for x, y in rings[cylinder]]
            read = {place: gap for place in places if (gap := _gap(gaps, place)) is not None}
            if read:
                yield Spot(max(read, key=lambda place: read[place]), f"the ring of cylinder {cylinder}")


def _gap(gaps: Sheet, place: Place) -> float | None:
    """Gap to the plate at a place; None beyond what was read."""
    try:
        return float(heights_at(gaps, np.array([place]), "blue")[0])
    except OutOfRange:
        return None
