"""Laws of what mends a line: floors, swaps, team-mates apart."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seeding.core.mends import part
from seeding.core.season import Placing, Season, wins
from tests.seeding.core.seasons import EVERY, HOMES, WEIGHT, WRESTLERS, seasons
from tests.seeding.core.test_pipeline import apart, by_rank, order, placers, run, swap

law = settings(max_examples=40, deadline=None)


def by_hand(known: Season, ranking: Sequence[str]) -> Season:
    return replace(known, rankings={"coaches": {one: at for at, one in enumerate(ranking, 1)}})


@law
@given(
    seasons(), st.permutations(WRESTLERS), st.sets(st.sampled_from(WRESTLERS)), st.integers(1, 8)
)
def test_a_floor(known: Season, ranking: list[str], champions: set[str], place: int) -> None:
    """All champions, or as many as there are places, stand well; nobody else's order changes."""
    season = replace(by_hand(known, ranking), placings=())
    season = replace(season, placings=tuple(placing(one) for one in sorted(champions)))
    found = order(run(season, by_rank(), placers("floor", [1], place=place), field=WRESTLERS))
    best = [one for one in ranking if one in champions][:place]
    assert set(best) <= set(found[:place])
    for group in (champions, set(WRESTLERS) - champions):
        assert [one for one in found if one in group] == [one for one in ranking if one in group]
    if all(ranking.index(one) < place for one in best):
        assert found == "".join(ranking)


def placing(one: str) -> Placing:
    return Placing("district", one, 1, WEIGHT)


@law
@given(seasons(), st.permutations(WRESTLERS))
def test_a_swap(known: Season, ranking: list[str]) -> None:
    """Neighbours change, each at most once, by a meeting that is part of no circle."""
    season = by_hand(known, ranking)
    proposal = run(season, by_rank(), swap(), field=WRESTLERS)
    found, at = order(proposal), 0
    around = [set(one.circle.wrestlers) for one in proposal.circles]
    graph = season.graph(EVERY)
    while at < len(found):
        if found[at] != ranking[at]:
            one, other = found[at], found[at + 1]
            assert [one, other] == [ranking[at + 1], ranking[at]]
            assert len(wins(graph, one, other)) > 0
            assert not any({one, other} <= circle for circle in around)
            at += 1
        at += 1


@pytest.mark.parametrize(("name", "parts"), [("half", 2), ("quarter", 4)])
@law
@given(st.permutations(WRESTLERS), st.integers(2, 7))
def test_team_mates(name: str, parts: int, ranking: list[str], count: int) -> None:
    """Those below the count stay, and no more team-mates share a part than before."""
    season = replace(by_hand(Season("133", ()), ranking), homes=HOMES)
    found = order(run(season, by_rank(), apart(name, count), field=WRESTLERS))
    assert sorted(found) == sorted(ranking)
    assert list(found[count:]) == ranking[count:]
    assert together(found[:count], parts) <= together(ranking[:count], parts)


def together(line: Sequence[str], parts: int) -> int:
    seeds = enumerate(line, 1)
    return sum(
        HOMES[one] == HOMES[other] and part(low, parts) == part(high, parts)
        for (low, one), (high, other) in combinations(seeds, 2)
    )
