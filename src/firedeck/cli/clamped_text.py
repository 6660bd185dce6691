"""The study of a joint as lines for the terminal: what decides first, then place by place, then what it rests on."""

from typing import Any

from firedeck.cli.printing import wrapped

SAME = (
    "Nothing that goes into this sum differs from the engine as it left the factory; finish and damage are judged by a "
    "check."
)
WORDS = {
    "no worse": "no worse than as built",
    "worse": "worse than as built",
    "cannot rank": "cannot be ranked",
}


def as_text(one: dict[str, Any]) -> list[str]:
    """Return the lines of one joint."""
    if "missing" in one:
        lacks = one["missing"]
        where = ", ".join(lacks["paths"])
        open_ = f"Open. Measure {lacks['measure']} ({where}). {lacks['how']}"
        return [one["joint"], *wrapped(open_, "  ", "  ")]
    if "why_not" in one:
        return [one["joint"], *wrapped(f"Not studied: {one['why_not']}", "  ", "  ")]
    lines = [f"{one['joint']}: {_first(one)}"]
    lines += wrapped(one["says"], "  ", "  ")
    lines += ["", "  Place by place"]
    lines += [line for bore in one["bores"] for line in wrapped(_of_bore(bore), "  ", "    ")]
    lines += _beads(one)
    lines += ["", "  Fasteners", *wrapped(_of_fasteners(one["fasteners"]), "  ", "    ")]
    lines += _gas(one)
    lines += _later(one)
    lines += _band(one)
    says = [one["mesh_says"]] if one["mesh_says"] else []
    lines += ["", "  Taken as"]
    return lines + [
        line for text in [*says, *one["assumptions"]] for line in wrapped(f"- {text}", "  ", "    ")
    ]


def _first(one: dict[str, Any]) -> str:
    """What decides, in one line."""
    bore = next(bore for bore in one["bores"] if bore["bore"] == one["decides"])
    where = f"No {bore['bore']}, {bore['side']}"
    if not one["compared"]:
        return f"nothing to rank by ([as_built] is not said); least is left at {where}"
    if not one["differs"]:
        return SAME
    then = bore["as_built"]
    left = "" if then["share"] is None else f", about {100 * then['share']:.0f} % of what standard has left"
    band = ""
    if then["share_band"]:
        low, high = (100 * end for end in then["share_band"])
        band = f", band {low:.0f} to {high:.0f}"
    return f"{WORDS[one['rank']]} at {where}{left}{band}. Changed: {', '.join(one['differs'])}."


def _of_bore(bore: dict[str, Any]) -> str:
    low, high = bore["firing_band"]
    here = (
        f"No {bore['bore']}, {bore['side']}: {bore['firing_lowest']:.0f} N/mm firing (band {low:.0f} to {high:.0f}), "
        f"{bore['hot_lowest']:.0f} hot, {bore['cold_lowest']:.0f} cold at its lowest place, {bore['cold_mean']:.0f} all "
        f"round; lifts {bore['lift_um']:.0f} µm"
    )
    opens = bore["opens_at_mpa"]
    here += (
        f", opens at {opens:.1f} MPa" if opens is not None else ", does not open up to three times the peak"
    )
    then = bore.get("as_built")
    if then is None:
        return here
    low, high = then["band"]
    return (
        f"{here}. As built {then['firing_lowest']:.0f} N/mm: change {then['change']:+.1f}, band {low:+.1f} to "
        f"{high:+.1f}: {then['rank']}"
    )


def _beads(one: dict[str, Any]) -> list[str]:
    if not one["beads"]:
        return []
    least = sorted(one["beads"], key=lambda bead: bead["firing"])[:4]
    text = "; ".join(
        f"{bead['place']} {bead['cold']:.0f} cold, {bead['firing']:.0f} firing" for bead in least
    )
    return wrapped(f"Least beads (N/mm): {text}", "  ", "    ")


def _of_fasteners(bolts: list[dict[str, Any]]) -> str:
    states = ("tightened", "bedded", "cold", "hot", "firing")
    spans = [
        f"{state} {min(bolt[state] for bolt in bolts) / 1e3:.0f} to {max(bolt[state] for bolt in bolts) / 1e3:.0f}"
        for state in states
    ]
    most = max(bolts, key=lambda bolt: bolt["share_of_yield"])
    under = max(bolts, key=lambda bolt: bolt["bearing_mpa"])
    return (
        f"kN: {', '.join(spans)}. At most {100 * most['share_of_yield']:.0f} % of yield (No {most['label']}); "
        f"{under['bearing_mpa']:.0f} MPa under the head of No {under['label']}"
    )


def _gas(one: dict[str, Any]) -> list[str]:
    peak = one["peak_pressure"]
    low, high = peak["band"]
    lines = wrapped(
        f"Peak pressure {peak['value']:.1f} MPa, {low:.1f} to {high:.1f}: {peak['says']}.", "  ", "    "
    )
    match = one["matches_as_built_at"]
    if match and match["pressure"] is not None and one["differs"]:
        boost = "" if match["boost"] is None else f", about {match['boost'] * 10:.2f} bar of boost"
        text = f"No {match['bore']} has as much left as standard at {match['pressure']:.1f} MPa of peak pressure{boost}."
        lines += wrapped(text, "  ", "    ")
    return ["", "  Gas", *lines]


def _later(one: dict[str, Any]) -> list[str]:
    lines = ["", "  Later"]
    for after in one["later"]:
        text = (
            f"{after['what']}: {after['lowest']:.0f} N/mm at No {after['bore']}, least fastener "
            f"{after['least_fastener'] / 1e3:.0f} kN"
        )
        lines += wrapped(text[:1].upper() + text[1:], "  ", "    ")
    slip = one["slip"]
    if slip:
        text = (
            f"Lowest ring hot: {slip['free']:.0f} N/mm where faces slip, {slip['stuck']:.0f} where they stick; sticking "
            f"asks for {slip['shear_over_friction']:.1f} of what friction holds"
        )
        lines += wrapped(text + ("" if slip["believable"] else ", so they slip"), "  ", "    ")
    return lines


def _band(one: dict[str, Any]) -> list[str]:
    """What makes the band, largest first."""
    parts = [part for part in one["influences"] if part["share"] >= 0.005]
    if not parts:
        return []
    text = "; ".join(
        f"{part['what']} {100 * part['share']:.0f} % ({part['band'][0]:+.1f} to {part['band'][1]:+.1f} N/mm)"
        for part in parts
    )
    return ["", "  What makes the band", *wrapped(text, "  ", "    ")]
