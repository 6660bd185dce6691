"""Faults no single field shows: labels that meet nothing, counts that do not match, texts of other grammars."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from firedeck.errors import BadQuantity, JobError, JobErrors
from firedeck.fasteners.procedure_reading import parse as parse_procedure
from firedeck.gasket.pattern import check_pattern
from firedeck.job.frame import set_frame
from firedeck.job.hole_pattern import hole_pattern
from firedeck.job.paths import join_path, nearest
from firedeck.job.schema.document import Document
from firedeck.job.schema.joint import Joint, LimitText
from firedeck.job.schema.layout import Layout
from firedeck.job.schema.readings import FaceReadings
from firedeck.quantity import Kind, parse, split_rows
from firedeck.quantity.columns import read_columns
from firedeck.terms import all_terms

Faults = Iterator[JobError]


def consistency_faults(document: Document) -> list[JobError]:
    """Return every fault that shows only when parts of the document are held together."""
    faults = [*_names(document)]
    if any(fault.path == "engine.cylinders" for fault in faults):
        return faults
    faults.extend(_tests(document))
    for joint in document.joint:
        for rule in (
            _cylinders,
            _layout,
            _gasket_chosen,
            _ring_curves,
            _fastener_groups,
            _limits,
            _procedure,
            _stop_card,
            _faces,
            _damage,
        ):
            faults.extend(rule(document, joint))
    return faults


def _twice(names: Iterable[str]) -> list[str]:
    seen: set[str] = set()
    return [name for name in names if name in seen or seen.add(name)]  # type: ignore[func-returns-value]


def _names(document: Document) -> Faults:
    if not document.joint:
        yield JobError("joint", "an empty list", "at least one [[joint]], one for each head")
    if not document.engine.cylinders:
        yield JobError("engine.cylinders", "an empty list", 'the label of every cylinder, such as ["1", "2"]')
    lists: list[tuple[str, Sequence[str]]] = [
        ("engine.cylinders", document.engine.cylinders),
        ("joint", [joint.name for joint in document.joint]),
        ("variant", [variant.name for variant in document.variant]),
    ]
    for joint in document.joint:
        at = ("joint", joint.name)
        named: list[tuple[str, Sequence[str]]] = [
            ("readings.faces", [face.name for face in joint.readings.faces]),
            ("readings.damage", [entry.name for entry in joint.readings.damage]),
            ("gasket.candidates", [candidate.name for candidate in joint.gasket.candidates]),
            ("fasteners", [group.name for group in joint.fasteners]),
            ("limits", [limit.name for limit in joint.limits]),
        ]
        if joint.layout:
            named.append(("layout.bores", [bore.label for bore in joint.layout.bores]))
            named.append(("layout.fasteners", [hole.label for hole in joint.layout.fasteners]))
        lists.extend((f"{join_path(at)}.{where}", names) for where, names in named)
    for where, names in lists:
        for name in _twice(names):
            yield JobError(where, f"{name!r} twice", "every name once")


def _tests(document: Document) -> Faults:
    count = len(document.engine.cylinders)
    compression = document.tests.compression
    lists = {
        "tests.compression.dry": compression.dry,
        "tests.compression.wet": compression.wet,
        "tests.compression.cold": compression.cold,
        "tests.compression.hot": compression.hot,
        "tests.leak_down.readings": document.tests.leak_down.readings,
    }
    for path, readings in lists.items():
        if readings and len(readings) != count:
            yield JobError(
                path, f"{len(readings)} readings", f"one for each of the {count} cylinders, in order"
            )
    known = document.engine.cylinders
    yield from _labels("tests.leak_down.air_goes", document.tests.leak_down.air_goes, known, "cylinder")
    into = document.tests.leak_down.into
    named: dict[str, Iterable[str]] = {
        "tests.leak_down.into": (*into, *into.values()),
        "tests.compression.only": compression.only,
        "tests.weak": document.tests.weak,
    }
    for path, labels in named.items():
        yield from _labels(path, labels, known, "cylinder")
    order = document.engine.firing_order
    yield from _labels("engine.firing_order", order, known, "cylinder")
    if order and set(order) <= set(known) and sorted(order) != sorted(known):
        yield JobError("engine.firing_order", f"{len(order)} labels", f"each of the {count} cylinders once")


def _labels(path: str, found: Iterable[str], known: Sequence[str], what: str) -> Faults:
    for label in found:
        if label not in known:
            yield JobError(path, f"{what} {label!r}", nearest(label, known))


def _cylinders(document: Document, joint: Joint) -> Faults:
    at = join_path(("joint", joint.name))
    yield from _labels(f"{at}.cylinders", joint.cylinders, document.engine.cylinders, "cylinder")
    own = joint.cylinders or document.engine.cylinders
    maps: dict[str, Iterable[str]] = {
        "chamber.volumes": joint.chamber.volumes,
        "block.deck_clearance": joint.block.deck_clearance,
        "gasket.old.ring_thickness": joint.gasket.old.ring_thickness if joint.gasket.old else (),
    }
    for where, labels in maps.items():
        yield from _labels(f"{at}.{where}", labels, own, "cylinder")


def _layout(_document: Document, joint: Joint) -> Faults:
    """The zero of a hole pattern is a feature of it, and holes do not lie in each other."""
    at = join_path(("joint", joint.name))
    written: dict[str, Layout | None] = {"layout": joint.layout, "head.layout": joint.head.layout}
    for candidate in joint.gasket.candidates:
        written[join_path(("gasket", "candidates", candidate.name, "layout"))] = candidate.layout
    for where, layout in written.items():
        path = f"{at}.{where}"
        if layout and layout.zero:
            yield from _said(path, lambda given, path=path: set_frame(given, given, path), layout)  # type: ignore[misc]
        if layout and layout.bores:
            yield from _said(path, lambda given, path=path: check_pattern(hole_pattern(given, path)), layout)  # type: ignore[misc]


def _gasket_chosen(_document: Document, joint: Joint) -> Faults:
    names = [one.name for one in joint.gasket.candidates]
    if joint.gasket.fitted and names:
        at = join_path(("joint", joint.name))
        yield from _labels(f"{at}.gasket.fitted", [joint.gasket.fitted], names, "gasket")


def _ring_curves(_document: Document, joint: Joint) -> Faults:
    tested = [one for one in joint.gasket.candidates if one.ring_curve]
    if not tested:
        return
    from firedeck.job.ring_curve import ring_curve  # the gasket laws, which few documents need to be read

    for one in tested:
        try:
            ring_curve(joint.name, one)
        except JobError as fault:
            yield fault


def _fastener_groups(_document: Document, joint: Joint) -> Faults:
    at = join_path(("joint", joint.name))
    holes = [hole.label for hole in joint.layout.fasteners] if joint.layout else []
    grouped = [label for group in joint.fasteners for label in group.labels]
    if holes:
        yield from _labels(f"{at}.fasteners", grouped, holes, "fastener")
    for label in _twice(grouped):
        yield JobError(
            f"{at}.fasteners", f"fastener {label!r} in two groups", "each fastener in exactly one group"
        )
    for group in joint.fasteners:
        yield from _sections(f"{at}.fasteners.{join_path((group.name,))}.sections", group.sections)
    known = holes or grouped
    order = joint.procedure.order if joint.procedure else ()
    if known:
        yield from _labels(f"{at}.procedure.order", order, known, "fastener")
    for label in _twice(order):
        yield JobError(f"{at}.procedure.order", f"fastener {label!r} twice", "each fastener once")


def _sections(path: str, text: str) -> Faults:
    """Sections are pairs of diameter and length, each with its unit."""
    allowed = "diameter/length of each part, such as 9.2 mm/70 mm, 11 mm/25 mm"
    try:
        rows = split_rows(text) if text else ()
        sizes = [parse(cell, Kind.LENGTH).value for row in rows for cell in row]
    except BadQuantity as fault:
        yield JobError(path, repr(fault.found), allowed)
        return
    if any(len(row) != 2 for row in rows) or not all(size > 0.0 for size in sizes):
        yield JobError(path, repr(text), allowed)


def _limits(_document: Document, joint: Joint) -> Faults:
    for limit in joint.limits:
        at = join_path(("joint", joint.name, "limits", limit.name))
        if limit.quantity not in all_terms():
            yield JobError(f"{at}.quantity", repr(limit.quantity), nearest(limit.quantity, [*all_terms()]))
        elif not (limit.low or limit.high):
            yield JobError(at, "neither low nor high", 'give at least one, such as high = "0.05 mm"')
        else:
            yield from _bounds(at, limit)


def _bounds(at: str, limit: LimitText) -> Faults:
    kind = all_terms()[limit.quantity].kind
    values = []
    for name, text in (("low", limit.low), ("high", limit.high)):
        if text:
            try:
                values.append(parse(text, kind).value)
            except BadQuantity as fault:
                yield JobError(f"{at}.{name}", repr(text), fault.allowed)
    if len(values) == 2 and values[0] > values[1]:
        yield JobError(at, f"low {limit.low} above high {limit.high}", "low first, then high")


def _procedure(_document: Document, joint: Joint) -> Faults:
    if joint.procedure:
        path = f"{join_path(('joint', joint.name))}.procedure.text"
        yield from _said(path, lambda text: parse_procedure(str(text), path), joint.procedure.text)


def _stop_card(_document: Document, joint: Joint) -> Faults:
    """One reads the card out and another looks: the same initials twice are one person."""
    read, looked = (one.strip() for one in (joint.stop_card.read_by, joint.stop_card.looked_by))
    if read and read.casefold() == looked.casefold():
        at = join_path(("joint", joint.name, "stop_card", "looked_by"))
        yield JobError(at, f"{looked!r} twice", "another person's initials: one reads out, one looks")


def _faces(_document: Document, joint: Joint) -> Faults:
    for face in joint.readings.faces:
        at = join_path(("joint", joint.name, "readings", "faces", face.name))
        if (face.points or face.lines) and face.seen is None:
            yield JobError(
                f"{at}.seen",
                "nothing",
                'say how it was seen: "deck from above" or "head face up on the bench"',
            )
        yield from _said(at, lambda given, at=at: set_frame(given, joint.layout, at), face)  # type: ignore[misc]
        if face.points:
            yield from _points(f"{at}.points", face)


def _damage(document: Document, joint: Joint) -> Faults:
    """Damage is placed from a feature of the hole pattern, and beside cylinders of this joint."""
    own = joint.cylinders or document.engine.cylinders
    for entry in joint.readings.damage:
        at = join_path(("joint", joint.name, "readings", "damage", entry.name))
        yield from _labels(f"{at}.cylinders", entry.cylinders, own, "cylinder")
        yield from _said(at, lambda given, at=at: set_frame(given, joint.layout, at), entry)  # type: ignore[misc]


def _points(path: str, face: FaceReadings) -> Faults:
    try:
        columns = read_columns(face.points)
    except BadQuantity as fault:
        yield JobError(path, repr(fault.found), fault.allowed)
        return
    header = "a header such as: x [mm], y [mm], z [thou]"
    missing = [name for name in ("x", "y", "z") if name not in columns.numbers]
    if missing:
        yield JobError(path, f"no column {', '.join(missing)}", header)
    elif columns.assumptions:
        yield JobError(path, "a column without its unit", header)
    elif strange := [name for name in ("x", "y", "z") if columns.kinds[name] is not Kind.LENGTH]:
        yield JobError(path, f"{', '.join(strange)} in a unit that is no length", header)


def _said(path: str, read: Callable[[object], object], given: object) -> Faults:
    """Turn the fault of another grammar into a fault at this path."""
    try:
        read(given)
    except JobErrors as faults:
        yield from faults.faults
    except JobError as fault:
        yield fault if fault.path.startswith("joint") else JobError(path, fault.found, fault.allowed)
    except BadQuantity as fault:
        yield JobError(path, repr(fault.found), fault.allowed)
