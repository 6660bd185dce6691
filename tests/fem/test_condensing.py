"""Condensation against a direct solve, whole and in pieces."""

import numpy as np
import pytest
from fem.bodies import on_plane, ragged

from firedeck.errors import OutOfRange
from firedeck.fem import (
    Body,
    condense,
    condense_piece,
    finish,
    held_at_three_nodes,
    held_on_plane,
    joined,
    plan,
    rigid_motions,
    share_out,
    warmth,
    work,
)
from firedeck.fem.columns import X, Z, node_columns
from firedeck.fem.direct import dense, solve
from firedeck.fem.nested import dissect


def asked(body):
    """Columns over the top, sideways columns and a warm body."""
    top = on_plane(body, 2, body.z[-1])
    return joined(
        [node_columns(body, top[::3], Z), node_columns(body, top[::7], X), warmth(body, np.ones(body.nodes))]
    )


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("hold", [held_at_three_nodes, held_on_plane])
def test_condensed_is_what_the_whole_body_says(seed, hold):
    body = ragged(seed)
    columns, held = asked(body), hold(body, 0)
    G = condense(body, columns, held)
    whole = dense(columns, 3 * body.touched.size).T @ solve(body, columns, held)
    assert np.abs(G - whole).max() < 1e-10 * np.abs(whole).max()
    assert np.abs(G - G.T).max() == 0.0


@pytest.mark.parametrize("leaf", [8, 40, 150, 5000])
def test_the_size_of_leaves_changes_nothing(leaf):
    body = ragged(9)
    columns, held = asked(body), held_on_plane(body, 0)
    usual = condense(body, columns, held)
    assert np.abs(finish(plan(body, columns, held, leaf), {}) - usual).max() < 1e-11 * np.abs(usual).max()


def test_pieces_done_apart_give_the_whole():
    body = ragged(5, bricks=(16, 9, 6))
    whole = plan(body, asked(body), held_on_plane(body, 0))
    halves = whole.tree.pieces[-1].halves
    apart = {number: condense_piece(whole, number) for number in halves}
    straight = finish(whole, {})
    assert np.abs(finish(whole, apart) - straight).max() < 1e-12 * np.abs(straight).max()


def test_what_lay_in_memory_before_does_not_show(monkeypatch):
    body = ragged(3)
    columns, held = asked(body), held_on_plane(body, 0)
    usual = condense(body, columns, held)
    empty = np.empty
    for junk in (np.nan, np.inf, 1e308):
        with monkeypatch.context() as patched:
            patched.setattr(np, "empty", lambda *a, junk=junk, **k: _filled(empty(*a, **k), junk))
            assert np.array_equal(condense(body, columns, held), usual)


def _filled(array, junk):
    if array.dtype == np.float64:
        array.fill(junk)
    return array


def test_every_node_is_eliminated_once():
    body = ragged(2)
    tree = dissect(body, 40)
    assert len(tree.pieces) > 8
    assert sorted(tree.order) == sorted(np.flatnonzero(body.touched))
    assert sum(piece.own for piece in tree.pieces) == len(tree.order)
    for piece in tree.pieces:
        assert (piece.border >= piece.first + piece.own).all()
    assert len(tree.pieces[-1].border) == 0


def test_work_grows_towards_the_root():
    body = ragged(2)
    whole = plan(body, asked(body), held_on_plane(body, 0))
    cost = work(whole)
    for number, piece in enumerate(whole.tree.pieces):
        assert all(cost[number] > cost[half] for half in piece.halves)


def test_loads_in_balance_leave_the_supports_alone():
    body = ragged(7)
    top = on_plane(body, 2, body.z[-1])
    columns = node_columns(body, top, Z)
    R = rigid_motions(body, columns)
    force = np.random.default_rng(0).normal(size=len(top))
    balanced = force - R @ np.linalg.lstsq(R, force, rcond=None)[0]
    assert np.abs(R.T @ balanced).max() < 1e-9 * np.abs(R.T @ force).max() + 1e-9
    one = condense(body, columns, held_at_three_nodes(body, 0)) @ balanced
    other = condense(body, columns, held_at_three_nodes(body, len(body.z) // 2)) @ balanced
    left = (one - other) - R @ np.linalg.lstsq(R, one - other, rcond=None)[0]
    assert np.abs(left).max() < 1e-9 * np.abs(one).max()
    assert balanced @ one == pytest.approx(balanced @ other, rel=1e-9)


def test_a_loose_part_is_refused():
    body = ragged(1)
    share = np.ones((5, 2, 2))
    share[2] = 0.0
    x = np.arange(6.0)
    loose = Body(x, x[:3], x[:3], share, body.material)
    columns = node_columns(loose, np.array([0]), Z)
    held = held_on_plane(Body(x[:3], x[:3], x[:3], np.ones((2, 2, 2)), body.material), 0)
    with pytest.raises(OutOfRange, match="loose"):
        condense(loose, columns, held)


def test_a_body_that_is_not_held_is_refused():
    body = ragged(1)
    with pytest.raises(OutOfRange, match="loose"):
        condense(body, asked(body), np.array([0, 1, 2]))


def test_shares_are_even_and_joined_they_are_the_whole():
    bodies = [ragged(5, bricks=(16, 9, 6)), ragged(6)]
    plans = [plan(body, asked(body), held_on_plane(body, 0), 40) for body in bodies]
    shares = share_out(plans, 2)
    cost = [sum(work(plans[body])[piece] for body, piece in share) for share in shares]
    assert max(cost) < 0.62 * sum(cost)
    done = [{}, {}]
    for body, piece in (job for share in shares for job in share):
        done[body][piece] = condense_piece(plans[body], piece)
    for whole, ready in zip(plans, done, strict=True):
        straight = finish(whole, {})
        assert np.abs(finish(whole, ready) - straight).max() < 1e-12 * np.abs(straight).max()


def test_no_hands_do_no_work():
    with pytest.raises(OutOfRange, match="one or more"):
        share_out([], 0)
