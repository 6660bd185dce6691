"""strip-how, clean-how, dry-or-coated, goes-on, buy-what, bolts-or-studs: the work, and what stops it."""

import pytest
from unit.answers.fastening import ask, group, limit, outcomes, procedure, wanted_of, words_of

ORDER = procedure("oiled; 40 N·m", order=["1", "2", "3"])
THREE = [group(labels=["1", "2", "3"])]
STEEL = {"candidates": [{"name": "new", "construction": "multi-layer-steel", "coated": True}]}


class TestStripHow:
    def test_order_turned_round(self):
        answer = ask("strip-how", {"fasteners": THREE, "procedure": ORDER})
        assert (answer.state, answer.action) == ("decided", "do-as-listed")
        assert "3 · 2 · 1" in words_of(answer)
        assert outcomes(answer)["loosening order"] == "holds"

    def test_no_order_asks_for_the_papers(self):
        answer = ask("strip-how", {})
        assert "order of loosening" in wanted_of(answer)
        assert "from the ends to the middle" in words_of(answer)

    @pytest.mark.parametrize(
        ("engine", "joint", "words"),
        [
            ({"valve_gear": "overhead-cam", "cam_drive": "belt"}, {}, "Lock cams and crank"),
            ({"valve_gear": "twin-cam", "cam_drive": "chain"}, {}, "tie the chain up"),
            ({"valve_gear": "push-rod"}, {}, "push-rods into a card"),
            ({}, {"block": {"liners": "wet"}}, "Clamp every liner"),
            ({}, {"head": {"weight": "40 kg"}}, "40 kg (88.2 lb)"),
            ({}, {"readings": {"fasteners": {"broken": ["2"]}}}, "drill through the middle"),
            ({"fuel": "petrol"}, {}, "Fuel pressure let down"),
            ({}, {}, "Drain radiator and block"),
            ({}, {}, "Never on open valves"),
            ({}, {}, "torque at which it gave way"),
        ],
    )
    def test_lines_by_construction(self, engine, joint, words):
        assert words in words_of(ask("strip-how", joint, engine=engine))

    def test_air_cooled_has_nothing_to_drain(self):
        assert "Drain" not in words_of(ask("strip-how", {}, running={"coolant": "air"}))

    def test_tests_not_taken_are_named(self):
        answer = ask("strip-how", {}, tests={"compression": {"dry": "150, 150 psi"}})
        assert "leak-down, cooling system" in words_of(answer)


class TestCleanHow:
    def test_alloy_head_on_iron_block(self):
        answer = ask("clean-how", {"head": {"material": "aluminium"}, "block": {"material": "grey-iron"}})
        assert answer.action == "do-as-listed"
        assert "0.2 mm" in words_of(answer)
        assert "Steel digs in" in words_of(answer)
        assert "measured again" in words_of(answer)

    def test_metal_not_known_is_open(self):
        answer = ask("clean-how", {"head": {"material": "unknown"}, "block": {"material": "grey-iron"}})
        assert answer.state == "open"
        assert "magnet" in wanted_of(answer)
        assert "block" not in answer.headline

    @pytest.mark.parametrize(
        ("old", "said"), [("composite", True), ("multi-layer-steel", False), ("soft-copper", False)]
    )
    def test_old_facings_may_be_asbestos(self, old, said):
        joint = {"gasket": {"old": {"construction": old}}, "head": {"material": "grey-iron"}}
        assert ("asbestos" in words_of(ask("clean-how", joint))) is said


