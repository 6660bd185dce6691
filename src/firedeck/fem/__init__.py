"""Finite elements of head and block: bricks on a grid, condensed to their load columns. Arrays in, arrays out."""

from firedeck.fem.brick import Material
from firedeck.fem.columns import Columns, Face, face_points, joined
from firedeck.fem.condensing import Plan, condense, condense_piece, finish, plan, work
from firedeck.fem.fronts import Front
from firedeck.fem.grid import Body, graded_planes, snapped_planes, solid_share, whole_piece
from firedeck.fem.holding import held_at_three_nodes, held_on_plane, rigid_motions
from firedeck.fem.loads import annulus, roof_pressure, thread_zone, wall_pressure, warmth
from firedeck.fem.sharing import share_out

__all__ = [
    "Body",
    "Columns",
    "Face",
    "Front",
    "Material",
    "Plan",
    "annulus",
    "condense",
    "condense_piece",
    "face_points",
    "finish",
    "graded_planes",
    "held_at_three_nodes",
    "held_on_plane",
    "joined",
    "plan",
    "rigid_motions",
    "roof_pressure",
    "share_out",
    "snapped_planes",
    "solid_share",
    "thread_zone",
    "wall_pressure",
    "warmth",
    "whole_piece",
    "work",
]
