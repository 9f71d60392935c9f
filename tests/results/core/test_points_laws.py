"""Laws of team points over any field and any legal results."""

import random
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from brackets.core.graph import BoutKey, Section
from brackets.core.progress import Status
from results.core.outcomes import Kind, Outcome, check
from results.core.points import Item, Part, Scorer, table, total
from tests.results.core.wrestled import Rules, Weight, rules

TEAMS = 7
BOOKS = {name: rules(name) for name in ("college-2025", "college-2013", "high-school-2025")}
SWITCHED = [
    *BOOKS.values(),
    rules(points__byes="none"),
    rules(points__byes="fall-bonus", points__advancement_in_placing_bouts=True),
    rules(points__non_scorers="pass"),
    rules(points__scorer="best", points__non_scorers="pass"),
    rules(bracket__double_loss="drop", bracket__open_place="shared"),
    rules(bracket__open_place="moved-up", points__byes_in_a_row="last"),
]


def some_outcome(chance: random.Random, *, doubles: bool = True) -> Outcome:
    """A legal outcome under every book."""
    nobody = doubles and chance.random() < 0.05
    kind = chance.choice([kind for kind in Kind if (MADE[kind].winner is None) is nobody])
    made = MADE[kind]
    winner = None if made.winner is None else chance.choice([0, 1])
    near_fall = chance.random() < 0.7
    return Outcome(kind, 1 if winner else winner, made.score, made.time, near_fall=near_fall)


MADE = {
    Kind.DECISION: Outcome(Kind.DECISION, 0, (5, 2)),
    Kind.MAJOR: Outcome(Kind.MAJOR, 0, (11, 1)),
    Kind.TECHNICAL_FALL: Outcome(Kind.TECHNICAL_FALL, 0, (19, 4), 265),
    Kind.FALL: Outcome(Kind.FALL, 0, time=148),
    Kind.INJURY: Outcome(Kind.INJURY, 0, time=197),
    Kind.FORFEIT: Outcome(Kind.FORFEIT, 0),
    Kind.MEDICAL: Outcome(Kind.MEDICAL, 0),
    Kind.DISQUALIFICATION: Outcome(Kind.DISQUALIFICATION, 0),
    Kind.DOUBLE_FORFEIT: Outcome(Kind.DOUBLE_FORFEIT, None),
    Kind.DOUBLE_DISQUALIFICATION: Outcome(Kind.DOUBLE_DISQUALIFICATION, None),
    Kind.NO_CONTEST: Outcome(Kind.NO_CONTEST, None),
}


def test_the_made_outcomes_are_legal() -> None:
    for used in BOOKS.values():
        for outcome in MADE.values():
            check(outcome, used.results, complete=True)


def weight_of(entrants: int, used: Rules, chance: random.Random) -> Weight:
    scorers = {
        str(seed): Scorer(f"team {seed % TEAMS}", chance.random() < 0.9)
        for seed in range(1, entrants + 1)
    }
    return Weight(entrants, used, scorers=scorers)


def wrestle_one_by_one(
    weight: Weight, chance: random.Random, *, doubles: bool = True
) -> Iterator[BoutKey]:
    """Enter results in any order that the bracket allows."""
    while ready := weight.ready():
        key = chance.choice(ready)
        weight.outcomes[key] = some_outcome(chance, doubles=doubles)
        yield key


FIELDS = st.integers(2, 34)
CHANCES = st.integers(0, 2**32).map(random.Random)


@settings(max_examples=40)
@given(FIELDS, st.sampled_from(SWITCHED), CHANCES)
def test_points_and_places_do_not_depend_on_the_order_of_entry(
    entrants: int, used: Rules, chance: random.Random
) -> None:
    first = weight_of(entrants, used, chance)
    for _ in wrestle_one_by_one(first, chance):
        pass
    second = Weight(entrants, used, scorers=first.scorers)
    while ready := second.ready():
        for key in chance.sample(ready, chance.randint(1, len(ready))):
            second.outcomes[key] = first.outcomes[key]
    assert second.ledger() == first.ledger()
    assert second.standing().places == first.standing().places


@settings(max_examples=15)
@given(st.integers(2, 20), st.sampled_from(SWITCHED[:3]), CHANCES)
def test_what_each_result_adds_comes_to_what_is_worked_out_afresh(
    entrants: int, used: Rules, chance: random.Random
) -> None:
    weight = weight_of(entrants, used, chance)
    teams = [f"team {number}" for number in range(TEAMS)]
    before = weight.ledger()
    running = dict.fromkeys(teams, Decimal(0))
    for part in before:
        running[weight.scorers[part.entry].team] += part.points
    for _ in wrestle_one_by_one(weight, chance):
        after = weight.ledger()
        gone, come = Counter(before) - Counter(after), Counter(after) - Counter(before)
        for part, times in come.items():
            running[weight.scorers[part.entry].team] += part.points * times
        for part, times in gone.items():
            running[weight.scorers[part.entry].team] -= part.points * times
        lines = table(after, weight.scorers, {}, teams)
        assert {line.team: line.total for line in lines} == running
        before = after