class TestDryOrCoated:
    def test_gasket_not_known_is_open(self):
        answer = ask("dry-or-coated", {})
        assert answer.state == "open"
        assert "which gasket" in wanted_of(answer)

    @pytest.mark.parametrize(
        ("construction", "coated", "words"),
        [
            ("multi-layer-steel", True, "Coated gasket: dry"),
            ("composite", True, "Coated gasket: dry"),
            ("composite", False, "Soft-faced gasket: dry"),
            ("steel-shim", False, "thin even film of sealer"),
            ("soft-copper", False, "Copper: annealed once"),
            ("laminated", False, "breath of sealer"),
        ],
    )
    def test_faces_by_construction(self, construction, coated, words):
        gasket = {"candidates": [{"name": "new", "construction": construction, "coated": coated}]}
        answer = ask("dry-or-coated", {"gasket": gasket})
        assert answer.action == "do-as-listed"
        assert words in words_of(answer)

    @pytest.mark.parametrize(
        ("leads", "words"),
        [("water", "thread sealer on these"), ("oil", "Hole that feeds oil"), ("nowhere", "written for")],
    )
    def test_threads_by_hole(self, leads, words):
        fasteners = [group(labels=["1"], leads=leads)]
        assert words in words_of(ask("dry-or-coated", {"gasket": STEEL, "fasteners": fasteners}))

    def test_sealer_in_place_of_oil_is_said(self):
        fasteners = [group(labels=["1"], leads="water", lubricant="oil")]
        answer = ask("dry-or-coated", {"gasket": STEEL, "fasteners": fasteners})
        assert "in place of oil" in words_of(answer)

    def test_used_gasket_stops(self):
        gasket = {"candidates": [{**STEEL["candidates"][0], "used": True}]}
        assert ask("dry-or-coated", {"gasket": gasket}).action == "stop"

    def test_studs_by_hand(self):
        answer = ask("dry-or-coated", {"gasket": STEEL, "fasteners": [group(kind="stud")]})
        assert "Studs by hand only" in words_of(answer)


class TestGoesOn:
    def test_nothing_known_wrong_is_a_list_and_names_what_is_unknown(self):
        answer = ask("goes-on", {})
        assert answer.action == "do-as-listed"
        assert "still unknown: faces" in answer.headline
        assert answer.next
        assert "Two initials" in answer.work[-1].text

    @pytest.mark.parametrize(
        ("joint", "what"),
        [
            ({"readings": {"holes": {"liquid": ["1"]}}}, "threads"),
            ({"readings": {"holes": {"pulled": ["1"]}}}, "threads"),
            ({"fasteners": [group(reuse="never")]}, "bolts"),
            ({"gasket": {"candidates": [{"name": "old", "used": True}]}}, "gasket"),
            ({"readings": {"after": {"washed": False}}}, "washed"),
            ({"readings": {"after": {"plugs_in": False}}}, "plugs"),
            ({"head": {"crack_test": "found"}}, "head"),
        ],
    )
    def test_what_is_wrong_stops_it(self, joint, what):
        answer = ask("goes-on", joint)
        assert answer.action == "stop"
        assert answer.headline.startswith(f"Stop: {what}")

    def test_face_over_its_limit_stops_it(self):
        faces = [{"name": "head", "face": "head", "largest_gap_along": "0.2 mm"}]
        limits = [{**limit("face_flatness", high="0.05 mm"), "part": "head", "measure": "under-the-edge"}]
        assert ask("goes-on", {"readings": {"faces": faces}, "limits": limits}).action == "stop"

    def test_wrench_never_checked_stops_it(self):
        assert ask("goes-on", {}, tools={"wrench": {"checked": "never"}}).action == "stop"

    def test_several_faults_are_counted(self):
        answer = ask("goes-on", {"head": {"crack_test": "found"}, "readings": {"after": {"washed": False}}})
        assert "1 more" in answer.headline

    def test_new_bolts_in_hand_do_not_stop_it(self):
        joint = {"fasteners": [group(new=True)], "procedure": procedure("oiled; 40 N·m; +90°")}
        assert ask("goes-on", joint).action == "do-as-listed"

    def test_dowel_on_the_bottom_stops_it(self):
        dowel = {"label": "front", "x": "0 mm", "y": "0 mm", "stand_out": "9 mm", "hole_depth": "8 mm"}
        bores = [{"label": "1", "x": "0 mm", "y": "0 mm", "diameter": "80 mm"}]
        layout = {"seen": "deck from above", "dowels": [dowel], "bores": bores}
        gasket = {"candidates": [{"name": "new", "thickness": "1 mm"}]}
        answer = ask("goes-on", {"layout": layout, "gasket": gasket, "cut": {"head": "0.2 mm"}})
        assert answer.action == "stop"
        assert "dowels" in answer.headline


