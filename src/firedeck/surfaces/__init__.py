"""Faces as metal: flatness, straightedge and leaves, local dips, both faces together, finish.

    points         what measured points must be
    exchange       smallest zone by exchange of contact points
    plane          least squares, smallest zone, three corners
    flatness       every measure of flatness of measured points
    interpolation  heights between points, never beyond them
    lines          the book's lines over a face
    edge           where a straightedge lies and the gap under it
    at_rest        largest gap under an edge at rest, level on a crown
    leaf           what a leaf of some width feels
    straightedge   largest gap per line
    verdict        go/no-go leaves against a limit
    straightness   one line; heights from angles of a foot
    local          worst in any span
    ring           dip along a sealing ring
    shape          long bow, cross bow, twist
    both           the gap between both faces
    union_jack     eight lines stepped with a foot
    gaussian       the profile filter
    roughness      Ra, Rq, Rz ... at equal steps
    traces         a trace as a tester saves it
    cutoff         cut-off and evaluation length by table
    feed           finish by feed and nose radius, and back
    surface_plate  how flat a plate of a grade is
    span_lines     allowed faces under a short edge on every stretch
    on_plate       a face lying on a plate, and the gap beneath

Heights count positive out of the metal; lengths, heights and roughness are in mm.
"""
