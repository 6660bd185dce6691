"""Pictures as SVG text from the plain findings: plan views, face maps, blank maps, turns, and our marks.

    svg       writing SVG
    palette   twelve steps of one hue, ink and paper
    marks     the marks that stand beside the words for states and outcomes
    view      frame millimetres to paper millimetres
    parts     outline, bores, dowels, passages, and which way the front lies
    balloons  numbered circles that keep off one another
    plan      the plan view with names or turns
    shading   filled steps between measured points
    facemap   heights of a face with printed values
    line_map  a face known by its lines only: the gap on each
    blank     a face map to be filled with a pencil
    rings     how hard each ring is pressed all round; rings_text the same in letters
    angle     how far a turn goes

Nothing is worked out here: a picture shows what the findings say.
"""

from firedeck.drawing.angle import turn_picture
from firedeck.drawing.blank import blank_map
from firedeck.drawing.facemap import face_map
from firedeck.drawing.marks import OUTCOME_MARKS, STATE_MARKS
from firedeck.drawing.picture import Picture
from firedeck.drawing.plan import plan_view
from firedeck.drawing.rings import ring_picture
from firedeck.drawing.rings_text import ring_text

__all__ = [
    "OUTCOME_MARKS",
    "STATE_MARKS",
    "Picture",
    "blank_map",
    "face_map",
    "plan_view",
    "ring_picture",
    "ring_text",
    "turn_picture",
]
