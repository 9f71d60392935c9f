"""The matrices say what the slow definitions over one pair say."""

from itertools import combinations, permutations
from random import Random

import networkx as nx
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seeding.core.criteria import Repeats
from seeding.core.matrices import Against, BoutArrays, Meeting, SeasonMatrices
from seeding.core.meetings import CommonOpponents, CommonRule, HeadToHead, HeadToHeadRule
from seeding.core.season import Counted, Season
from tests.seeding.core.seasons import EVERY, HERE, bout, met, season, seasons

ONCE, ALL = Repeats.ONCE, Repeats.EVERY_BOUT


def of(text: str) -> SeasonMatrices:
    return SeasonMatrices(BoutArrays.of(met(text.split())))


def test_two_who_met_and_share_opponents() -> None:
    found = of("AB AX XB BY AY AY YA").pair("A", "B")
    assert found == Meeting(1, 0, 2, Against(3, 1, 1), Against(1, 1, 1))


def test_an_opponent_counted_once_is_won_lost_or_nothing() -> None:
    found = of("AX XA BX AY AY YA YB").pair("A", "B", ONCE)
    assert found == Meeting(0, 0, 2, Against(1, 0, 1), Against(1, 1, 0))


def test_only_bouts_that_count_and_every_entrant() -> None:
    known = season(bout("A", "B", weight="141"), bout("B", "A"), entrants="ABC")
    matrices = SeasonMatrices.of(known, HERE)
    assert matrices.wrestlers == ("A", "B", "C")
    assert matrices.pair("A", "B") == Meeting(0, 1, 0, Against(0, 0, 0), Against(0, 0, 0))
    assert SeasonMatrices.of(known, HERE) is matrices


def test_who_is_not_in_the_season_is_not_read() -> None:
    with pytest.raises(KeyError):
        of("AB").pair("A", "Z")


@pytest.mark.parametrize(
    ("bouts", "chain"),
    [
        ("AB", "AB"),
        ("AB BC AC", "AC"),
        ("AX XY YB AZ ZB", "AZB"),
        ("AX XB AC CB", "ACB"),
        ("BA", ""),
        ("AX XA BX", ""),
    ],
)
def test_shortest_chain_of_wins(bouts: str, chain: str) -> None:
    assert "".join(of(bouts).chain(chain[:1] or "A", chain[-1:] or "B")) == chain


def test_a_chain_to_oneself_has_one_member() -> None:
    assert of("AB").chain("A", "A") == ("A",)


@given(seasons(), st.sampled_from([EVERY, HERE]))
def test_head_to_head_is_that_of_the_criterion(known: Season, counted: Counted) -> None:
    matrices = SeasonMatrices.of(known, counted)
    criterion = HeadToHead("h", counted, HeadToHeadRule.MAJORITY)
    for a, b in combinations(matrices.wrestlers, 2):
        verdict = criterion.compare(a, b, known)
        found = matrices.pair(a, b)
        assert [found.won, found.lost] == [number.value for number in verdict.numbers]


@given(seasons(), st.sampled_from(list(Repeats)))
def test_common_opponents_are_those_of_the_criterion(known: Season, repeats: Repeats) -> None:
    matrices = SeasonMatrices.of(known, EVERY)
    records = CommonOpponents("c", EVERY, CommonRule.MORE_WINS, repeats, 1)
    chains = CommonOpponents("c", EVERY, CommonRule.BEAT_ONE_WHO_BEAT, repeats, 1)
    for a, b in combinations(matrices.wrestlers, 2):
        found = matrices.pair(a, b, repeats)
        verdict = records.compare(a, b, known)
        if not found.common:
            assert verdict.sentence.template.endswith("no common opponents.")
            continue
        texts = [number.text for number in verdict.numbers]
        assert texts == [f"{side.won}-{side.lost}" for side in (found.first, found.second)]
        links = [number.value for number in chains.compare(a, b, known).numbers]
        assert links == [found.first.beat_who_beat, found.second.beat_who_beat]


@given(seasons())
def test_the_number_of_common_opponents_is_what_the_criterion_asks_for(known: Season) -> None:
    matrices = SeasonMatrices.of(known, EVERY)
    for a, b in combinations(matrices.wrestlers, 2):
        common = matrices.pair(a, b).common
        for minimum in (common, common + 1):
            criterion = CommonOpponents("c", EVERY, CommonRule.MORE_WINS, ALL, minimum)
            none = criterion.compare(a, b, known).numbers[0].text == "none"
            assert none is (common < max(minimum, 1))


@given(seasons())
def test_chains_are_as_short_as_in_the_graph(known: Season) -> None:
    matrices = SeasonMatrices.of(known, EVERY)
    graph = nx.DiGraph(known.graph(EVERY))
    for a, b in permutations(matrices.wrestlers, 2):
        chain = matrices.chain(a, b)
        if not nx.has_path(graph, a, b):
            assert not chain
            continue
        assert len(chain) - 1 == nx.shortest_path_length(graph, a, b)
        assert nx.is_simple_path(graph, chain)


@given(seasons(), st.randoms(use_true_random=False))
def test_the_order_of_bouts_is_nothing(known: Season, chance: Random) -> None:
    shuffled = list(known.bouts)
    chance.shuffle(shuffled)
    one = SeasonMatrices(BoutArrays.of(known.bouts))
    other = SeasonMatrices(BoutArrays.of(shuffled))
    assert one.wrestlers == other.wrestlers
    assert np.array_equal(one.wins.toarray(), other.wins.toarray())
    assert np.array_equal(one.common.toarray(), other.common.toarray())
