"""Bolts, studs and threads: strength, torque and tension, stretch, stripping, scatter."""

from firedeck.fasteners.angle import AngleTension, angle_tension
from firedeck.fasteners.assembly import AssemblyTension, assembly_tension
from firedeck.fasteners.bearing_pressure import BearingPressure, bearing_pressure
from firedeck.fasteners.conversion import SameTension, same_tension_torque
from firedeck.fasteners.diagram import JointDiagram, joint_diagram
from firedeck.fasteners.ductility import DuctilityUsed, ductility_used
from firedeck.fasteners.embedding import (
    EmbeddingLoss,
    Settlement,
    embedding_loss,
    settlement_given,
    settlement_of_faces,
)
from firedeck.fasteners.friction import Friction, friction_band_of, friction_of
from firedeck.fasteners.head_marks import class_by_marks, is_bare, softest_class
from firedeck.fasteners.levers import Bearing, Levers, bearing_of, levers_of
from firedeck.fasteners.loosening import BreakAwayTension, break_away_tension
from firedeck.fasteners.nut_factor import NutFactorWork, nut_factor_tension, nut_factor_torque, proof_torque
from firedeck.fasteners.scatter import Scatter, scatter_of
from firedeck.fasteners.stiffness import (
    BoltStiffness,
    Frustum,
    MemberStiffness,
    Section,
    bolt_sections,
    bolt_stiffness,
    member_stiffness,
    round_section,
    sections_given,
)
from firedeck.fasteners.strength import BoltStrength, StrengthClass, bolt_strength, class_of, yield_stress_of
from firedeck.fasteners.stripping import ThreadStrip, limits_with, thread_strip
from firedeck.fasteners.tension import BoltTension, bolt_tension
from firedeck.fasteners.thermal import GripPart, ThermalTension, grip_parts, rises_of, thermal_tension
from firedeck.fasteners.thread_limits import ThreadLimits, usual_limits
from firedeck.fasteners.threads import Thread, thread_of
from firedeck.fasteners.torque import BoltTorque, bolt_torque
from firedeck.fasteners.trapped import TrappedLiquid, trapped_liquid
from firedeck.fasteners.waist import weakest_section

__all__ = [
    "AngleTension",
    "AssemblyTension",
    "Bearing",
    "BearingPressure",
    "BoltStiffness",
    "BoltStrength",
    "BoltTension",
    "BoltTorque",
    "BreakAwayTension",
    "DuctilityUsed",
    "EmbeddingLoss",
    "Friction",
    "Frustum",
    "GripPart",
    "JointDiagram",
    "Levers",
    "MemberStiffness",
    "NutFactorWork",
    "SameTension",
    "Scatter",
    "Section",
    "Settlement",
    "StrengthClass",
    "ThermalTension",
    "Thread",
    "ThreadLimits",
    "ThreadStrip",
    "TrappedLiquid",
    "angle_tension",
    "assembly_tension",
    "bearing_of",
    "bearing_pressure",
    "bolt_sections",
    "bolt_stiffness",
    "bolt_strength",
    "bolt_tension",
    "bolt_torque",
    "break_away_tension",
    "class_by_marks",
    "class_of",
    "ductility_used",
    "embedding_loss",
    "friction_band_of",
    "friction_of",
    "grip_parts",
    "is_bare",
    "joint_diagram",
    "levers_of",
    "limits_with",
    "member_stiffness",
    "nut_factor_tension",
    "nut_factor_torque",
    "proof_torque",
    "rises_of",
    "round_section",
    "same_tension_torque",
    "scatter_of",
    "sections_given",
    "settlement_given",
    "settlement_of_faces",
    "softest_class",
    "thermal_tension",
    "thread_of",
    "thread_strip",
    "trapped_liquid",
    "usual_limits",
    "weakest_section",
    "yield_stress_of",
]
