"""An invented three-cylinder joint, not symmetric, small enough for quick tests."""

from firedeck.fem import Material
from firedeck.joint.geometry.plan import Bore, Fastener, JointPlan, Opening

ALLOY = Material(modulus=71e3, poisson=0.33, expansion=21e-6)
IRON = Material(modulus=110e3, poisson=0.26, expansion=10.7e-6)


def bolt(label, x, y):
    sizes = {"hole": 10.0, "thread": 9.0, "washer_inner": 10.0, "washer_outer": 19.0}
    return Fastener(label, x, y, **sizes, thread_top=8.0, thread_bottom=36.0)


def three(**changes):
    """The joint, with some of its parts replaced."""
    parts = {
        "outline": ((-120.0, -70.0), (130.0, -70.0), (130.0, 66.0), (-120.0, 66.0)),
        "bores": tuple(Bore(str(n + 1), x, 0.0, 70.0, 73.0, 71.0) for n, x in enumerate((-78.0, 0.0, 78.0))),
        "fasteners": tuple(
            bolt(f"{side}{n}", x, y)
            for n, x in enumerate((-111.0, -39.0, 39.0, 120.0))
            for side, y in (("i", -56.0), ("e", 54.0))
        ),
        "openings": (Opening("water", -78.0, 52.0, 9.0), Opening("drain", 0.0, -56.0, 10.0, 26.0, 0.0)),
    }
    return JointPlan(**(parts | changes))
