"""The facts of one weight as core values: what results and withdrawals say."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from brackets.core.graph import BoutKey
from brackets.core.rulings import Rulings
from brackets.core.standing import Verdict
from brackets.models import Bout, Drawn
from brackets.queries import bracket
from results.core.outcomes import Outcome, thrown_out, verdict
from results.core.points import Scorer
from results.core.rules import Deductions, ResultRules, TeamPointRules
from results.models import Result, Ruling, Withdrawal
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
class Left:
    """An entry that withdrew, and the last bout or bye that he had behind him then."""

    entry: str
    kind: str
    behind: BoutKey | None


@dataclass(frozen=True, slots=True)
class Facts:
    """All that has happened in one weight. Entries by their keys.

    `order`: of all its bouts, the running order. `sides`: who stood in the bouts that threw
    somebody out. `keeps`: whether who withdraws keeps the place that was certain. `rulings`: in the
    order made.
    """

    order: Mapping[BoutKey, int]
    outcomes: Mapping[BoutKey, Outcome]
    sides: Mapping[BoutKey, tuple[str, str]]
    left: tuple[Left, ...]
    keeps: bool
    rulings: Rulings = ()

    @property
    def verdicts(self) -> dict[BoutKey, Verdict]:
        """What the bracket needs to know of the outcomes."""
        return {key: verdict(outcome) for key, outcome in self.outcomes.items()}

    @property
    def sent_off(self) -> dict[str, BoutKey]:
        """Who was thrown out for flagrant misconduct, and in which bout first."""
        return {
            self.sides[key][side]: key
            for key in sorted(self.outcomes, key=self.order.__getitem__, reverse=True)
            for side in thrown_out(self.outcomes[key])
        }

    @property
    def out(self) -> dict[str, BoutKey | None]:
        """Who wrestles no more, with the last bout or bye that he had behind him when he left.

        Who left and was thrown out too is out from the earlier of the two on.
        """
        found = {one.entry: one.behind for one in self.left}
        for entry, key in self.sent_off.items():
            last = found.get(entry, key)
            found[entry] = last and min(last, key, key=self.order.__getitem__)
        return found

    @property
    def removed(self) -> frozenset[str]:
        """Who loses all that he earned."""
        thrown = {one.entry for one in self.left if one.kind == Withdrawal.Kind.MISCONDUCT}
        return frozenset(thrown | set(self.sent_off))

    @property
    def vacating(self) -> frozenset[str]:
        """Who may not place."""
        absent = {one.entry for one in self.left if one.kind == Withdrawal.Kind.ABSENT}
        return self.removed | absent if self.keeps else frozenset(self.out)


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


def facts(drawn: Drawn) -> Facts:
    """The facts of a weight as they stand in the tables."""
    rows = Result.objects.filter(bout__drawn=drawn).select_related("bout")
    found = list(rows.order_by("bout__column", "bout__position"))
    gone = Withdrawal.objects.filter(entry__weight_class_id=drawn.weight_class_id)
    left = gone.order_by("entry__key").values_list("entry__key", "kind", "behind")
    return Facts(
        order=bracket(drawn).wiring.index,
        outcomes={row.bout.key: row.outcome for row in found},
        sides={row.bout.key: sides_of(row.bout) for row in found if row.misconduct},
        left=tuple(
            Left(entry, kind, BoutKey.parse(behind) if behind else None)
            for entry, kind, behind in left
        ),
        keeps=rules_of(drawn.weight_class.division).results.withdrawal_keeps_place,
        rulings=tuple(row.value for row in Ruling.objects.filter(drawn=drawn)),
    )


def sides_of(bout: Bout) -> tuple[str, str]:
    """Who stands in a bout, by key; empty where nobody does."""
    return bout.top.key if bout.top else "", bout.bottom.key if bout.bottom else ""


def scorers(drawn: Drawn) -> dict[str, Scorer]:
    """Who wrestles for whom, and whether it counts."""
    rows = Entry.objects.filter(weight_class_id=drawn.weight_class_id)
    return {
        key: Scorer(team=str(team), scoring=scoring)
        for key, team, scoring in rows.values_list("key", "team_id", "scoring")
    }
