"""Sums of surface finish: roughness of a trace, filter, cut-off, and finish by feed."""

from dataclasses import replace

import numpy as np

from firedeck.quantity import Columns, Kind
from firedeck.sums.measured import lengths
from firedeck.sums.registry import Figure, SumResult, a_sum
from firedeck.sums.written import written
from firedeck.surfaces.cutoff import choose_cutoff
from firedeck.surfaces.feed import feed_for_finish, finish_by_feed
from firedeck.surfaces.gaussian import transmission
from firedeck.surfaces.traces import roughness_of


@a_sum("roughness", meant={"sections": "trace_sections"})
def roughness_sum(
    *,
    profile: Columns | None = None,
    heights: tuple[float, ...] | None = None,
    step: float | None = None,
    cutoff: float | None = None,
    sections: float = 5.0,
    filter_: str = "gaussian",
) -> SumResult:
    """Roughness of a trace: Ra, Rq, Rt, Rsk, Rku over its length, Rz, Rp, Rv by sections."""
    trace = None if profile is None else lengths("roughness profile", profile, ("x", "z"))
    found = roughness_of(
        trace=None if trace is None else (trace[:, 0], trace[:, 1]),
        heights=None if heights is None else np.array(heights),
        step=step,
        cutoff=cutoff,
        sections=round(sections),
        kind=filter_,
    )
    finish = ("Ra", "Rq", "Rt", "Rz", "Rp", "Rv", "Rz1max")
    results = {name: Figure(getattr(found, name), Kind.FINISH) for name in finish}
    results |= {name: Figure(getattr(found, name), Kind.RATIO) for name in ("Rsk", "Rku")}
    answer = written(found, results)
    return replace(answer, assumptions=(*(profile.assumptions if profile else ()), *answer.assumptions))


@a_sum("gaussian-transmission")
def gaussian_transmission_sum(*, wavelength: float, cutoff: float) -> SumResult:
    """Share of a wave that the mean line keeps, and that the roughness keeps."""
    found = transmission(wavelength, cutoff)
    results = {
        "mean_line_share": Figure(found.mean_line_share, Kind.RATIO),
        "roughness_share": Figure(found.roughness_share, Kind.RATIO),
    }
    return written(found, results)


@a_sum("cutoff-choice")
def cutoff_choice_sum(*, Ra: float | None = None, RSm: float | None = None) -> SumResult:
    """Cut-off and evaluation length for an expected Ra, or for the spacing of a regular lay."""
    found = choose_cutoff(Ra=Ra, RSm=RSm)
    results = {
        "cutoff": Figure(found.cutoff, Kind.LENGTH),
        "evaluation_length": Figure(found.evaluation_length, Kind.LENGTH),
    }
    return written(found, results)


@a_sum("feed-finish")
def feed_finish_sum(*, feed: float, nose_radius: float) -> SumResult:
    """Finish that feed and nose radius leave at best."""
    found = finish_by_feed(feed, nose_radius)
    return written(found, {"Rz": Figure(found.Rz, Kind.FINISH), "Ra": Figure(found.Ra, Kind.FINISH)})


@a_sum("feed-for-finish")
def feed_for_finish_sum(*, Ra: float, nose_radius: float) -> SumResult:
    """Largest feed per turn for a wanted finish."""
    found = feed_for_finish(Ra, nose_radius)
    return written(found, {"feed": Figure(found.feed, Kind.LENGTH)})