class TestBuyWhat:
    def test_one_gasket_for_each_head(self):
        answer = ask("buy-what", {}, {}, engine={"arrangement": "vee"})
        assert answer.joint is None
        assert "2 head gaskets" in answer.headline
        assert "left and right may differ" in words_of(answer).lower()

    @pytest.mark.parametrize(
        ("reuse", "words"), [("never", "whole set with washers"), ("allowed", "as long as the old")]
    )
    def test_bolts_by_their_fate(self, reuse, words):
        joint = {"fasteners": [group(reuse=reuse)], "readings": {"fasteners": {"threads": "clean-and-even"}}}
        assert words in words_of(ask("buy-what", joint))

    def test_inserts_for_pulled_holes(self):
        assert "inserts" in words_of(ask("buy-what", {"readings": {"holes": {"pulled": ["1", "2"]}}}))

    def test_sizes_and_lengths_are_said(self):
        gasket = {"candidates": [{"name": "new", "thickness": "1.2 mm", "bore": "87 mm"}]}
        answer = ask("buy-what", {"gasket": gasket, "fasteners": [group(length_new="120 mm", reuse="never")]})
        figures = " ".join(line.figure for line in answer.work)
        assert "ring 87 mm, thick 1.2 mm" in figures
        assert "120 mm long" in figures

    def test_two_gaskets_in_question_are_settled_by_construction(self):
        gasket = {
            "candidates": [
                {"name": n, "construction": c}
                for n, c in (("layers", "multi-layer-steel"), ("soft", "composite"))
            ]
        }
        metals = {"head": {"material": "aluminium"}, "block": {"material": "grey-iron"}}
        chosen = ask("buy-what", {"gasket": gasket, **metals})
        assert any("layers" in line.figure for line in chosen.work)
        assert any("choose first" in line.figure for line in ask("buy-what", {}).work)

    def test_cracked_head_stops_the_order(self):
        answer = ask("buy-what", {"head": {"crack_test": "found"}})
        assert answer.action == "stop"


class TestBoltsOrStuds:
    def test_standard_keeps_what_it_has(self):
        answer = ask("bolts-or-studs", {"fasteners": [group()]})
        assert (answer.state, answer.action) == ("decided", "keep")

    def test_nothing_named_is_open(self):
        assert ask("bolts-or-studs", {}).state == "open"

    @pytest.mark.parametrize(
        ("now", "before", "action"),
        [("0.6 bar", "0 bar", "ask-the-maker"), ("9 psi", "9 psi", "keep"), ("0 bar", "0 bar", "keep")],
    )
    def test_boost_added_is_the_makers(self, now, before, action):
        running = {"boost": now, "boost_before": before}
        assert ask("bolts-or-studs", {"fasteners": [group()]}, running=running).action == action

    def test_pulled_threads_want_waisted_studs(self):
        joint = {"fasteners": [group(kind="stud")], "readings": {"holes": {"pulled": ["1"]}}}
        answer = ask("bolts-or-studs", joint)
        assert answer.action == "studs"
        assert "Waisted" in answer.headline

    def test_raised_ratio_points_to_studs(self):
        joint = {"fasteners": [group()], "chamber": {"ratio_after": "10.5:1"}}
        answer = ask("bolts-or-studs", joint, engine={"ratio": "9:1"})
        assert answer.action == "studs"
        assert "direction only" in words_of(answer)
