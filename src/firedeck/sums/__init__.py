"""Single calculations by name, each on one function of the physics.

Every public sum is also a function of this package, its hyphens turned to underscores; it takes texts
with units, or bare numbers for pure ratios:

>>> from firedeck import sums
>>> sums.thread_geometry(thread="M8").results["stress_area"].as_json()["unit"]
'mm²'
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

from firedeck.sums import (
    after_a_cut,
    cylinder_tests,
    faces,
    finish,
    gas,
    holes,
    joints_of_bolts,
    ratio_and_cuts,
    stands,
    threads,
    tightening,
)
from firedeck.sums.registry import Figure, Sum, SumResult, all_sums, find_sum

_MODULES = (
    after_a_cut,
    cylinder_tests,
    faces,
    finish,
    gas,
    holes,
    joints_of_bolts,
    ratio_and_cuts,
    stands,
    threads,
    tightening,
)

for _name, _sum in all_sums().items():
    globals()[_name.replace("-", "_")] = _sum.run

if TYPE_CHECKING:

    def __getattr__(name: str) -> Callable[..., SumResult]:
        """Every public sum by its name."""


__all__ = ["Figure", "Sum", "SumResult", "all_sums", "find_sum"]
