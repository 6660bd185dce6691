"""Values common to all states, reckoned with states side by side."""

from firedeck.joint.laws import Floats


def tall(values: Floats, like: Floats) -> Floats:
    """Give a column to values without columns where ``like`` has some, in numbers of the same length.

    Parameters
    ----------
    values : ndarray, shape (n,) or (n, m)
        Any values [1].
    like : ndarray, shape (p,) or (p, m)
        What they are to be reckoned with [1].

    Returns
    -------
    ndarray, shape (n,), (n, 1) or (n, m)
        The same values [1].

    Source
    ------
    derived

    Examples
    --------
    >>> import numpy as np
    >>> tall(np.ones(3), np.zeros((2, 5), dtype=np.float32)).shape
    (3, 1)
    """
    values = values.astype(like.dtype, copy=False)
    return values[:, None] if like.ndim == 2 and values.ndim == 1 else values
