"""Metropolis steps of dips: born and killed, moved, moved across a line, replaced by another one elsewhere."""

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.cloud import Cloud
from firedeck.surfaces.face_model import DIP_DEPTH, DIP_SIZE, DIPS, MOST_DIPS
from firedeck.surfaces.faces_allowed import Counts, depth_of
from firedeck.surfaces.points import Array
from firedeck.surfaces.resting import Floats

STEPS = (0.056, 0.21, 0.7)
"""Steps a dip is moved by, as shares of its size and depth."""

LEAST_STEP = 5.0


def bear_or_kill(cloud: Cloud) -> None:
    """Give a face one more dip, or take one away.

    Parameters
    ----------
    cloud : Cloud
        The faces, changed in place [µm].

    Source
    ------
    derived
    """
    birth = cloud.random.random(cloud.number) < 0.5
    born, lean = cloud.a_dip()
    slot, old = cloud.one_dip()
    old_lean = cloud.lean(cloud.where.cell(old[0], old[1]))
    able = np.where(birth, cloud.count < MOST_DIPS, cloud.count > 0)
    more = np.log(DIPS / (cloud.count + 1.0)) + lean
    fewer = np.log(np.maximum(cloud.count, 1) / DIPS) - old_lean
    lead = np.where(able, np.where(birth, more, fewer), -np.inf)
    change = depth_of(np.where(birth, born, old), cloud.places)
    change *= np.where(birth, np.float32(-1), np.float32(1))
    yes = cloud.accept(change, lead)
    up, down = np.flatnonzero(yes & birth), np.flatnonzero(yes & ~birth)
    cloud.dips[:, cloud.count[up], up] = born[:, up]
    cloud.dips[:, slot[down], down] = cloud.dips[:, cloud.count[down] - 1, down]
    cloud.count[up] += 1
    cloud.count[down] -= 1


def move(cloud: Cloud) -> None:
    """Move one dip of every face, and make it deeper or wider.

    Parameters
    ----------
    cloud : Cloud
        The faces, changed in place [µm].

    Source
    ------
    derived
    """
    step = cloud.random.choice(STEPS, cloud.number)
    slot, old = cloud.one_dip()
    wide = np.exp(old[3])
    scale = np.stack((wide, wide, 0.5 * old[2] + LEAST_STEP, np.full(cloud.number, 0.5)))
    new = (old + step * scale * cloud.random.standard_normal((4, cloud.number))).astype(np.float32)
    low, high = np.log(DIP_SIZE)
    able = (new[2] > 0) & (new[3] > low) & (new[3] < high)
    new = np.where(able, new, old)
    _put(cloud, slot, (old, new), able, _way(new, old, step) - _way(old, new, step))


def across(cloud: Cloud) -> None:
    """Move one dip of every face across the line it lies beside, and make it as much deeper as the line wants.

    Parameters
    ----------
    cloud : Cloud
        The faces, changed in place [µm].

    Source
    ------
    derived
    """
    slot, old = cloud.one_dip()
    new, deeper, able = cloud.read.across(old, cloud.random.uniform(-1, 1, cloud.number))
    _put(cloud, slot, (old, new), able, deeper)


def replace(cloud: Cloud) -> None:
    """Take one dip of every face away and give it another one elsewhere.

    Parameters
    ----------
    cloud : Cloud
        The faces, changed in place [µm].

    Source
    ------
    derived
    """
    born, lean = cloud.a_dip()
    slot, old = cloud.one_dip()
    able = cloud.count > 0
    old_lean = cloud.lean(cloud.where.cell(old[0], old[1]))
    _swap(cloud, slot, (old, born), np.where(able, lean - np.where(able, old_lean, 0.0), -np.inf))


def _put(
    cloud: Cloud, slot: Counts, dips: tuple[Floats, Floats], able: npt.NDArray[np.bool_], way: Array
) -> None:
    """Put a dip elsewhere on the face; ``way`` is log odds of the way back over the way there."""
    old, new = dips
    before, after = (cloud.where.share[cloud.where.cell(dip[0], dip[1])] for dip in (old, new))
    able = able & (cloud.count > 0) & (after > 0) & (before > 0)
    new = np.where(able, new, old)
    lead = _beforehand(new) - _beforehand(old) + way
    lead += np.log(np.where(able, after, 1.0) / np.where(able, before, 1.0))
    _swap(cloud, slot, (old, new), np.where(able, lead, -np.inf))


def _swap(cloud: Cloud, slot: Counts, dips: tuple[Floats, Floats], lead: Array) -> None:
    old, new = dips
    change = depth_of(old, cloud.places)
    change -= depth_of(new, cloud.places)
    yes = cloud.accept(change, lead)
    cloud.dips[:, slot, np.arange(cloud.number)] = np.where(yes, new, old)


def _beforehand(dip: Floats) -> Array:
    """Logarithm of the odds of depth and size before anything is read."""
    return np.asarray(np.log(np.maximum(dip[2], 1e-6)) - dip[2] / DIP_DEPTH + dip[3], dtype=np.float64)


def _way(start: Floats, end: Floats, step: Array) -> Array:
    """Logarithm of the odds of a step from one dip to another: steps grow with the dip."""
    wide, deep = step * np.exp(start[3]), step * (0.5 * start[2] + LEAST_STEP)
    far = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) / wide**2 + ((end[2] - start[2]) / deep) ** 2
    return np.asarray(-0.5 * far - 2.0 * np.log(wide) - np.log(deep))
