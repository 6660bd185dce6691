"""Which pressing laws the gasket of a joint has, by what it is made of."""

from firedeck.errors import TableGap
from firedeck.findings.groups import gasket_that_goes_on, number
from firedeck.job import Joint
from firedeck.joint.law_table import laws_of
from firedeck.joint.laws import Law, Per
from firedeck.trace import Missing

RING_WIDTH = 2.0
"""Width of a ring nobody measured [mm]."""

SEAL_OVER_BORE = 1.5
"""How much wider than the bore a gasket seals where its own bore is not known [mm]."""


def gasket_laws(joint: Joint) -> dict[str, Law] | Missing:
    """Pressing laws of the gasket that goes on, or of the old one."""
    gasket = gasket_that_goes_on(joint) or joint.gasket.old
    construction = gasket.construction if gasket else None
    try:
        laws = dict(laws_of(construction or ""))
    except TableGap:
        path = f"joint.{joint.name}.gasket.fitted"
        how = "Read it off the wrapper, or look at the edge: layers of steel, graphite, copper, a wire. Then name it."
        return Missing((path,), "of what construction the gasket is that goes on", "eye", how)
    width = number(getattr(gasket, "ring_width", None)) or RING_WIDTH
    return {
        kind: law.along(width) if kind != "body" and law.per is Per.AREA else law
        for kind, law in laws.items()
    }
