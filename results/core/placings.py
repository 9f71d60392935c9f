"""How a round robin is ranked: by wins, then by the rule book's list for those with equal wins.

Four published lists are in use, each a setting `results.pool_order`:

* head-to-head-of-two, activity-points, falls, technical-falls, fall-time, technical-fall-time,
  bout-points, weight
* head-to-head-of-two, falls, times-pinned, bout-points
* head-to-head, team-points, falls, technical-falls, majors, quickest-fall (then a coin)
* head-to-head-of-two, classification-points, falls, technical-falls, bout-points, points-given
  (international; the order from memory, unconfirmed)

After each separation the list starts anew for those still tied, so that the last two of three are
separated by their own bout. Who is tied to the end shares the place.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from brackets.core.graph import BoutKey
from brackets.core.standing import BoutState, Standing, Status
from results.core.outcomes import BY_POINTS, Kind, Outcome
from results.core.rules import KindPoints, PoolCriterion, ResultRules

Groups = tuple[tuple[str, ...], ...]
Value = Decimal | None
Bonus = Callable[[Outcome | None], Decimal]
NEVER = Decimal(-1_000_000)
LOSER_SCORED = Decimal(1)
"""Classification points of who lost by points and scored. Source: association page, 4:1 and 3:1."""


@dataclass(frozen=True, slots=True)
class Bout:
    """A decided bout of a pool from one side.

    `score`: his own points first. Of a bout that nobody won there is none. `time`: seconds. Both
    None where not recorded. `bonus`: the team points of such a win.
    """

    opponent: str
    won: bool
    kind: Kind
    score: tuple[int, int] | None
    time: int | None
    bonus: Decimal


@dataclass(frozen=True, slots=True)
class Pool:
    """What the criteria look at: everyone's bouts, and what kinds of wins are worth."""

    bouts: Mapping[str, Sequence[Bout]]
    activity: KindPoints
    weights: Mapping[str, Decimal]

    def wins(self, entry: str) -> list[Bout]:
        return [bout for bout in self.bouts[entry] if bout.won]

    def of_kind(self, entry: str, kind: Kind) -> list[Bout]:
        return [bout for bout in self.wins(entry) if bout.kind is kind]

    def scores(self, entry: str) -> list[tuple[int, int]]:
        return [bout.score for bout in self.bouts[entry] if bout.score]


def rank_pool(
    standing: Standing,
    outcomes: Mapping[BoutKey, Outcome],
    rules: ResultRules,
    *,
    bonus: Bonus,
    weights: Mapping[str, Decimal] | None = None,
) -> Groups:
    """The entries of a round robin from first to last, tied ones together in the order of bouts.

    `bonus`: what the criterion team-points counts; of None for a win over somebody who is out
    already. `weights`: of the weigh-in; without all of them the criterion weight separates nobody.
    A pool that is not finished is ranked as it stands.
    """
    activity = rules.activity_points
    bouts = _bouts(standing, outcomes, bonus)
    pool = Pool(bouts, activity, weights or {})
    by_wins = _split({one: Decimal(len(pool.wins(one))) for one in bouts})
    return tuple(part for group in by_wins for part in _separate(group, rules.pool_order, pool))


def _bouts(
    standing: Standing, outcomes: Mapping[BoutKey, Outcome], bonus: Bonus
) -> dict[str, list[Bout]]:
    found: dict[str, list[Bout]] = {}
    for state in standing.bouts.values():
        sides = [side for side in state.sides if isinstance(side, str)]
        for side in sides:
            found.setdefault(side, [])
        if state.status is not Status.DECIDED:
            continue
        outcome = _outcome(state, outcomes)
        for side, other in zip(sides, reversed(sides), strict=True):
            won = state.winner == side
            seen = _seen(outcome, other, bonus(outcome), won=won, lost=state.loser == side)
            found[side].append(seen)
    return found


def _outcome(state: BoutState, outcomes: Mapping[BoutKey, Outcome]) -> Outcome | None:
    """How a bout ended; None for a win over somebody who is out already.

    By a ruling it ended in no way that any criterion but wins could count.
    """
    if state.ruled:
        return Outcome(Kind.NO_CONTEST, None)
    return None if state.implied else outcomes[state.key]


