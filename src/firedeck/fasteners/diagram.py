"""How an outside load is shared between a bolt and the parts it clamps."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange
from firedeck.fasteners.guards import above_nought
from firedeck.trace import NO_UNIT, Note, Step

SOURCE = "shigley-9"


@dataclass(frozen=True)
class JointDiagram:
    """Share of the load the bolt sees, loads [N] and the three factors.

    ``member_load`` is the clamp left, positive while the parts are pressed together.
    ``separation_factor``: load that parts the joint over the load; ``load_factor``: load that takes
    the bolt to its proof load over the load; ``proof_factor``: proof load over bolt load. The last
    two are None without a proof load.
    """

    load_fraction: float
    bolt_load: float
    member_load: float
    separation_factor: float
    load_factor: float | None
    proof_factor: float | None
    steps: tuple[Step, ...]
    cautions: tuple[Note, ...] = ()


def joint_diagram(
    bolt_stiffness: float,
    member_stiffness: float,
    preload: float,
    external_load: float,
    proof_load: float | None = None,
) -> JointDiagram:
    """Loads in bolt and clamped parts under an outside pull.

    Parameters
    ----------
    bolt_stiffness : float
        Stiffness of the bolt [N/mm].
    member_stiffness : float
        Stiffness of the clamped parts [N/mm].
    preload : float
        Tension before the outside load [N].
    external_load : float
        Outside pull on this bolt, above nought [N].
    proof_load : float or None
        Proof load of the bolt [N].

    Returns
    -------
    JointDiagram
        Loads and factors [N and 1].

    Raises
    ------
    OutOfRange
        If a figure is not above nought, or the proof load is not above the preload.

    Valid for
    ---------
    Load along the bolt at its head and thread, elastic parts. Once the joint has parted the bolt
    carries the whole load, and the sum says so.

    Source
    ------
    [shigley-9] eq. 8-24, 8-28 to 8-30.

    Examples
    --------
    >>> round(joint_diagram(6.5, 13.8, 25.0, 6.0).load_fraction, 3)
    0.32
    """
    given = {
        "bolt_stiffness": (bolt_stiffness, "N/mm"),
        "member_stiffness": (member_stiffness, "N/mm"),
        "preload": (preload, "N"),
        "external_load": (external_load, "N"),
    }
    for name, (value, unit) in given.items():
        above_nought(name, value, unit)
    share = Step.work_out(
        "Share of the load the bolt sees",
        "bolt_stiffness / (bolt_stiffness + member_stiffness)",
        {name: given[name] for name in ("bolt_stiffness", "member_stiffness")},
        ("load_fraction", NO_UNIT),
        SOURCE,
    )
    loads = {
        "load_fraction": share.figure(),
        "preload": given["preload"],
        "external_load": given["external_load"],
    }
    parts = Step.work_out(
        "Load that parts the joint, over the load",
        "preload / (external_load * (1 - load_fraction))",
        loads,
        ("separation_factor", NO_UNIT),
        SOURCE,
    )
    bolt, member, cautions = _loads(loads, parts.value)
    factors = _factors(loads, bolt, proof_load)
    return JointDiagram(
        load_fraction=share.value,
        bolt_load=bolt.value,
        member_load=member.value,
        separation_factor=parts.value,
        load_factor=factors[0].value if factors else None,
        proof_factor=factors[1].value if factors else None,
        steps=(share, parts, bolt, member, *factors),
        cautions=cautions,
    )


def _loads(loads: dict[str, tuple[float, str]], parts: float) -> tuple[Step, Step, tuple[Note, ...]]:
    if parts < 1.0:
        open_load = {"external_load": loads["external_load"]}
        bolt = Step.work_out(
            "Bolt load, joint parted", "external_load", open_load, ("bolt_load", "N"), SOURCE
        )
        member = Step.work_out(
            "Clamp left, joint parted",
            "external_load - bolt_load",
            {**open_load, "bolt_load": bolt.figure()},
            ("member_load", "N"),
            SOURCE,
        )
        return bolt, member, (Note("the load parts the joint: the bolt carries all of it", SOURCE),)
    bolt = Step.work_out(
        "Bolt load", "preload + load_fraction * external_load", loads, ("bolt_load", "N"), SOURCE
    )
    member = Step.work_out(
        "Clamp left", "preload - (1 - load_fraction) * external_load", loads, ("member_load", "N"), SOURCE
    )
    return bolt, member, ()


def _factors(loads: dict[str, tuple[float, str]], bolt: Step, proof_load: float | None) -> tuple[Step, ...]:
    if proof_load is None:
        return ()
    above_nought("proof_load", proof_load, "N")
    if not proof_load > loads["preload"][0]:
        found = f"{proof_load:g} N with a preload of {loads['preload'][0]:g} N"
        raise OutOfRange("proof_load", found, "the proof load must lie above the preload")
    proof = {"proof_load": (proof_load, "N")}
    to_proof = Step.work_out(
        "Load that takes the bolt to its proof load, over the load",
        "(proof_load - preload) / (load_fraction * external_load)",
        {**proof, **loads},
        ("load_factor", NO_UNIT),
        SOURCE,
    )
    of_bolt = Step.work_out(
        "Proof load over bolt load",
        "proof_load / bolt_load",
        {**proof, "bolt_load": bolt.figure()},
        ("proof_factor", NO_UNIT),
        SOURCE,
    )
    return to_proof, of_bolt
