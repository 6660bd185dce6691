"""Castings that differ a little from the one that was condensed: softer, stiffer, with metal off a face.

The head in the middle of its family is condensed on fine bricks. What differs from it (the soft and the stiff inside, a
face with metal off) is condensed on coarse bricks, and only its difference from the middle *on the same coarse bricks*
is put on the fine one: changes are nearly free of the mesh, loads are not.
"""

from dataclasses import replace

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.geometry.castings import BlockSection, HeadSection
from firedeck.joint.geometry.condensed import CondensedBody
from firedeck.joint.geometry.loading import Counts


def moved(
    fine: CondensedBody, changed: CondensedBody, like: CondensedBody, share: float = 1.0
) -> CondensedBody:
    """Put the difference of two coarse bodies on a fine one.

    Parameters
    ----------
    fine : CondensedBody
        The body that is changed [mm/N].
    changed, like : CondensedBody
        The changed and the unchanged body on the same coarse bricks [mm/N].
    share : float
        How much of the change: 1 for all of it, less for a cut that is not as deep [1].

    Returns
    -------
    CondensedBody
        The fine body with that change [mm/N].

    Raises
    ------
    OutOfRange
        If the columns differ or the share lies outside 0 to 1.

    Valid for
    ---------
    Small changes on the same layout of bricks; checked against bodies condensed for themselves in the tests.

    Source
    ------
    derived
    """
    if not fine.counts == changed.counts == like.counts:
        raise OutOfRange("bodies", "other columns", "the same columns in all three")
    if not 0.0 <= share <= 1.0:
        raise OutOfRange("share of a change", f"{share:g}", "0 to 1")
    G = fine.G + share * (changed.G - like.G)
    return CondensedBody(G, fine.rigid + share * (changed.rigid - like.rigid), fine.counts)


def without_ties(body: CondensedBody) -> CondensedBody:
    """Leave the ties along the face out of a body: parts that are free to slip.

    Parameters
    ----------
    body : CondensedBody
        With or without ties [mm/N].

    Returns
    -------
    CondensedBody
        The same body without them [mm/N].

    Source
    ------
    derived
    """
    counts = body.counts
    first = counts.points + counts.bolts
    kept = np.concatenate([np.arange(first), np.arange(first + counts.ties, len(body.G))])
    free = Counts(counts.points, counts.bolts, 0, counts.gas)
    return CondensedBody(body.G[np.ix_(kept, kept)], body.rigid[kept], free)


def towards(
    middle: HeadSection, end: HeadSection, share: float, known: dict[str, float], reading: float
) -> HeadSection:
    """Head between the middle of its family and one end of it, as far as nobody has measured.

    Parameters
    ----------
    middle, end : HeadSection
        The head in the middle, with what was measured, and the end of the family [mm].
    share : float
        How much of the way to the end is still open [1].
    known : dict of str to float
        Dimensions that were measured [mm].
    reading : float
        How far a measured wall may be off, with the sign of this end [mm].

    Returns
    -------
    HeadSection
        The end that is still possible [mm].

    Source
    ------
    generic-ours
    """
    found = {}
    for name in vars(middle):
        here, there = getattr(middle, name), getattr(end, name)
        if name in known:
            found[name] = here + (reading if name in ("deck", "roof") and here > abs(reading) else 0.0)
        else:
            found[name] = here + share * (there - here)
    return HeadSection(**found)


def skimmed_block(section: BlockSection, cut: float) -> BlockSection:
    """A block after a cut of its face.

    Parameters
    ----------
    section : BlockSection
        The block before [mm].
    cut : float
        Metal taken off [mm].

    Returns
    -------
    BlockSection
        The block after: everything nearer its face by the cut, walls as they were [mm].

    Raises
    ------
    OutOfRange
        If the cut is below nought, or deeper than the deck or the ledge of a liner allow.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.joint.geometry.castings import block_section
    >>> block = block_section("closed-deck", 100.0)
    >>> round(block.deck - skimmed_block(block, 0.5).deck, 9)
    0.5
    """
    least = min(one for one in (section.deck, section.ledge, section.jacket) if one > 0.0)
    if not 0.0 <= cut < least:
        raise OutOfRange("cut", f"{cut:g} mm", f"nought or more, less than {least:g} mm")
    return replace(
        section,
        cut_depth=section.cut_depth - cut,
        jacket=section.jacket - cut,
        deck=max(section.deck - cut, 0.0),
        ledge=max(section.ledge - cut, 0.0),
    )
