"""One way round for every face, so that a face and its mirror image are sampled alike to the last digit."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from firedeck.surfaces.face_model import POWERS, Plan
from firedeck.surfaces.laying import Laying
from firedeck.surfaces.lines import Place
from firedeck.surfaces.resting import Floats


@dataclass(frozen=True)
class WayRound:
    """Mirror the face along (``signs[0]`` is -1) and across, about the middle of its box; twice is not at all."""

    plan: Plan
    signs: tuple[int, int]

    @classmethod
    def of(cls, plan: Plan, layings: Sequence[Laying]) -> "WayRound":
        """Turn the larger gaps to the high ends of both axes.

        Parameters
        ----------
        plan : Plan
            The face [mm].
        layings : sequence of Laying
            Lines with the leaves that go and stop [mm].

        Returns
        -------
        WayRound
            The way round.

        Source
        ------
        derived
        """
        lean = np.zeros(2)
        for laying in layings:
            at = np.array([reading.at for reading in laying.readings])
            felt = np.array(
                [(one.goes or 0.0) + (one.stops or 2 * (one.goes or 0.0)) for one in laying.readings]
            )
            off = np.column_stack(laying.places(at)) - plan.middle
            lean += felt @ off if len(felt) else 0.0
        return cls(plan, (-1 if lean[0] < 0 else 1, -1 if lean[1] < 0 else 1))

    def place(self, place: Place) -> Place:
        """Mirror a place.

        Parameters
        ----------
        place : tuple of float
            x and y [mm].

        Returns
        -------
        tuple of float
            x and y [mm].

        Source
        ------
        derived
        """
        (x, y), (mx, my) = place, self.plan.middle
        turned = (x if self.signs[0] > 0 else 2 * mx - x, y if self.signs[1] > 0 else 2 * my - y)
        return round(turned[0], 6), round(turned[1], 6)

    def face(self) -> Plan:
        """Mirror the face.

        Returns
        -------
        Plan
            The same box, its bores mirrored [mm].

        Source
        ------
        derived
        """
        bores = []
        for bore in self.plan.bores:
            x, y = self.place((bore.x, bore.y))
            bores.append(replace(bore, x=x, y=y))
        return replace(self.plan, bores=tuple(bores))

    def laying(self, laying: Laying) -> Laying:
        """Mirror a line.

        Parameters
        ----------
        laying : Laying
            The line [mm].

        Returns
        -------
        Laying
            The same readings from the mirrored start [mm].

        Source
        ------
        derived
        """
        return replace(laying, start=self.place(laying.start), end=self.place(laying.end))

    def back(self, shapes: Floats, dips: Floats) -> tuple[Floats, Floats]:
        """Mirror faces back.

        Parameters
        ----------
        shapes : ndarray, shape (13, n)
            Shapes and bow of the edge [µm].
        dips : ndarray, shape (4, m, n)
            Dips, x and y first [mm].

        Returns
        -------
        tuple of ndarray
            The same of the face as it was given.

        Source
        ------
        derived
        """
        signs = [self.signs[0] ** i * self.signs[1] ** j for (i, j), _ in POWERS]
        shapes = shapes * np.array([*signs, 1], dtype=np.float32)[:, None]
        dips = dips.copy()
        for axis in (0, 1):
            if self.signs[axis] < 0:
                dips[axis] = np.float32(2 * self.plan.middle[axis]) - dips[axis]
        return shapes, dips