def _seen(outcome: Outcome | None, opponent: str, bonus: Decimal, *, won: bool, lost: bool) -> Bout:
    if outcome is None:
        return Bout(opponent, won, Kind.MEDICAL, None, None, bonus)
    score = outcome.score if won or lost else None
    if score and lost:
        score = score[1], score[0]
    return Bout(opponent, won, outcome.kind, score, outcome.time, bonus)


def _separate(group: tuple[str, ...], order: Sequence[PoolCriterion], pool: Pool) -> Groups:
    for criterion in order:
        parts = _split({one: VALUES[criterion](pool, one, group) for one in group})
        if len(parts) > 1:
            return tuple(found for part in parts for found in _separate(part, order, pool))
    return (group,)


def _split(values: Mapping[str, Value]) -> Groups:
    """From the highest value to the lowest, equal ones together; one group where one is unknown."""
    known = [value for value in values.values() if value is not None]
    if len(known) < len(values):
        return (tuple(values),)
    return tuple(
        tuple(one for one, value in values.items() if value == level)
        for level in sorted(set(known), reverse=True)
    )


def _head_to_head(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    return Decimal(sum(bout.opponent in group for bout in pool.wins(entry)))


def _head_to_head_of_two(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    return _head_to_head(pool, entry, group) if len(group) == 2 else None


def _activity(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    return sum((pool.activity.of(bout.kind) for bout in pool.wins(entry)), Decimal(0))


def _classification(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    lost = [bout for bout in pool.bouts[entry] if not bout.won and bout.kind in BY_POINTS]
    scores = [bout.score for bout in lost if bout.score]
    if len(scores) < len(lost):
        return None
    scored = sum(own > 0 for own, _ in scores)
    return sum((pool.activity.of(bout.kind) for bout in pool.wins(entry)), scored * LOSER_SCORED)


def _team_points(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    return sum((bout.bonus for bout in pool.wins(entry)), Decimal(0))


def _falls(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    return Decimal(len(pool.of_kind(entry, Kind.FALL)))


def _times_pinned(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    lost = [bout for bout in pool.bouts[entry] if not bout.won and bout.kind is Kind.FALL]
    return -Decimal(len(lost))


def _technical_falls(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    return Decimal(len(pool.of_kind(entry, Kind.TECHNICAL_FALL)))


def _majors(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    return Decimal(len(pool.of_kind(entry, Kind.MAJOR)))


def _fall_time(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    times = _times(pool.of_kind(entry, Kind.FALL))
    return None if times is None else -Decimal(sum(times))


def _quickest_fall(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    times = _times(pool.of_kind(entry, Kind.FALL))
    return None if times is None else -Decimal(min(times)) if times else NEVER


def _technical_fall_time(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    times = _times(pool.of_kind(entry, Kind.TECHNICAL_FALL))
    return None if times is None else -Decimal(sum(times))


def _bout_points(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    return Decimal(sum(own for own, _ in pool.scores(entry)))


def _points_given(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    return -Decimal(sum(given for _, given in pool.scores(entry)))


def _weight(pool: Pool, entry: str, group: Sequence[str]) -> Value:
    return -pool.weights[entry] if entry in pool.weights else None


def _times(bouts: Iterable[Bout]) -> list[int] | None:
    times = [bout.time for bout in bouts]
    known = [time for time in times if time is not None]
    return known if len(known) == len(times) else None


VALUES: Mapping[PoolCriterion, Callable[[Pool, str, Sequence[str]], Value]] = {
    PoolCriterion.HEAD_TO_HEAD: _head_to_head,
    PoolCriterion.HEAD_TO_HEAD_OF_TWO: _head_to_head_of_two,
    PoolCriterion.ACTIVITY_POINTS: _activity,
    PoolCriterion.CLASSIFICATION_POINTS: _classification,
    PoolCriterion.TEAM_POINTS: _team_points,
    PoolCriterion.FALLS: _falls,
    PoolCriterion.TIMES_PINNED: _times_pinned,
    PoolCriterion.TECHNICAL_FALLS: _technical_falls,
    PoolCriterion.MAJORS: _majors,
    PoolCriterion.FALL_TIME: _fall_time,
    PoolCriterion.QUICKEST_FALL: _quickest_fall,
    PoolCriterion.TECHNICAL_FALL_TIME: _technical_fall_time,
    PoolCriterion.BOUT_POINTS: _bout_points,
    PoolCriterion.POINTS_GIVEN: _points_given,
    PoolCriterion.WEIGHT: _weight,
}
"""What each criterion compares within a tied group: the higher value is better."""
