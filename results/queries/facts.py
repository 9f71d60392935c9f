"""The facts of one weight as core values: what results and withdrawals say."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from brackets.core.graph import BoutKey
from brackets.core.standing import Verdict
from brackets.models import Bout, Drawn
from results.core.outcomes import Outcome, thrown_out, verdict
from results.core.points import Scorer
from results.core.rules import Deductions, ResultRules, TeamPointRules
from results.models import Result, Withdrawal
from seeding.entries.core.rulebook import upgrade
from seeding.entries.models import Division, Entry
from seeding.journal.core.chain import canonical


@dataclass(frozen=True, slots=True)
class Rules:
    """The sections of a rule book that results read."""

    results: ResultRules
    team_points: TeamPointRules
    deductions: Deductions


@dataclass(frozen=True, slots=True)
class Facts:
    """All that has happened in one weight. Entries by their keys.

    `out`: who wrestles no more, with the last bout or bye that he had behind him when he left.
    """

    outcomes: Mapping[BoutKey, Outcome]
    out: Mapping[str, BoutKey | None]
    vacating: frozenset[str]
    removed: frozenset[str]

    @property
    def verdicts(self) -> dict[BoutKey, Verdict]:
        """What the bracket needs to know of the outcomes."""
        return {key: verdict(outcome) for key, outcome in self.outcomes.items()}


def rules_of(division: Division) -> Rules:
    """The rules of a division for its results and points."""
    return _rules(canonical(upgrade(division.snapshot)))


@lru_cache(maxsize=64)
def _rules(snapshot: str) -> Rules:
    book = json.loads(snapshot)
    return Rules(
        ResultRules.from_section(book["results"]),
        TeamPointRules.from_section(book["team_points"]),
        Deductions.from_section(book["deductions"]),
    )


def results_of(drawn: Drawn) -> list[Result]:
    """The results of a weight with their bouts."""
    return list(Result.objects.filter(bout__drawn=drawn).select_related("bout"))


def facts(drawn: Drawn) -> Facts:
    """The facts of a weight as they stand in the tables."""
    found = results_of(drawn)
    rows = Withdrawal.objects.filter(entry__weight_class_id=drawn.weight_class_id)
    left = list(rows.values_list("entry__key", "kind", "behind"))
    sent_off = {key: row.bout.key for row in found for key in thrown(row.bout, row.outcome)}
    out = {key: BoutKey.parse(behind) if behind else None for key, _, behind in left} | sent_off
    removed = {key for key, kind, _ in left if kind == Withdrawal.Kind.MISCONDUCT} | set(sent_off)
    keeps = rules_of(drawn.weight_class.division).results.withdrawal_keeps_place
    return Facts(
        outcomes={row.bout.key: row.outcome for row in found},
        out=out,
        vacating=frozenset(removed if keeps else out),
        removed=frozenset(removed),
    )


def thrown(bout: Bout, outcome: Outcome) -> frozenset[str]:
    """Who is out of the tournament for flagrant misconduct in this bout."""
    return frozenset(
        row.key for side in thrown_out(outcome) if (row := bout.bottom if side else bout.top)
    )


def scorers(drawn: Drawn) -> dict[str, Scorer]:
    """Who wrestles for whom, and whether it counts."""
    rows = Entry.objects.filter(weight_class_id=drawn.weight_class_id)
    return {
        key: Scorer(team=str(team), scoring=scoring)
        for key, team, scoring in rows.values_list("key", "team_id", "scoring")
    }
