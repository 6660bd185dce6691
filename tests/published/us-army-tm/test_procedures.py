"""Printed head tightenings: the steps add up to the printed total, the torque is the printed one."""

import pytest
from cases import Row, published

from firedeck.fasteners.procedure_reading import parse
from firedeck.quantity import Kind, in_unit


@published(__file__, "procedures.csv")
def test_torque_as_printed(row: Row) -> None:
    group = "1-17" if row["fasteners"] else "all"
    torque = parse(row["text"]).final_torque(group)
    low, _, high = row["torque"].partition("-")
    shown = [in_unit(end, Kind.TORQUE, row["unit"]) for end in (torque.low, torque.high)]
    assert shown == pytest.approx([float(low), float(high or low)], rel=1e-12)


@published(__file__, "procedures.csv", where=lambda row: bool(row["angle"]))
def test_turns_add_up_to_the_printed_total(row: Row) -> None:
    procedure = parse(f"{row['text']}; total {row['angle']}°")
    total = procedure.total_angle("all")
    assert in_unit(total.aim, Kind.ANGLE, "deg") == pytest.approx(float(row["angle"]), rel=1e-12)
    assert procedure.is_torque_plus_angle("all")


@published(__file__, "procedures.csv", where=lambda row: bool(row["second"]))
def test_the_printed_second_unit_is_the_same_torque(row: Row) -> None:
    torque = parse(row["text"]).final_torque("all")
    second = in_unit(torque.aim, Kind.TORQUE, row["second_unit"])
    assert second == pytest.approx(float(row["second"]), abs=float(row["tolerance"]))


@published(__file__, "procedures.csv", where=lambda row: bool(row["fasteners"]))
def test_every_fastener_of_the_group_is_named(row: Row) -> None:
    ((_, members),) = parse(row["text"]).members
    assert members == tuple(str(at) for at in range(1, int(row["fasteners"]) + 1))
