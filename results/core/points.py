"""Team points: a ledger of explained parts for one weight, and the table of all teams.

Sources: NCAA Wrestling Rules Book, Rule 4 (placement; published); advancement, bonus, byes and
running points: association pages, agreeing with published results. Every number is the rule
book's. A ledger is worked out afresh from the facts, so it does not depend on the order in which
independent bouts were entered. A win by a ruling counts as a win without its bonus (no source
found; ours): what else it is worth can be given by an adjustment.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from brackets.core.graph import BoutKey, Bracket, Round, Section
from brackets.core.standing import BoutState, Standing, Status
from results.core.outcomes import Kind, Outcome
from results.core.placement import Placement, Step
from results.core.rules import Byes, ByesInARow, Deductions, ScorerOf, TeamPointRules

ZERO = Decimal(0)
Outcomes = Mapping[BoutKey, Outcome]


class Item(StrEnum):
    """What a part is for."""

    PLACEMENT = "placement"
    ADVANCEMENT = "advancement"
    BONUS = "bonus"
    BYE = "bye"
    MISCONDUCT = "misconduct"


@dataclass(frozen=True, slots=True)
class Part:
    """One explained part of a team's points.

    `bout`: the bout or bye that gave it, None where none did. `place`: of a placement, the place
    that is certain with it. `reason`: "win", "bye", a kind of result, "running" (a place certain
    so far), "place" (a final one), "flagrant misconduct".
    """

    entry: str
    item: Item
    points: Decimal
    bout: BoutKey | None
    place: int | None
    reason: str


@dataclass(frozen=True, slots=True)
class Scorer:
    """For which team an entry wrestles, and whether he can score for it."""

    team: str
    scoring: bool


def ledger(
    bracket: Bracket,
    standing: Standing,
    outcomes: Outcomes,
    scorers: Mapping[str, Scorer],
    rules: TeamPointRules,
    *,
    places: int,
    deductions: Deductions,
    removed: frozenset[str] = frozenset(),
) -> tuple[Part, ...]:
    """Every part of team points of a weight as it stands, by entry from the top line down.

    `places`: how many places the weight scores, which chooses the table of placement points.
    `removed`: thrown out for flagrant misconduct; they lose what they earned and cost the
    deduction, also who does not score. Who does not score has no other part.
    Refuses a number of places that the rule book has no points for.
    """
    ways = standing.walked()
    won = {
        entry: tuple(_won(bracket, entry, ways.get(entry, ()), outcomes, rules))
        for entry in bracket.entries()
    }
    counted = _counted(bracket, standing, won, scorers, rules, removed)
    teams = {entry: scorers[entry].team for entry in counted}
    placing = Placement(bracket, standing, rules, rules.points_for(places), teams)
    parts: list[Part] = []
    for entry in bracket.entries():
        if entry in removed:
            off = -deductions.flagrant_misconduct
            parts.append(Part(entry, Item.MISCONDUCT, off, None, None, "flagrant misconduct"))
        elif entry in counted:
            parts += _placed(entry, placing.steps(entry, ways.get(entry, ())))
            parts += won[entry]
    return tuple(part for part in parts if part.points)


def _counted(
    bracket: Bracket,
    standing: Standing,
    won: Mapping[str, Sequence[Part]],
    scorers: Mapping[str, Scorer],
    rules: TeamPointRules,
    removed: frozenset[str],
) -> frozenset[str]:
    """Whose points count: everyone who may score, or of each team the best finisher so far."""
    able = [one for one in bracket.entries() if scorers[one].scoring and one not in removed]
    if rules.scorer is ScorerOf.NAMED:
        return frozenset(able)
    last = len(able) + bracket.places
    able.sort(key=lambda one: (standing.guaranteed.get(one, last), -total(won[one])))
    best: dict[str, str] = {}
    for one in able:
        best.setdefault(scorers[one].team, one)
    return frozenset(best.values())


def total(parts: Iterable[Part]) -> Decimal:
    """The sum of some parts."""
    return sum((part.points for part in parts), ZERO)


def _placed(entry: str, steps: Iterable[Step]) -> Iterator[Part]:
    for step in steps:
        reason = "place" if step.final else "running"
        yield Part(entry, Item.PLACEMENT, step.points, step.bout, step.place, reason)


def _won(
    bracket: Bracket,
    entry: str,
    way: Sequence[BoutState],
    outcomes: Outcomes,
    rules: TeamPointRules,
) -> Iterator[Part]:
    """Advancement, bonus and byes along an entry's way."""
    waiting: list[BoutState] = []
    for state in way:
        if state.status is Status.BYE:
            waiting.append(state)
        elif state.winner == entry:
            yield from _byes(bracket, entry, waiting, rules)
            waiting = []
            gained = advancement(bracket.round_of(state.key), rules)
            yield Part(entry, Item.ADVANCEMENT, gained, state.key, None, "win")
            if not state.ruled:
                outcome = None if state.implied else outcomes[state.key]
                kind = outcome.kind if outcome else Kind.MEDICAL
                yield Part(entry, Item.BONUS, bonus(outcome, rules), state.key, None, str(kind))
        elif state.status is Status.DECIDED:
            waiting = []


