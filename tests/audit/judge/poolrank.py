"""The ranking of a pool: wins, then the rule book's list for those with equal wins."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal

from tests.audit.judge.facts import Doc, Facts, Result
from tests.audit.judge.model import Key, Line
from tests.audit.judge.standing import Standing

SETTLED = ("decided", "spared", "bye", "vacant")
FORFEIT = "medical forfeit"  # what a win over somebody who is out is taken for


@dataclass
class Record:
    """What an entry did in his pool; times are None where one was not recorded."""

    wins: dict[str, int] = field(default_factory=dict)  # over whom, how often
    kinds: list[str] = field(default_factory=list)
    fall_times: list[int | None] = field(default_factory=list)
    technical_times: list[int | None] = field(default_factory=list)
    points: int = 0
    given: int = 0
    close_losses: list[int | None] = field(default_factory=list)  # points scored in them
    pinned: int = 0
    activity: Decimal = Decimal(0)
    bonus: Decimal = Decimal(0)

    def won(self) -> int:
        """How many bouts he won."""
        return sum(self.wins.values())


def rank_pools(at: Standing, facts: Facts) -> list[list[list[str]]]:
    """Every pool from first to last, tied entries together; empty while it is not finished."""
    holders = facts.holders()
    ranked: list[list[list[str]]] = []
    for pool in at.plan.pools:
        starts = [(line.index, line.half) for line in pool]
        lines = [holders[start] for start in starts if start in holders]
        keys = pool_keys(at, pool)
        if any(at.states[key].status not in SETTLED for key in keys if key in at.states):
            ranked.append([])
        else:
            ranked.append(rank(lines, records(at, facts, lines, keys), facts))
    return ranked


def pool_keys(at: Standing, pool: list[Line]) -> list[Key]:
    """The bouts of a pool."""
    return [
        key
        for key, node in at.plan.nodes.items()
        if node.side == "pool" and node.sources[0] in pool
    ]


def records(at: Standing, facts: Facts, entries: list[str], keys: list[Key]) -> dict[str, Record]:
    """What everyone of a pool did."""
    found = {entry: Record() for entry in entries}
    for key in keys:
        state = at.states.get(key)
        if state is None or state.status != "decided":
            continue
        winner, loser = state.winner, state.loser
        if winner not in found or loser not in found:
            continue  # nobody won: the text gives such a bout no points
        result = None if state.implied else facts.results.get(key)
        one, other = found[winner], found[loser]
        one.wins[loser] = one.wins.get(loser, 0) + 1
        if not state.ruled:
            count(one, other, result, facts)
    return found


def count(one: Record, other: Record, result: Result | None, facts: Facts) -> None:
    """What a win is worth in the ranking, beside being a win."""
    kind = result.kind if result else FORFEIT
    one.kinds.append(kind)
    worth = facts.settings["results"]["activity_points"]
    one.activity += Decimal(str(worth[kind.replace(" ", "_")]))
    one.bonus += bonus_of(kind, result, facts.settings["team_points"])
    if kind == "fall":
        one.fall_times.append(result.time if result else None)
        other.pinned += 1
    if kind == "technical fall":
        one.technical_times.append(result.time if result else None)
    if result and result.score:
        one.points += result.score[0]
        other.points += result.score[1]
        one.given += result.score[1]
        other.given += result.score[0]
    if kind in ("decision", "major decision", "technical fall"):
        other.close_losses.append(result.score[1] if result and result.score else None)


def bonus_of(kind: str, result: Result | None, rules: Doc) -> Decimal:
    """The bonus of a win for the team."""
    if kind == "technical fall" and result and not result.near_fall:
        return Decimal(str(rules["technical_fall_without_near_fall"]))
    return Decimal(str(rules["bonus"][kind.replace(" ", "_")]))


Score = Callable[[str], Decimal | None]


def rank(lines: list[str], found: dict[str, Record], facts: Facts) -> list[list[str]]:
    """By wins, then by the list."""
    by_wins: dict[int, list[str]] = {}
    for entry in lines:
        by_wins.setdefault(found[entry].won(), []).append(entry)
    groups: list[list[str]] = []
    for wins in sorted(by_wins, reverse=True):
        groups += separate(by_wins[wins], found, facts.settings["results"]["pool_order"])
    return groups


def separate(tied: list[str], found: dict[str, Record], order: list[str]) -> list[list[str]]:
    """Those with equal wins; after each separation the list starts anew."""
    if len(tied) < 2:
        return [tied]
    for criterion in order:
        scores = [(entry, score(criterion, entry, tied, found)) for entry in tied]
        known = [(entry, value) for entry, value in scores if value is not None]
        if len(known) < len(scores) or len({value for _, value in known}) < 2:
            continue
        parts: dict[Decimal, list[str]] = {}
        for entry, value in known:
            parts.setdefault(value, []).append(entry)
        groups: list[list[str]] = []
        for value in sorted(parts, reverse=True):
            groups += separate(parts[value], found, order)
        return groups
    return [tied]


def score(criterion: str, entry: str, tied: list[str], found: dict[str, Record]) -> Decimal | None:
    """What an entry has by a criterion, more is better; None: it separates nobody."""
    one = found[entry]
    if criterion == "weight" or (criterion == "head-to-head-of-two" and len(tied) > 2):
        return None
    if criterion in ("head-to-head-of-two", "head-to-head"):
        return Decimal(sum(one.wins.get(other, 0) for other in tied))
    if criterion in ("activity-points", "team-points"):
        return one.activity if criterion == "activity-points" else one.bonus
    if criterion == "classification-points":
        return classification(one)
    counts = {"falls": "fall", "technical-falls": "technical fall", "majors": "major decision"}
    if criterion in counts:
        return Decimal(one.kinds.count(counts[criterion]))
    if criterion == "bout-points":
        return Decimal(one.points)
    if criterion in ("times-pinned", "points-given"):
        return Decimal(-(one.pinned if criterion == "times-pinned" else one.given))
    return fastest(criterion, one)


def classification(one: Record) -> Decimal | None:
    """His activity points, and one for each loss by points in which he scored."""
    if None in one.close_losses:
        return None
    return one.activity + sum(1 for scored in one.close_losses if scored)


def fastest(criterion: str, one: Record) -> Decimal | None:
    """The total time of falls or technical falls, or the quickest fall; less is better."""
    times = one.technical_times if criterion == "technical-fall-time" else one.fall_times
    recorded = [time for time in times if time is not None]
    if len(recorded) < len(times):
        return None
    if criterion == "quickest-fall":
        return Decimal(-min(recorded, default=10**6))
    return Decimal(-sum(recorded))
