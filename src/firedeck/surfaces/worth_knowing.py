"""How much of a figure that is not known readings would tell: what is left of its scatter once they are taken."""

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.points import Array

LEAST_LEFT = 0.05
"""A face that stands alone in what its readings say counts for no more than this allows [1]."""


def share_told(figure: Array, gaps: Array, noise: Array) -> float:
    """Share of the scatter of a figure that readings of some gaps would take away.

    The figure of every face is foretold from its gaps and the other faces only (least squares with the noise of the
    readings, the face itself left out), so that many readings of few faces do not seem to tell what they do not.

    Parameters
    ----------
    figure : ndarray, shape (n,)
        The figure of every face, less its mean [µm].
    gaps : ndarray, shape (r, n)
        Gap at every reading, less its mean over the faces [µm].
    noise : ndarray, shape (r,)
        Scatter of each reading [µm].

    Returns
    -------
    float
        From nought (nothing) to one (all of it) [1].

    Source
    ------
    derived

    Examples
    --------
    >>> faces = np.linspace(-30.0, 30.0, 61)
    >>> round(share_told(faces, np.stack((faces, 0 * faces)), np.array([4.0, 4.0])), 3)
    0.997
    >>> share_told(faces, np.abs(faces[None]) - 15.25, np.array([4.0]))
    0.0
    """
    scatter = float(figure @ figure)
    if scatter == 0.0 or not len(gaps):
        return 0.0
    seen = gaps / noise[:, None]
    weight = np.linalg.solve(seen @ seen.T + len(figure) * np.eye(len(seen)), seen)
    own = np.einsum("rn,rn->n", seen, weight)
    left = (figure - (weight @ figure) @ seen) / np.maximum(1.0 - own, LEAST_LEFT)
    return max(0.0, 1.0 - float(left @ left) / scatter)


def less_told(values: npt.NDArray[np.float64], gaps: Array, noise: Array) -> npt.NDArray[np.float64]:
    """Take out of figures or gaps what readings would tell of them.

    Parameters
    ----------
    values : ndarray, shape (k, n)
        Figures or gaps of every face, less their means [µm].
    gaps : ndarray, shape (r, n)
        Gap at every reading, less its mean over the faces [µm].
    noise : ndarray, shape (r,)
        Scatter of each reading [µm].

    Returns
    -------
    ndarray, shape (k, n)
        What would still not be known [µm].

    Source
    ------
    derived

    Examples
    --------
    >>> faces = np.linspace(-30.0, 30.0, 61)[None]
    >>> bool(np.abs(less_told(faces, faces, np.array([4.0]))).max() < 2.0)
    True
    """
    square = gaps @ gaps.T + gaps.shape[1] * np.diag(noise**2)
    return np.asarray(values - (values @ gaps.T) @ np.linalg.solve(square, gaps))
