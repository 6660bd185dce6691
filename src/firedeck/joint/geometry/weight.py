"""What a head weighs, and what its weight says about the metal nobody can see."""

from dataclasses import replace

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.fem import Body, Material
from firedeck.joint.geometry.castings import HeadSection
from firedeck.joint.geometry.mesh import PREVIEW, Recipe, head_body, scaled
from firedeck.joint.geometry.plan import JointPlan

MOST_PORTS = 0.6
"""Share of the jacket over a bore that ports and towers can fill at the very most."""


def metal_volume(body: Body) -> float:
    """Volume of the metal of a body.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm].

    Returns
    -------
    float
        Metal [mm³].

    Source
    ------
    derived

    Examples
    --------
    >>> edge = np.array([0.0, 2.0])
    >>> metal_volume(Body(edge, edge, edge, np.full((1, 1, 1), 0.5), Material(1.0, 0.0)))
    4.0
    """
    sizes = (np.diff(planes) for planes in (body.x, body.y, body.z))
    return float(np.einsum("ijk,i,j,k->", body.share, *sizes))


def section_of_weight(
    plan: JointPlan, section: HeadSection, mass: float, density: float, recipe: Recipe | None = None
) -> HeadSection:
    """The section whose ports and towers make up what a head weighs beyond its decks, walls and ribs.

    Parameters
    ----------
    plan : JointPlan
        Hole pattern [mm].
    section : HeadSection
        Everything else that is known or taken [mm].
    mass : float
        Mass of the bare casting, in tonnes as N, mm and s want it: 12 kg is 0.012 [t].
    density : float
        Density of the metal: alloy 2.7e-9, iron 7.2e-9 [t/mm³].
    recipe : Recipe, optional
        Bricks the metal is counted with; by default the preview's, scaled to the bore [mm].

    Returns
    -------
    HeadSection
        The same with ``ports`` set [mm].

    Raises
    ------
    OutOfRange
        If the mass lies outside what this section can weigh with any ports.

    Valid for
    ---------
    Bare castings: valves, carriers and covers off.

    Source
    ------
    derived
    """
    bricks = recipe or scaled(PREVIEW, plan.mean_bore)
    metal = Material(1.0, 0.0)

    def weighs(ports: float) -> float:
        return density * metal_volume(head_body(plan, replace(section, ports=ports), metal, bricks))

    light, heavy = weighs(0.1), weighs(MOST_PORTS)
    ports = 0.1 + (MOST_PORTS - 0.1) * (mass - light) / (heavy - light)
    if not 0.0 <= ports <= MOST_PORTS:
        least = light - 0.1 * (heavy - light) / (MOST_PORTS - 0.1)
        allowed = f"{1e3 * least:.3g} to {1e3 * heavy:.3g} kg for this section"
        raise OutOfRange("mass of the head", f"{1e3 * mass:.4g} kg", allowed)
    return replace(section, ports=ports)