def advancement(here: Round, rules: TeamPointRules) -> Decimal:
    """What a win in a round is worth, apart from how it was won."""
    if here.section is Section.POOL:
        return rules.pool_win
    if here.section is Section.CHAMPIONSHIP:
        return rules.championship_win if here.places is None else ZERO
    counts = here.places is None or rules.advancement_in_placing_bouts
    return rules.consolation_win if counts else ZERO


def bonus(outcome: Outcome | None, rules: TeamPointRules) -> Decimal:
    """What the kind of a win is worth; None is a win over somebody who is out already."""
    if outcome is None:
        return rules.bonus.medical_forfeit
    if outcome.kind is Kind.TECHNICAL_FALL and not outcome.near_fall:
        return rules.technical_fall_without_near_fall
    return rules.bonus.of(outcome.kind)


def _byes(
    bracket: Bracket, entry: str, byes: Sequence[BoutState], rules: TeamPointRules
) -> Iterator[Part]:
    """The parts of byes in a row, after a win directly behind them."""
    if len(byes) > 1 and rules.byes_in_a_row is not ByesInARow.ALL:
        byes = byes[-1:] if rules.byes_in_a_row is ByesInARow.LAST else ()
    for state in byes:
        here = bracket.round_of(state.key)
        gained = advancement(here, rules)
        if gained and _bye_scores(state, here, rules):
            yield Part(entry, Item.BYE, gained, state.key, None, "bye")
            if rules.byes is Byes.FALL_BONUS:
                yield Part(entry, Item.BONUS, rules.bonus.fall, state.key, None, "bye")


def _bye_scores(state: BoutState, here: Round, rules: TeamPointRules) -> bool:
    if rules.byes is Byes.NONE or not (state.drawn or rules.byes_from_double_loss):
        return False
    return rules.byes is not Byes.CHAMPIONSHIP_ONLY or here.section is Section.CHAMPIONSHIP


@dataclass(frozen=True, slots=True)
class TeamLine:
    """A team in the table: its points by part, their sum, and its place.

    `adjustments` are what was given or taken by hand and what misconduct cost. Teams with the
    same total share the better place and the next is skipped.
    """

    team: str
    placement: Decimal
    advancement: Decimal
    bonus: Decimal
    adjustments: Decimal
    total: Decimal
    place: int


COLUMNS = {
    Item.PLACEMENT: 0,
    Item.ADVANCEMENT: 1,
    Item.BYE: 1,
    Item.BONUS: 2,
    Item.MISCONDUCT: 3,
}


def table(
    parts: Iterable[Part],
    scorers: Mapping[str, Scorer],
    adjustments: Mapping[str, Decimal],
    teams: Sequence[str],
) -> tuple[TeamLine, ...]:
    """The teams from most points to fewest; of equal ones the order of `teams` holds.

    Byes stand in the column of advancement. Every team of a part must be among `teams`.
    """
    columns = {team: [ZERO, ZERO, ZERO, adjustments.get(team, ZERO)] for team in teams}
    for part in parts:
        columns[scorers[part.entry].team][COLUMNS[part.item]] += part.points
    totals = {team: sum(found, ZERO) for team, found in columns.items()}
    lines = []
    for team, place in ranked(totals).items():
        placement, advanced, extra, adjusted = columns[team]
        lines.append(TeamLine(team, placement, advanced, extra, adjusted, totals[team], place))
    return tuple(lines)


def ranked(totals: Mapping[str, Decimal]) -> dict[str, int]:
    """Places from most points to fewest, in that order; equal ones share, the next is skipped.

    >>> ranked({"A": Decimal("186.5"), "B": Decimal(177), "C": Decimal("186.5")})
    {'A': 1, 'C': 1, 'B': 3}
    """
    places: dict[str, int] = {}
    order = sorted(totals, key=lambda team: -totals[team])
    for at, team in enumerate(order, start=1):
        level = at > 1 and totals[order[at - 2]] == totals[team]
        places[team] = places[order[at - 2]] if level else at
    return places
