"""What is not worked out yet because it takes long: a word, a button, and how far it is."""

from collections.abc import Sequence

import htpy as h

from firedeck.report.figures import Plain
from firedeck.web import addresses
from firedeck.web.working import Work

PLACE = "long-work"
EVERY = "load delay:1s"
UNTIL = "Until then the simple sum stands in for it. On the terminal, firedeck check does it at once."


def waiting_part(name: str, whole: Plain, work: Work | None = None) -> h.Node:
    """Offer to work out what waits, or show how far it is; nothing where nothing waits."""
    waits = _waits(whole)
    if not waits:
        return None
    if work is not None and work.running and not work.stop.is_set():
        return working_part(name, work)
    return _section(_offer(name, waits, work))


def working_part(name: str, work: Work) -> h.Renderable:
    """Show how far it is, and ask again a little later."""
    return _section(_running(name, work))


def _section(*content: h.Node) -> h.Renderable:
    return h.section(id=PLACE, aria_live="polite")[content]


def _waits(whole: Plain) -> list[tuple[str, str]]:
    """Return the heads whose rings wait, each with how long it takes."""
    found = ((joint, whole["findings"].get(joint, {}).get("joint") or {}) for joint in whole["joints"])
    return [(joint, one["waiting"]) for joint, one in found if one.get("waiting")]


def _offer(name: str, waits: Sequence[tuple[str, str]], work: Work | None) -> h.Node:
    heads = ", ".join(joint for joint, _ in waits)
    return h.fragment[
        h.p[f"How hard each ring is pressed is not worked out yet ({heads}): {waits[0][1]}. {UNTIL}"],
        h.p(".fault")[f"It could not be worked out: {work.fault}"]
        if work is not None and work.fault
        else None,
        h.button(type="button", **_posts(addresses.of_work(name)))["Work it out now"],
    ]


def _running(name: str, work: Work) -> h.Node:
    share = round(100 * work.share)
    said = f"Working: {work.part}, {share} %" if work.part else "Working"
    return h.div(
        hx_get=addresses.of_work(name), hx_trigger=EVERY, hx_target=f"#{PLACE}", hx_swap="outerHTML"
    )[
        h.p[said],
        h.progress(max="100", value=str(share), aria_label="How far it is"),
        " ",
        h.button(type="button", **_posts(addresses.of_work(name, "stop")))["Stop"],
    ]


def _posts(address: str) -> dict[str, str]:
    return {"hx_post": address, "hx_target": f"#{PLACE}", "hx_swap": "outerHTML"}
