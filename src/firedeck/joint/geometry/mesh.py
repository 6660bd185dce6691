"""Head and block as bricks: planes on every wall, and the same bricks for every variant of a casting.

Two variants of one head must not differ by the noise of two meshes. So the number of bricks between two walls is taken
from one casting (``like``) and only the planes move with the walls.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.fem import Body, Material, solid_share, whole_piece
from firedeck.joint.geometry.castings import BlockSection, HeadSection
from firedeck.joint.geometry.metal import block_metal, head_metal, rib_places
from firedeck.joint.geometry.plan import JointPlan
from firedeck.joint.laws import Floats


@dataclass(frozen=True)
class Recipe:
    """How fine the bricks are: edge along the face, layer next to the face and how deep such layers go, layer beyond [mm].

    ``says`` is said wherever a result of this mesh is shown.
    """

    name: str
    along: float
    near: float
    near_depth: float
    beyond: float
    says: str = ""


PREVIEW = Recipe("preview", 6.0, 12.0, 0.0, 12.0, "coarse bricks: the lowest firing load comes out too high")
STANDARD = Recipe("standard", 4.0, 8.0, 0.0, 8.0)
FINE = Recipe("fine", 3.0, 3.0, 12.0, 9.0)
RECIPES = {recipe.name: recipe for recipe in (PREVIEW, STANDARD, FINE)}
USUAL_BORE = 86.0
"""Bore the recipes are made for [mm]."""
LINER_BRICKS = 2.0
"""Bricks through the wall of a wet liner."""
LEAST_GAP = 0.5
"""Walls nearer together than this are not both given a plane [mm]."""


def scaled(recipe: Recipe, bore: float) -> Recipe:
    """The same recipe for another size of engine: as many bricks to a bore.

    Parameters
    ----------
    recipe : Recipe
        How fine, for a bore of 86 mm [mm].
    bore : float
        Mean bore [mm].

    Returns
    -------
    Recipe
        All edges times bore / 86 mm [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> scaled(STANDARD, 129.0).along
    6.0
    """
    factor = bore / USUAL_BORE
    return replace(
        recipe,
        along=recipe.along * factor,
        near=recipe.near * factor,
        near_depth=recipe.near_depth * factor,
        beyond=recipe.beyond * factor,
    )


def through_liner(recipe: Recipe, block: BlockSection) -> Recipe:
    """The same recipe with bricks narrow enough for the wall of a wet liner, which bears the ring alone.

    Parameters
    ----------
    recipe : Recipe
        How fine, for the engine's own bore [mm].
    block : BlockSection
        Dimensions of the block [mm].

    Returns
    -------
    Recipe
        Two bricks or more through the wall of a wet liner; unchanged for other blocks, and where the recipe says itself
        that it is coarse [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.joint.geometry.castings import block_section
    >>> round(through_liner(STANDARD, block_section("wet-liner", 86.0)).along, 3)
    3.01
    """
    if block.ledge == 0.0 or recipe.says:
        return recipe
    return replace(recipe, along=min(recipe.along, block.liner / LINER_BRICKS))


def head_body(
    plan: JointPlan, section: HeadSection, material: Material, recipe: Recipe, like: HeadSection | None = None
) -> Body:
    """Bricks of a head, its fire face at z = 0, metal above.

    Parameters
    ----------
    plan : JointPlan
        Hole pattern [mm].
    section : HeadSection
        Dimensions of the casting [mm].
    material : Material
        Metal of the head [MPa].
    recipe : Recipe
        How fine [mm].
    like : HeadSection, optional
        The casting whose bricks are kept; by default its own [mm].

    Returns
    -------
    Body
        Bricks on a grid [mm].

    Raises
    ------
    OutOfRange
        If the walls of the two castings do not follow each other in the same order.

    Source
    ------
    derived
    """
    model = like or section
    x = _planes(_face_walls(plan, section, 0), _face_walls(plan, model, 0), recipe.along)
    y = _planes(_face_walls(plan, section, 1), _face_walls(plan, model, 1), recipe.along)
    z = _planes(_heights(section), _heights(model), recipe.beyond, recipe)
    return Body(x, y, z, whole_piece(solid_share(x, y, z, head_metal(plan, section))), material)


def block_body(
    plan: JointPlan,
    section: BlockSection,
    material: Material,
    recipe: Recipe,
    like: BlockSection | None = None,
) -> Body:
    """Bricks of a block, its face at z = 0, metal below, cut off at the section's depth.

    Parameters
    ----------
    plan : JointPlan
        Hole pattern [mm].
    section : BlockSection
        Dimensions of the casting [mm].
    material : Material
        Metal of the block [MPa].
    recipe : Recipe
        How fine [mm].
    like : BlockSection, optional
        The casting whose bricks are kept; by default its own [mm].

    Returns
    -------
    Body
        Bricks on a grid [mm].

    Raises
    ------
    OutOfRange
        If the walls of the two castings do not follow each other in the same order.

    Source
    ------
    derived
    """
    model = like or section
    x = _planes(_face_walls(plan, section, 0), _face_walls(plan, model, 0), recipe.along)
    y = _planes(_face_walls(plan, section, 1), _face_walls(plan, model, 1), recipe.along)
    depth = _planes(_depths(section), _depths(model), recipe.beyond, recipe)
    z = -depth[::-1]
    return Body(x, y, z, whole_piece(solid_share(x, y, z, block_metal(plan, section))), material)


def _face_walls(plan: JointPlan, section: HeadSection | BlockSection, axis: int) -> list[float]:
    """Walls across one axis of the face: ends, insides of the outer walls, both sides of every cross rib."""
    low, high = plan.box[2 * axis], plan.box[2 * axis + 1]
    walls = [low, low + section.wall, high - section.wall, high]
    if axis == 0 and isinstance(section, HeadSection) and section.rib > 0.0:
        for place in rib_places(plan).tolist():
            walls += [place - section.rib / 2.0, place + section.rib / 2.0]
    return walls


def _heights(section: HeadSection) -> list[float]:
    s = section
    return [0.0, s.chamber_depth, s.deck, s.chamber_depth + s.roof, s.seat - s.ceiling, s.seat, s.height]


def _depths(section: BlockSection) -> list[float]:
    return [0.0, section.ledge, section.deck, section.jacket, section.cut_depth]


def _planes(
    walls: Sequence[float], model: Sequence[float], size: float, recipe: Recipe | None = None
) -> Floats:
    """Planes on the walls, with as many bricks between them as the model's walls ask for."""
    order = np.argsort(model, kind="stable")
    kept = _kept(np.asarray(model, dtype=np.float64)[order], LEAST_GAP)
    of_model = np.asarray(model)[order][kept]
    mine = np.asarray(walls, dtype=np.float64)[order][kept]
    if not (np.diff(mine) > 0.0).all():
        raise OutOfRange("variant of a casting", "walls in another order", "the same walls, moved")
    pieces = []
    for place in range(len(mine) - 1):
        start, end = float(of_model[place]), float(of_model[place + 1])
        count = _bricks(start, end, size, recipe)
        inner = np.interp(count, (start, end), (mine[place], mine[place + 1]))
        pieces.append(inner[:-1])
    return np.concatenate([*pieces, mine[-1:]])


def _bricks(start: float, end: float, size: float, recipe: Recipe | None) -> Floats:
    """Planes between two walls: near layers first, as far as the recipe says."""
    if recipe is not None and start < recipe.near_depth < end - recipe.near:
        near = np.linspace(start, recipe.near_depth, _count(recipe.near_depth - start, recipe.near) + 1)
        beyond = np.linspace(recipe.near_depth, end, _count(end - recipe.near_depth, size) + 1)
        return np.concatenate([near[:-1], beyond])
    if recipe is not None and end <= recipe.near_depth + recipe.near:
        size = recipe.near
    return np.linspace(start, end, _count(end - start, size) + 1)


def _count(length: float, size: float) -> int:
    return max(1, round(length / size + 0.17))


def _kept(walls: Floats, least: float) -> list[int]:
    """Walls that get a plane: both ends, and those not too near another."""
    last = len(walls) - 1
    kept = [0]
    for place in range(1, last):
        if walls[place] - walls[kept[-1]] >= least and walls[last] - walls[place] >= least:
            kept.append(place)
    return [*kept, last]
