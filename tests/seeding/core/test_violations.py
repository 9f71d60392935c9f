"""The order of fewest violations: worked values, and all orders where they are few."""

import json
from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import combinations, permutations, product
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seeding.core.circles import Beat
from seeding.core.violations import FewestViolations, fewest_violations
from seeding.core.violations.bounds import UNIT, Whole, nothing, pack
from seeding.core.violations.counting import best
from seeding.core.violations.found import SHOWN
from seeding.core.violations.subsets import sweep
from tests.seeding.core.beaten import complete, field, over, rotational, season
from tests.seeding.core.seasons import ROOT

CASES = json.loads((ROOT / "fixtures" / "violations.json").read_text("utf-8"))


BEATS = [case for case in CASES if "beats" in case["given"]]
BALLOTS = [case for case in CASES if "ballots" in case["given"]]


@pytest.mark.parametrize("case", BEATS, ids=lambda case: case["id"])
def test_worked(case: dict[str, Any]) -> None:
    given, expect = case["given"], dict(case["expect"])
    found = fewest_violations(
        given.get("nodes", sorted(given["prefer"])), over(*given["beats"]), given["prefer"]
    )
    assert found.proven
    shown = {
        "order": "".join(found.order),
        "violated": [beat.better + beat.worse for beat in found.violated],
        "bound": found.bound,
        "count": found.count,
    }
    assert {key: shown[key] for key in expect} == expect


@pytest.mark.parametrize(
    ("size", "expect"),
    [(3, [6, 2]), (4, [24, 40]), (5, [120, 480, 400, 24])],
)
def test_all_labelled_tournaments(size: int, expect: list[int]) -> None:
    """Calculated: how many tournaments have 0, 1, 2, ... as their fewest violations."""
    names = "ABCDE"[:size]
    either = [(a + b, b + a) for a, b in combinations(names, 2)]
    found = Counter(
        len(fewest_violations(names, over(*beats), names).violated) for beats in product(*either)
    )
    assert [found[number] for number in range(len(expect))] == expect
    assert sum(expect) == found.total()


@pytest.mark.parametrize("case", BALLOTS, ids=lambda case: case["id"])
def test_ballots_are_beats_and_the_order_is_kemenys(case: dict[str, Any]) -> None:
    pairs = [
        above + below
        for ballot, number in case["given"]["ballots"].items()
        for above, below in combinations(ballot, 2)
        for _ in range(number)
    ]
    prefer, expect = case["given"]["prefer"], case["expect"]
    found = fewest_violations(prefer, over(*pairs), prefer)
    assert found.proven
    assert "".join(found.order) == expect["order"]
    assert (len(found.violated), found.count) == (expect["distance"], expect["count"])


FIELD = "ABCDEF"
some_beats = st.lists(
    st.sampled_from(list(permutations(FIELD, 2))).map(lambda pair: Beat(*pair, ())), max_size=24
)
preferences = st.permutations(FIELD)


def broken(order: Sequence[str], beats: Iterable[Beat]) -> int:
    return sum(order.index(beat.worse) < order.index(beat.better) for beat in beats)


def optima(names: Sequence[str], beats: Sequence[Beat]) -> list[tuple[str, ...]]:
    """All orders of fewest violations, as the names are given, the first name first."""
    every = [(broken(order, beats), order) for order in permutations(names)]
    fewest = min(number for number, _ in every)
    return [order for number, order in every if number == fewest]


@settings(deadline=None)
@given(some_beats, preferences)
def test_every_order_looked_at(beats: list[Beat], prefer: list[str]) -> None:
    found = fewest_violations(FIELD, beats, prefer)
    good = optima(prefer, beats)
    assert found.order == good[0]
    assert len(found.violated) == found.bound == broken(good[0], beats)
    assert sum(len(part.wrestlers) for part in found.parts) <= len(FIELD)
    for part in found.parts:
        _part_is_as_every_order_says(part.wrestlers, beats, prefer, found)


def _part_is_as_every_order_says(
    wrestlers: Sequence[str], beats: Sequence[Beat], prefer: Sequence[str], found: FewestViolations
) -> None:
    (part,) = [part for part in found.parts if part.wrestlers == wrestlers]
    own = [wrestler for wrestler in prefer if wrestler in wrestlers]
    good = optima(own, [beat for beat in beats if {beat.better, beat.worse} <= {*own}])
    assert part.count == len(good)
    assert part.alternatives == tuple(good[:SHOWN])
    for a, b in permutations(own, 2):
        assert ((a, b) in part.agreed) == all(each.index(a) < each.index(b) for each in good)
    for order in good:
        place = {wrestler: at for at, wrestler in enumerate(order)}
        for run in part.tied:
            places = sorted(place[wrestler] for wrestler in run)
            first = part.wrestlers.index(run[0])
            assert places == list(range(first, first + len(run)))


@settings(deadline=None, max_examples=25)
@given(st.integers(0, 10**6), st.integers(2, 12), st.randoms(use_true_random=False))
def test_the_result_does_not_depend_on_the_order_of_input(
    seed: int, size: int, random: Any
) -> None:
    beats, names = list(season(size, seed, min(5, size - 1), 0.5)), field(size)
    prefer = random.sample(names, size)
    expect = fewest_violations(names, beats, prefer)
    random.shuffle(beats)
    random.shuffle(names)
    assert fewest_violations(names, beats, prefer) == expect


