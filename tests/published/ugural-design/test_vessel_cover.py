"""Bolts of a vessel's cover: cone of two equal halves, load share, preload, torque."""

from cases import published

from firedeck import sums
from firedeck.quantity import Kind, in_unit


@published(__file__, "vessel_cover.csv")
def test_cover(row):
    steel_per_inch = 30e6
    member = sums.member_stiffness(
        frusta="15 Mpsi/1.125 in/1 in, 15 Mpsi/1.125 in/1 in", bolt_diameter="0.75 in"
    ).results["stiffness"]
    over_steel = in_unit(member.value, Kind.STIFFNESS, "lbf/in") / steel_per_inch
    assert abs(over_steel / float(row["member_over_steel"]) - 1) <= 0.005
    # the example takes the plain area of the shank over the whole grip
    bolt = sums.bolt_stiffness(sections="0.75 in/2 in", modulus="30 Mpsi").results["stiffness"]
    assert (
        abs(
            in_unit(bolt.value, Kind.STIFFNESS, "lbf/in") / steel_per_inch / float(row["bolt_over_steel"]) - 1
        )
        <= 0.005
    )
    share = sums.joint_diagram(
        bolt_stiffness=f"{bolt.value} N/mm",
        member_stiffness=f"{member.value} N/mm",
        preload="31.6 kip",
        external_load="6 kip",
    ).results["load_fraction"]
    assert abs(share.value / float(row["load_fraction"]) - 1) <= 0.005
    # 105 ksi on the stress area of 3/4-10, nine tenths of it
    area = in_unit(sums.thread_geometry(thread="3/4-10").results["stress_area"].value, Kind.AREA, "sq in")
    assert abs(0.9 * 105 * area / float(row["preload_kip"]) - 1) <= 0.005
    torque = sums.nut_factor_torque(
        diameter="0.75 in", tension=f"{row['preload_kip']} kip", nut_factor="0.2"
    ).results["torque"]
    assert abs(in_unit(torque.value, Kind.TORQUE, "lbf·in") / 1000 / float(row["torque_kip_in"]) - 1) <= 0.005
