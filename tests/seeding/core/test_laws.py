"""Laws of seeding over random seasons, for every shape and every rule book in the tree."""

import random
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from seeding.core.criteria import Criterion
from seeding.core.order import Proposal, propose
from seeding.core.pair_points import PairPoints
from seeding.core.rpi import Percentages
from seeding.core.rules import SeedingRules
from seeding.core.season import Season
from seeding.core.ties import Final, Seconds
from seeding.core.weighted_pairs import Undecided, WeightedPairs
from tests.seeding.core.seasons import LEDGER, OTHERS, WRESTLERS, rules, seasons

COLLEGE, HIGH_SCHOOL = rules("college-2025"), rules("high-school-2025")
LISTS = [
    COLLEGE,
    rules("college-2025", undecided="split", order_by=["sum-of-weights"], ties=[]),
    rules("college-2025", undecided="renormalised", order_by=["pairs-won"]),
    HIGH_SCHOOL,
    rules("high-school-2025", circles="next-criterion", ties=["head-to-head", "win percentage"]),
    rules("high-school-2025", circles="stand", undecided="nothing"),
]
every_list = pytest.mark.parametrize("lines", LISTS, ids=range(len(LISTS)))
few = pytest.mark.parametrize("lines", [COLLEGE, HIGH_SCHOOL], ids=["college", "high school"])
law = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def shuffled(season: Season, chance: random.Random) -> Season:
    """The same season, everything in it put in in another order."""
    bouts, placings = list(season.bouts), list(season.placings)
    chance.shuffle(bouts)
    chance.shuffle(placings)
    rankings = {
        name: dict(chance.sample(sorted(table.items()), len(table)))
        for name, table in season.rankings.items()
    }
    return replace(season, bouts=tuple(bouts), rankings=rankings, placings=tuple(placings))


def told(proposal: Proposal) -> list[str]:
    words = [reason.say() for reason in proposal.reasons]
    return words + [flag.sentence.say() for flag in proposal.flags]


@every_list
@law
@given(seasons(), st.permutations(WRESTLERS), st.randoms(use_true_random=False))
def test_no_order_of_input_matters(
    lines: SeedingRules, known: Season, field: list[str], chance: random.Random
) -> None:
    first = propose(WRESTLERS, known, lines, "7")
    again = propose(field, shuffled(known, chance), lines, "7")
    assert again.order == first.order
    assert again.totals == first.totals
    assert again.reasons == first.reasons
    assert again.flags == first.flags
    assert told(again) == told(first)


@few
@law
@given(seasons())
def test_an_order_is_of_all_and_falls_by_totals(lines: SeedingRules, known: Season) -> None:
    proposal = propose(WRESTLERS, known, lines, "7")
    assert sorted(proposal.order) == sorted(WRESTLERS)
    sums = [[total.value for total in proposal.totals[name]] for name in proposal.order]
    assert sums == sorted(sums, reverse=True)
    assert [(r.above, r.below) for r in proposal.reasons] == list(
        zip(proposal.order, proposal.order[1:], strict=False)
    )


@few
@law
@given(seasons())
def test_flags_are_the_bouts_that_the_order_contradicts(lines: SeedingRules, known: Season) -> None:
    proposal = propose(WRESTLERS, known, lines, "7")
    place = proposal.order.index
    against = [
        bout
        for bout in known.bouts
        if {bout.winner, bout.loser} <= set(WRESTLERS)
        and bout.kind in lines.meetings.kinds
        and place(bout.winner) > place(bout.loser)
    ]
    assert sorted(bout for flag in proposal.flags for bout in flag.bouts) == sorted(against)


def plain_own(known: Season, wrestler: str, without: str = "") -> Fraction | None:
    bouts = [b for b in known.bouts if without not in (b.winner, b.loser)]
    played = [b for b in bouts if wrestler in (b.winner, b.loser)]
    won = sum(b.winner == wrestler for b in played)
    return Fraction(won, len(played)) if played else None


def plain_mean(values: list[Fraction | None]) -> Fraction | None:
    known = [value for value in values if value is not None]
    return sum(known, Fraction(0)) / len(known) if known else None


@law
@given(seasons())
def test_rpi_is_what_its_definition_says(known: Season) -> None:
    """The three parts over again, bout by bout, as the worked example defines them."""
    asked = Percentages(LEDGER.records(known))

    def met(wrestler: str) -> list[str]:
        pairs = [(b.winner, b.loser) for b in known.bouts]
        return [a if b == wrestler else b for a, b in pairs if wrestler in (a, b)]

    opponents = {
        one: plain_mean([plain_own(known, other, one) for other in met(one)])
        for one in WRESTLERS + OTHERS
    }
    for one in WRESTLERS:
        assert asked.own(one) == plain_own(known, one)
        assert asked.opponents(one) == opponents[one]
        assert asked.theirs(one) == plain_mean([opponents[other] for other in met(one)])


def criteria() -> list[Criterion]:
    shape = COLLEGE.shape
    assert isinstance(shape, WeightedPairs)
    points = HIGH_SCHOOL.shape
    assert isinstance(points, PairPoints)
    return [*(line.criterion for line in shape.criteria), *points.criteria]


@law
@given(seasons(), st.sampled_from(criteria()))
def test_a_comparison_reads_the_same_from_both_sides(known: Season, criterion: Criterion) -> None:
    season = known.entered(WRESTLERS)
    for a, b in combinations(WRESTLERS, 2):
        one, other = criterion.compare(a, b, season), criterion.compare(b, a, season)
        assert one.better == other.better
        assert one.numbers == other.numbers[::-1]
        assert one.sentence == other.sentence
        assert sorted(one.bouts) == sorted(other.bouts)
        assert len(set(one.bouts)) == len(one.bouts)


@law
@given(seasons())
def test_every_pair_gives_away_one_point(known: Season) -> None:
    proposal = propose(WRESTLERS, known, HIGH_SCHOOL, "7")
    assert sum(totals[0].value for totals in proposal.totals.values()) == 7 * 6 // 2


@law
@given(seasons(), st.sampled_from(list(Undecided)))
def test_weights_are_given_away_by_the_verdicts(known: Season, undecided: Undecided) -> None:
    """A slow and plain account of the same sums."""
    shape = COLLEGE.shape
    assert isinstance(shape, WeightedPairs)
    season = known.entered(WRESTLERS)
    seconds = Seconds((), Final.LOT, season, "7")
    arrangement = replace(shape, undecided=undecided).arrange(WRESTLERS, season, seconds)
    for a, b in combinations(WRESTLERS, 2):
        won = {a: Fraction(0), b: Fraction(0)}
        for line in shape.criteria:
            better = line.criterion.compare(a, b, season).better
            if better is not None:
                won[better] += line.weight
            elif undecided is Undecided.SPLIT:
                won[a], won[b] = won[a] + line.weight / 2, won[b] + line.weight / 2
        if undecided is Undecided.RENORMALISED:
            given_away = sum(won.values())
            half = Fraction(1, 2)
            expected = [won[x] / given_away if given_away else half for x in (a, b)]
        else:
            expected = [won[x] / sum(line.weight for line in shape.criteria) for x in (a, b)]
        assert list(arrangement.pair(a, b).shares) == expected
