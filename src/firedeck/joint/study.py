"""What the study of one clamped joint says, place by place: now, and against the engine as it left the factory.

Only the form of the result; ``studied`` works it out. Nothing in it was ever compared with a real engine or a pressure film.
"""

from dataclasses import dataclass, field

from firedeck.joint.comparing import Rank
from firedeck.trace import Band, Missing, Note, Step

NOT_COMPARED = (
    "Nothing here has been compared with a real engine or a pressure film: loads are orders of size, "
    "changes against the same engine as it left the factory are better known."
)


@dataclass(frozen=True)
class PlaceNow:
    """One sealing ring: line loads [N/mm], lift [mm], pressure at which it opens [MPa], change with its band.

    ``side`` says where the lowest place lies, in the trade's words, ``lowest_angle`` [rad] from the x axis to the y axis.
    ``firing_lowest`` with its own cylinder firing, hot or cold, whichever is lower; ``curve`` of that case: angle [rad],
    load now and as built [N/mm]. ``opens_at`` is None above the range tried. All from ``as_built_lowest`` on is None
    where nobody said how the engine left the factory; ``share`` and its band also where standard has nothing left.
    """

    bore: str
    side: str
    lowest_angle: float
    cold_mean: float
    cold_lowest: float
    hot_lowest: float
    firing_lowest: float
    firing_band: Band
    lift: float
    opens_at: float | None
    as_built_lowest: float | None = None
    change: float | None = None
    change_band: Band | None = None
    share: float | None = None
    share_band: Band | None = None
    rank: Rank | None = None
    steps: tuple[Step, ...] = ()
    curve: tuple[tuple[float, float, float | None], ...] = ()


@dataclass(frozen=True)
class BeadNow:
    """Lowest load of the bead round one passage, or along the edge [N/mm]."""

    place: str
    cold: float
    hot: float
    firing: float


@dataclass(frozen=True)
class BoltNow:
    """One fastener [N] from state to state, and the most of it over its yield load [1].

    ``bearing`` [MPa]: pressure under its head or washer in the hottest firing case.
    """

    label: str
    tightened: float
    bedded: float
    cold: float
    hot: float
    firing: float
    share_of_yield: float
    bearing: float


@dataclass(frozen=True)
class PeakTaken:
    """Peak pressure that was reckoned with, its band, and what is set aside for knock [MPa]; ``says`` where it is from."""

    value: float
    band: Band
    knock_allowance: float
    says: str
    as_built: float | None = None


@dataclass(frozen=True)
class Matches:
    """Peak pressure [MPa] at which the lowest place comes down to what the factory's joint has, and which ring that is.

    ``pressure`` is None above the range tried; ``boost`` [MPa] where the engine is charged and it can be said.
    """

    bore: str
    pressure: float | None
    boost: float | None = None


@dataclass(frozen=True)
class After:
    """What is left after one more stretch of life: lowest place firing [N/mm] and which ring, least fastener cold [N]."""

    what: str
    bore: str
    lowest: float
    least_bolt: float


@dataclass(frozen=True)
class Slip:
    """Two cases, not a proven bracket: faces free to slip and stuck, lowest hot place of any ring [N/mm].

    ``carried``: shear of the stuck case over what friction carries [1]; above one the stuck case is dropped.
    """

    free: float
    stuck: float
    carried: float
    believable: bool


@dataclass(frozen=True)
class Influence:
    """How much of the band one thing makes, taken alone at the ring that decides.

    ``name``: tension, section, gasket curve, peak pressure, slip or faces; ``band`` [N/mm] about the change (about the
    load where nothing is compared); ``share`` of the squared width of the whole band [1]; ``missing`` says what to
    measure, None where nothing in a garage would narrow it.
    """

    name: str
    says: str
    band: Band
    share: float
    missing: Missing | None = None


@dataclass(frozen=True)
class JointStudy:
    """The clamped joint of one head; ``differs``: what in it differs from the engine as it left the factory, in words.

    ``compared`` is False where nobody said how that was: then ranks, changes and shares are None.
    """

    joint: str
    mesh: str
    mesh_says: str
    places: tuple[PlaceNow, ...]
    beads: tuple[BeadNow, ...]
    bolts: tuple[BoltNow, ...]
    peak: PeakTaken
    matches_anchor_at: Matches | None = None
    retorque: After | None = None
    overheat: After | None = None
    cold_soak: After | None = None
    shear: Slip | None = None
    rank: Rank | None = None
    compared: bool = False
    differs: tuple[str, ...] = ()
    steps: tuple[Step, ...] = field(default=(), repr=False)
    assumptions: tuple[Note, ...] = ()
    influences: tuple[Influence, ...] = ()
    says: str = NOT_COMPARED

    @property
    def decides(self) -> PlaceNow:
        """The ring that decides: the worst rank, then the largest loss, then the lowest load."""
        order = [Rank.WORSE, Rank.CANNOT_RANK, Rank.NO_WORSE, None]
        return min(
            self.places,
            key=lambda one: (order.index(one.rank), one.change or 0.0, one.firing_lowest),
        )
