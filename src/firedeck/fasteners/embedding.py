"""Bedding-in: what is lost when rough faces settle after tightening."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners.guards import above_nought, within
from firedeck.tables import Row, rows
from firedeck.trace import NO_UNIT, Note, Step

SOURCE = "vdi-2230"


@dataclass(frozen=True)
class Settlement:
    """How far faces settle [mm]."""

    settlement: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


@dataclass(frozen=True)
class EmbeddingLoss:
    """Tension lost by settling [N]."""

    loss: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def settlement_of_faces(
    roughness: float, interfaces: float, bearing_faces: float = 1.0, load: str = "axial"
) -> Settlement:
    """How far thread, head face and joint faces settle, by their roughness.

    Parameters
    ----------
    roughness : float
        Rz of the faces [mm].
    interfaces : float
        Joint faces between head and thread, where two parts meet [1].
    bearing_faces : float
        Faces under head and nut: one for a bolt in a tapped hole, two with a nut [1].
    load : str
        axial or transverse [text].

    Returns
    -------
    Settlement
        The settling together [mm].

    Raises
    ------
    TableGap
        If the roughness is beyond the table.
    OutOfRange
        If a count is below nought.

    Valid for
    ---------
    Metal faces, Rz up to 160 µm; a soft gasket creeps more and is not in it.

    Source
    ------
    [vdi-2230] guide values, from memory.

    Examples
    --------
    >>> round(settlement_of_faces(0.0063, 1.0).settlement, 4)
    0.007
    """
    row = _row(roughness, load)
    within("interfaces", interfaces, 0.0, 20.0)
    within("bearing_faces", bearing_faces, 0.0, 2.0)
    step = Step.work_out(
        "Settling of thread, head face and joint faces",
        "thread + bearing_faces * face + interfaces * interface",
        {
            "thread": (float(row["thread_um"]) * 1e-3, "mm"),
            "face": (float(row["face_um"]) * 1e-3, "mm"),
            "interface": (float(row["interface_um"]) * 1e-3, "mm"),
            "bearing_faces": (bearing_faces, NO_UNIT),
            "interfaces": (interfaces, NO_UNIT),
        },
        ("settlement", "mm"),
        SOURCE,
    )
    counted = f"one thread, {bearing_faces:g} face under head or nut, {interfaces:g} joint faces, {load} load"
    return Settlement(
        step.value, (step,), (Note(counted, row["source"]), Note("settling from memory", "memory"))
    )


def _row(roughness: float, load: str) -> Row:
    above_nought("Rz", roughness, "mm")
    for row in rows("embedding"):
        if row["load"] == load and float(row["rz_over_um"]) <= roughness * 1e3 < float(row["rz_up_to_um"]):
            return row
    raise TableGap(
        "embedding", f"Rz {roughness * 1e3:g} µm, {load} load", "Rz below 160 µm, axial or transverse load"
    )


def settlement_given(
    settlement: float | None, roughness: float | None, interfaces: float | None, bearing_faces: float = 1.0
) -> Settlement:
    """Settling as typed, or from roughness and number of faces.

    Parameters
    ----------
    settlement : float or None
        How far the faces settle [mm].
    roughness : float or None
        Rz of the faces [mm].
    interfaces : float or None
        Joint faces between head and thread [1].
    bearing_faces : float
        Faces under head and nut [1].

    Returns
    -------
    Settlement
        The settling [mm].

    Raises
    ------
    OutOfRange
        If neither way or both are given, or the settling is below nought.

    Source
    ------
    derived

    Examples
    --------
    >>> settlement_given(0.01, None, None).settlement
    0.01
    """
    by_faces = roughness is not None or interfaces is not None
    if settlement is not None:
        if by_faces:
            raise OutOfRange("settlement", "settlement and faces", "give settlement, or Rz with interfaces")
        within("settlement", settlement, 0.0, 2.0, "mm")
        return Settlement(settlement, (), ())
    if roughness is None or interfaces is None:
        raise OutOfRange("settlement", "not all that is needed", "needed: settlement, or Rz with interfaces")
    return settlement_of_faces(roughness, interfaces, bearing_faces)


def embedding_loss(
    bolt_stiffness: float,
    member_stiffness: float,
    settled: Settlement,
) -> EmbeddingLoss:
    """Tension lost when the faces settle.

    Parameters
    ----------
    bolt_stiffness : float
        Stiffness of the bolt [N/mm].
    member_stiffness : float
        Stiffness of the clamped parts [N/mm].
    settled : Settlement
        How far the faces settle, see ``settlement_given`` [mm].

    Returns
    -------
    EmbeddingLoss
        The loss [N].

    Raises
    ------
    OutOfRange
        If a stiffness is not above nought.

    Valid for
    ---------
    Elastic bolt and parts.

    Source
    ------
    [vdi-2230] settling over the sum of both compliances.

    Examples
    --------
    >>> round(embedding_loss(200000.0, 800000.0, settlement_given(0.010, None, None)).loss)
    1600
    """
    above_nought("bolt_stiffness", bolt_stiffness, "N/mm")
    above_nought("member_stiffness", member_stiffness, "N/mm")
    step = Step.work_out(
        "Tension lost by settling",
        "settlement / (1 / bolt_stiffness + 1 / member_stiffness)",
        {
            "settlement": (settled.settlement, "mm"),
            "bolt_stiffness": (bolt_stiffness, "N/mm"),
            "member_stiffness": (member_stiffness, "N/mm"),
        },
        ("loss", "N"),
        SOURCE,
    )
    return EmbeddingLoss(step.value, (*settled.steps, step), settled.notes)