@settings(max_examples=40)
@given(FIELDS, st.sampled_from(SWITCHED), CHANCES)
def test_totals_are_the_sums_of_their_parts(
    entrants: int, used: Rules, chance: random.Random
) -> None:
    weight = weight_of(entrants, used, chance)
    for _ in wrestle_one_by_one(weight, chance):
        pass
    parts = weight.ledger()
    assert all(type(part.points) is Decimal for part in parts)
    adjustments = {"team 1": Decimal(-1), "team 2": Decimal("0.5")}
    teams = [f"team {number}" for number in range(TEAMS)]
    lines = table(parts, weight.scorers, adjustments, teams)
    for line in lines:
        assert line.total == line.placement + line.advancement + line.bonus + line.adjustments
        better = sum(other.total > line.total for other in lines)
        assert line.place == better + 1
    assert sum(line.total for line in lines) == total(parts) + sum(adjustments.values())
    assert [line.total for line in lines] == sorted((line.total for line in lines), reverse=True)


@settings(max_examples=15)
@given(st.integers(2, 33), st.sampled_from(list(BOOKS.values())), CHANCES)
def test_running_placement_points_never_fall(
    entrants: int, used: Rules, chance: random.Random
) -> None:
    weight = Weight(entrants, used)
    before: Counter[str] = Counter()
    for at, _ in enumerate(wrestle_one_by_one(weight, chance)):
        if at % 3 and weight.ready():
            continue
        after: Counter[str] = Counter()
        for part in weight.ledger():
            if part.item is Item.PLACEMENT:
                after[part.entry] += part.points  # type: ignore[assignment]
        # Who shares a place shares its points with those below, which no place so far told of.
        groups = weight.standing().places.values()
        shared = {one for group in groups if len(group) > 1 for one in group}
        assert all(after[entry] >= before[entry] for entry in before if entry not in shared)
        before = after


@settings(max_examples=40)
@given(st.integers(6, 34), st.sampled_from(list(BOOKS.values())), CHANCES)
def test_a_ledger_agrees_with_the_plain_definition(
    entrants: int, used: Rules, chance: random.Random
) -> None:
    weight = Weight(entrants, used)
    for _ in wrestle_one_by_one(weight, chance, doubles=False):
        pass
    for seed in weight.seeds:
        assert weight.points(str(seed)) == plain_points(weight, str(seed))


def plain_points(weight: Weight, entry: str) -> Decimal:
    """Wins, bonus, byes before a win, and the points of the final place: the rule's own words."""
    points = weight.rules.points
    place = weight.place(entry)
    found = points.points_for(8)[place - 1] if place else Decimal(0)
    way = weight.standing().walked()[entry]
    for at, state in enumerate(way):
        here = weight.bracket.round_of(state.key)
        champion = here.section is Section.CHAMPIONSHIP
        side = points.championship_win if champion else points.consolation_win
        if state.status is Status.BYE:
            won_next = at + 1 < len(way) and way[at + 1].winner == entry
            found += side if won_next and way[at + 1].status is Status.DECIDED else 0
        elif state.winner == entry:
            found += 0 if here.places else side
            outcome = weight.outcomes[state.key]
            if outcome.kind is Kind.TECHNICAL_FALL and not outcome.near_fall:
                found += points.technical_fall_without_near_fall
            else:
                found += points.bonus.of(outcome.kind)
    return found


def test_many_weights_add_up_as_one() -> None:
    chance = random.Random(7)
    parts: list[Part] = []
    scorers: dict[str, Scorer] = {}
    teams = [f"team {number}" for number in range(TEAMS)]
    sums = dict.fromkeys(teams, Decimal(0))
    for number, entrants in enumerate((5, 9, 16, 33)):
        weight = weight_of(entrants, BOOKS["college-2025"], chance)
        for _ in wrestle_one_by_one(weight, chance):
            pass
        for line in table(weight.ledger(), weight.scorers, {}, teams):
            sums[line.team] += line.total
        named = {entry: f"{number}/{entry}" for entry in weight.scorers}
        scorers |= {named[entry]: scorer for entry, scorer in weight.scorers.items()}
        parts += [
            Part(named[p.entry], p.item, p.points, p.bout, p.place, p.reason)
            for p in weight.ledger()
        ]
    assert {line.team: line.total for line in table(parts, scorers, {}, teams)} == sums
