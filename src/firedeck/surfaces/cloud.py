"""A cloud of faces that is led to the readings: drawn beforehand, chosen from, and moved by Metropolis steps."""

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.across_line import LinesRead
from firedeck.surfaces.dip_guide import nearness, spread
from firedeck.surfaces.face_model import (
    CELL,
    DIP_DEPTH,
    DIP_SIZE,
    DIPS,
    MOST_DIPS,
    Plan,
    dip_places,
    shape_scatter,
)
from firedeck.surfaces.faces_allowed import Counts, depth_of, squares
from firedeck.surfaces.first_order import FirstOrder, first_order
from firedeck.surfaces.laying import Stations
from firedeck.surfaces.leaf_odds import LeafOdds
from firedeck.surfaces.leaf_said import LEAF_SCATTER
from firedeck.surfaces.points import Array
from firedeck.surfaces.resting import Floats

GRIT = (12.0, 90.0)
"""Thinnest and thickest thing an edge stands on by mistake [µm]."""

GRIT_SHARE = 0.05
"""Share of lines that stand on something."""

GRIT_TRIED = 0.3
CLEAN_LEAN = float(np.log((1 - GRIT_SHARE) / (1 - GRIT_TRIED)))
GRIT_LEAN = float(np.log(GRIT_SHARE / GRIT_TRIED))

LIFT = 3.0
"""Scatter of the height at which an edge touches: it lies on the highest peaks of the texture there [µm]."""

ANSWERED = 0.75
"""Share of the changes of a dip that the smooth numbers answer [1]."""

HALVINGS = 7
LEAST_STEP = 0.97
"""A stage takes the scatter down by three parts of a hundred at least [1]."""

LIFTED = (0.0, 0.8, 0.95)
"""How much of the old lift a new one keeps [1]."""

BLURRED = 1000.0
"""Scatter of the leaves at which they tell nothing yet [µm]."""

LEARNT = 0.4
"""Share of the dips that are tried where the cloud already has them."""

WANTED = 0.3
"""Share of the dips that are tried where leaves went that the cloud has no gap for."""

MEMORY = 30_000_000
"""Memory asked for and given back once, so that the C library keeps what is freed: one third of the time [byte]."""