@pytest.mark.parametrize("seed", range(5))
def test_ids_count_only_through_the_preference(seed: int) -> None:
    beats, names = season(20, seed, 6, 0.5), field(20)
    other = dict(zip(names, reversed(names), strict=True))
    renamed = [Beat(other[beat.better], other[beat.worse], ()) for beat in beats]
    plain = fewest_violations(names, beats, names)
    turned = fewest_violations(names, renamed, [other[name] for name in names])
    assert turned.order == tuple(other[name] for name in plain.order)
    assert turned.count == plain.count


def test_ties_are_neighbours_whose_order_is_open() -> None:
    """A, B and C form a circle whose beat C over A counts least; D and E are level inside it."""
    beats = over("AB", "AB", "BD", "BD", "BE", "BE", "DC", "DC", "EC", "EC", "CA")
    (part,) = fewest_violations("ABCDE", beats, "EDCBA").parts
    assert part.wrestlers == ("A", "B", "E", "D", "C")
    assert part.count == 2
    assert part.alternatives == (("A", "B", "E", "D", "C"), ("A", "B", "D", "E", "C"))
    assert part.tied == (("E", "D"),)


def net_of(beats: Iterable[Beat], size: int) -> Whole:
    weights: Whole = np.zeros((size, size), np.int64)
    for beat in beats:
        weights[int(beat.better[1:]), int(beat.worse[1:])] += 1
    net: Whole = np.maximum(weights - weights.T, 0)
    return net


@pytest.mark.parametrize("seed", range(8))
def test_circles_cut_the_search_short_and_change_nothing(seed: int) -> None:
    """The same search with and without the bound: 2 to the 12 sets against a few."""
    net = net_of(complete(12, seed, 0.5), 12)
    packing = pack(net)
    level = next(level for level in range(66) if sweep(net, packing, level).layers)
    pruned, slow = sweep(net, packing, level), sweep(net, nothing(12), 66)
    assert sum(len(layer.sets) for layer in slow.layers) == 2**12
    assert slow.excess == level * UNIT
    assert best(pruned) == best(slow)


@pytest.mark.parametrize("seed", range(8))
def test_packed_circles_never_explain_more_than_is_violated(seed: int) -> None:
    """Whoever stands on top, in whatever order: so no best order can be cut off."""
    net = net_of(complete(10, seed, 0.0), 10)
    packing = pack(net)
    every = sweep(net, packing, 45)
    assert sum(len(layer.sets) for layer in every.layers) == 2**10
    assert min(layer.excess.min() for layer in every.layers) >= 0
    assert 0 < packing.bound * UNIT <= packing.total + every.excess


def test_without_room_the_best_few_go_on() -> None:
    net = net_of(complete(14, 1, 0.0), 14)
    full, narrow = sweep(net, pack(net), 91), sweep(net, pack(net), 91, room=4)
    assert full.whole
    assert not narrow.whole
    assert narrow.excess >= full.excess
    assert max(len(layer.sets) for layer in narrow.layers) <= 4
    assert best(narrow).count is None


def test_a_pure_lottery_of_32_is_not_proven_and_says_so() -> None:
    found = fewest_violations(field(32), complete(32, 0, 0.0), field(32))
    assert not found.proven
    assert found.gap == len(found.violated) - found.bound > 0
    assert found.count is None
    (part,) = found.parts
    assert part.alternatives == (found.order,)
    assert not part.agreed
    assert part.tied == (found.order,)


def test_split_decisions_everywhere_leave_the_preference() -> None:
    """32 wrestlers, each two of whom beat each other: more orders than there is room to count."""
    beats = [Beat(a, b, ()) for a, b in permutations(field(32), 2)]
    prefer = field(32)[::-1]
    found = fewest_violations(field(32), beats, prefer)
    assert found.order == tuple(prefer)
    assert found.proven
    assert found.count is None


def test_more_wrestlers_in_one_circle_than_a_set_has_bits() -> None:
    found = fewest_violations(field(70), rotational(70, (1,)), field(70))
    assert found.order == tuple(field(70))
    assert found.proven
    assert found.count is None


@pytest.mark.parametrize("seed", range(3))
def test_32_wrestlers_of_a_season_are_proven_and_counted(seed: int) -> None:
    found = fewest_violations(field(32), season(32, seed, 8), field(32))
    assert found.proven
    assert found.count


@pytest.mark.parametrize("prefer", ["AB", "ABBC", "ABCD", "ABB"])
def test_the_preference_names_everybody_once(prefer: str) -> None:
    with pytest.raises(ValueError, match="every wrestler once, and nobody else"):
        fewest_violations("ABC", over("AB"), prefer)


def test_a_beat_of_somebody_else_is_refused() -> None:
    with pytest.raises(ValueError, match="'A' over 'X': not both are to be ordered"):
        fewest_violations("AB", over("AX"), "AB")


def test_nobody_at_all() -> None:
    found = fewest_violations("", (), "")
    assert (found.order, found.bound, found.count, found.parts) == ((), 0, 1, ())