class Cloud:
    """Faces with their heights at all stations, and what else the readings hang on; changed in place.

    Arrays end in the number of the face: ``shapes`` (13, n), ``dips`` (4, 8, n), ``weight``, ``grit`` and
    its ``spot`` (l, n), ``lift`` (2, l, n) of both contacts, ``heights`` (p, n), and ``odds`` (l, n) of the
    readings of each line if leaves scatter by ``blur`` [µm].
    """

    def __init__(self, plan: Plan, places: Stations, number: int, seed: int, edge_bow: float) -> None:
        np.empty(MEMORY, dtype=np.uint8)
        self.random = draw = np.random.default_rng(seed)
        self.number, self.lines = number, places.lines
        self.leaves = LeafOdds.of(places)
        self.where = dip_places(plan)
        self.guide = self.where.share
        self.near = nearness(self.where, places)
        self.read = LinesRead.of(places)
        self.linear = places.linear(plan).astype(np.float32)
        self.raised = places.raised.astype(np.float32)[:, None]
        self.along = places.along
        self.places = squares(places.x, places.y)
        self.scatter = np.append(shape_scatter(plan), edge_bow)[:, None]
        self.same = np.zeros((len(self.scatter), 1))
        self.same[[0, 1, -1], 0] = [
            *(-((0.5 * size / places.half_length.max()) ** 2) for size in plan.size[:2]),
            1.0,
        ]
        self.free = places.weight[:, None]
        self.shapes: Floats = (self.scatter * draw.standard_normal((13, number))).astype(np.float32)
        self.weight, self.grit, self.spot = self.somewhere()
        self.grit *= draw.random(self.grit.shape) < GRIT_SHARE / GRIT_TRIED
        self.lift = self.another_lift()
        self.count = np.minimum(draw.poisson(DIPS, number), MOST_DIPS).astype(np.intp)
        self.dips: Floats = np.stack([self.a_dip()[0] for _ in range(MOST_DIPS)], axis=1)
        self.heights: Floats
        self.refresh()
        self.blur = BLURRED
        self.odds = self.leaves.odds(self.heights, self.weight, self.under, self.blur)
        self.order = self.followed()

    def followed(self) -> FirstOrder:
        """Say how the gaps follow the heights, as the cloud lies now."""
        edges = self.leaves.edges(self.heights, self.weight)
        _, pull = self.leaves.told_and_pull(self.leaves.gaps(self.heights, edges, self.under), self.blur)
        return first_order(self.leaves, edges, pull, self.along, self.linear * self.scatter.T, lift=LIFT)

    @property
    def under(self) -> Floats:
        """What lies under every edge of every face (4, l, n), as :meth:`LeafOdds.gaps` takes it [µm]."""
        return _under(self.lift, self.grit, self.spot)

    def another_lift(self) -> Floats:
        """Draw how high the contacts of every line and face lie on their texture [µm]."""
        return (LIFT * self.random.standard_normal((2, self.lines, self.number))).astype(np.float32)

    def somewhere(self) -> tuple[Floats, Floats, Floats]:
        """Draw a place of the weight, and grit and its place, for every line and face [mm, µm, 1]."""
        shape, draw = (self.lines, self.number), self.random
        weight = self.free * draw.uniform(-1, 1, shape)
        side = draw.choice((-1.0, 1.0), shape) * (draw.random(shape) < GRIT_TRIED)
        grit, spot = side * draw.uniform(*GRIT, shape), draw.uniform(0, 2, shape)
        return weight.astype(np.float32), grit.astype(np.float32), spot.astype(np.float32)

    def a_dip(self) -> tuple[Floats, Array]:
        """Draw one dip for every face where the guide says; with it log(odds beforehand / guide)."""
        n, draw, low = self.number, self.random, self.where.plan.low
        cell = draw.choice(len(self.guide), n, p=self.guide)
        row, column = np.divmod(cell, self.where.columns)
        x, y = low[0] + CELL * (column + draw.random(n)), low[1] + CELL * (row + draw.random(n))
        dip = (x, y, draw.gamma(2.0, DIP_DEPTH, n), np.log(draw.uniform(*DIP_SIZE, n)))
        return np.stack(dip).astype(np.float32), self.lean(cell)

    def lean(self, cell: Counts) -> Array:
        """Logarithm of odds beforehand over guide in cells [1]."""
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.asarray(np.log(self.where.share[cell] / self.guide[cell]))

    def one_dip(self) -> tuple[Counts, Floats]:
        """Pick a dip of every face: its slot, and the dip; where there is none the first slot."""
        slot = (self.random.random(self.number) * np.maximum(self.count, 1)).astype(np.intp)
        return slot, self.dips[:, slot, np.arange(self.number)]

    def refresh(self) -> None:
        """Work all heights out anew, so that rounding does not add up."""
        self.heights = self.linear @ self.shapes + self.raised
        for slot in range(int(self.count.max(initial=0))):
            has = np.flatnonzero(self.count > slot)
            self.heights[:, has] -= depth_of(self.dips[:, slot, has], self.places)

    def accept(self, change: Floats, lead: Array) -> npt.NDArray[np.bool_]:
        """Change heights where Metropolis says so; ``lead`` is log odds but for the readings.

        On most faces the smooth numbers answer the change, so that it is felt least.
        """
        return self.answered(self.order.answer @ change, lead, change, (self.grit, self.spot))

    def answered(
        self, shift: Floats, lead: Array, change: Floats | None, stands_on: tuple[Floats, Floats]
    ) -> npt.NDArray[np.bool_]:
        """Change heights, or grit and its place, on most faces with a shift of the smooth numbers; see :meth:`accept`."""
        shift *= self.random.random(self.number) < ANSWERED
        smooth = self.smooth
        lead = lead - (shift * (smooth + np.float32(0.5) * shift)).sum(axis=0)
        by = shift[: len(self.scatter)] * self.scatter.astype(np.float32)
        lift = self.lift + np.float32(LIFT) * shift[len(self.scatter) :].reshape(self.lift.shape)
        heights = self.linear @ by
        heights += self.heights
        if change is not None:
            heights += change
        odds = self.leaves.odds(heights, self.weight, _under(lift, *stands_on), self.blur)
        gain = (odds - self.odds).sum(axis=0, dtype=np.float64) + lead
        yes = np.asarray(np.log(self.random.random(self.number)) < gain)
        now = (self.odds, self.heights, self.lift, self.grit, self.spot)
        for old, new in zip(now, (odds, heights, lift, *stands_on), strict=True):
            np.copyto(old, new, where=yes)
        self.shapes += by * yes
        return yes

    def under_lift(self, lift: Floats) -> Floats:
        """What lies under every edge if its contacts lie as high as that [µm]."""
        return _under(lift, self.grit, self.spot)

    @property
    def smooth(self) -> Floats:
        """Shapes, bow of the edge and lifts of every face, each over its scatter (13 + 2l, n) [1]."""
        lifts = self.lift.reshape(-1, self.number) / np.float32(LIFT)
        return np.concatenate((self.shapes / self.scatter.astype(np.float32), lifts))

    def slide_bow(self) -> None:
        """Draw the bow of the edge anew and bend the face with it, so that every gap stays: lines cannot tell them.

        An edge of bow b(s/r)² shows on every line what a true edge shows on a face bent by -b(x² + y²)/r²
        more; only what is known beforehand says how much of it is the edge.
        """
        precision = (self.same / self.scatter) ** 2
        toward = -(self.same * self.shapes / self.scatter**2).sum(axis=0) / precision.sum()
        by = toward + self.random.standard_normal(self.number) / np.sqrt(precision.sum())
        self.shapes = (self.shapes + self.same * by).astype(np.float32)
        self.heights += (self.linear @ self.same.astype(np.float32)) * by.astype(np.float32)

    def move_edges(self) -> None:
        """Put the weight elsewhere and grit under contacts or away, line by line."""
        weight, grit, spot = self.somewhere()
        odds = self.leaves.odds(self.heights, weight, _under(self.lift, grit, spot), self.blur)
        lead = np.where(grit == 0, CLEAN_LEAN, GRIT_LEAN) - np.where(self.grit == 0, CLEAN_LEAN, GRIT_LEAN)
        yes = self.by_line(odds, lead)
        self.weight, self.grit = np.where(yes, weight, self.weight), np.where(yes, grit, self.grit)
        self.spot = np.where(yes, spot, self.spot)

    def move_lifts(self) -> None:
        """Let the contacts lie higher or lower on their texture, line by line."""
        keep = self.random.choice(LIFTED, (self.lines, self.number)).astype(np.float32)
        lift = keep * self.lift + np.sqrt(1 - keep * keep) * self.another_lift()
        odds = self.leaves.odds(self.heights, self.weight, _under(lift, self.grit, self.spot), self.blur)
        self.lift = np.where(self.by_line(odds, 0.0), lift, self.lift)

    def by_line(self, odds: Floats, lead: Array | float) -> npt.NDArray[np.bool_]:
        """Say on which lines and faces Metropolis takes new odds, and take them."""
        gain = odds - self.odds + lead
        yes = np.asarray(np.log(self.random.random(odds.shape)) < gain)
        self.odds = np.where(yes, odds, self.odds)
        return yes

    def learn(self) -> None:
        """Guide new dips to where the cloud has them."""
        alive = np.arange(MOST_DIPS)[:, None] < self.count
        cells = self.where.cell(self.dips[0][alive], self.dips[1][alive])
        found = np.bincount(cells, minlength=len(self.guide)).astype(np.float64)
        grid = found[:-1].reshape(self.where.rows, self.where.columns)
        on_face = self.where.share > 0
        learnt = np.append(spread(spread(grid).T).T.ravel(), 0.0) * on_face
        wanted = (self.near @ self.leaves.too_small(self.heights, self.weight, self.under)) * on_face
        guide = np.zeros_like(self.where.share)
        left = 1.0
        for share, odds in ((LEARNT, learnt), (WANTED, wanted)):
            if odds.sum() > 0:
                guide, left = guide + share * odds / odds.sum(), left - share
        self.guide = guide + left * self.where.share
        self.guide /= self.guide.sum()

    def sharpen(self, kept: float) -> None:
        """Let the leaves scatter as much less as leaves a share of the faces weight; keep faces by their weight."""
        gaps = self.leaves.gaps(self.heights, self.leaves.edges(self.heights, self.weight), self.under)

        def at(blur: float) -> tuple[Floats, Array]:
            odds = self.leaves.or_nothing(self.leaves.of_gaps(gaps, blur), blur)
            gain = (odds - self.odds).sum(axis=0, dtype=np.float64)
            share = np.exp(gain - gain.max())
            return odds, share / share.sum()

        def left(share: Array) -> float:
            return float(1.0 / (share**2).sum()) / self.number

        low, high = LEAF_SCATTER, self.blur
        odds, share = at(low)
        if left(share) < kept:
            for _ in range(HALVINGS):
                middle = float(np.sqrt(low * high))
                low, high = (low, middle) if left(at(middle)[1]) >= kept else (middle, high)
            low = min(high, LEAST_STEP * self.blur)
            odds, share = at(low)
        self.blur, self.odds = low, odds
        self._choose(share)

    def _choose(self, share: Array) -> None:
        marks = (np.arange(self.number) + self.random.random()) / self.number
        keep = np.minimum(np.searchsorted(np.cumsum(share), marks), self.number - 1)
        self.shapes, self.odds = self.shapes[:, keep], self.odds[:, keep]
        self.weight, self.grit, self.spot = (one[:, keep] for one in (self.weight, self.grit, self.spot))
        self.lift = self.lift[:, :, keep]
        self.dips, self.count = self.dips[:, :, keep], self.count[keep]
        self.heights = np.take(self.heights, keep, axis=1)


def _under(lift: Floats, grit: Floats, spot: Floats) -> Floats:
    return np.concatenate((lift, grit[None], spot[None]))
