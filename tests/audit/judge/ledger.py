"""Team points of one weight, and the table of a division."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from tests.audit.judge.facts import Facts
from tests.audit.judge.model import Key
from tests.audit.judge.places import Places
from tests.audit.judge.poolrank import bonus_of
from tests.audit.judge.standing import Standing, State

PARTS = ("placement", "advancement", "bonus", "adjustments")


@dataclass
class Score:
    """The points of one entry or team by part."""

    parts: dict[str, Decimal] = field(default_factory=lambda: dict.fromkeys(PARTS, Decimal(0)))

    def add(self, part: str, points: Decimal) -> None:
        """Add to a part."""
        self.parts[part] += points

    def total(self) -> Decimal:
        """The sum of all parts."""
        return sum(self.parts.values(), Decimal(0))


def number(raw: Any) -> Decimal:
    """A number of the settings."""
    return Decimal(str(raw))


class Ledger:
    """What each entry of a weight earned.

    `at` and `by`: the standing and its places, without challenges, and without the bouts that are
    there only for one, where these do not score.
    """

    def __init__(self, at: Standing, facts: Facts, by: Places) -> None:
        self.at, self.facts, self.by = at, facts, by
        self.rules = facts.settings["team_points"]
        self.table = [number(p) for p in self.rules["placement"].get(str(facts.places), [])]

    def work(self) -> dict[str, Score]:
        """Points by entry."""
        scores = {entry: Score() for entry in self.facts.entries}
        for entry in self.scorers():
            scores[entry].add("placement", self.placement(entry))
            self.bouts(entry, scores[entry])
        cost = number(self.facts.settings["deductions"]["flagrant_misconduct"])
        for entry in self.facts.removed:
            scores[entry].add("adjustments", -cost)
        return scores

    def scorers(self) -> list[str]:
        """Who scores: the named ones, or of several of a team the best finisher."""
        named = [e for e, raw in self.facts.entries.items() if raw.get("scoring", True)]
        named = [entry for entry in named if entry not in self.facts.removed]
        if self.rules["scorer"] == "named":
            return named
        best: dict[str, str] = {}
        lines = list(self.facts.holders().values())
        for entry in sorted(named, key=lambda e: lines.index(e) if e in lines else 999):
            team = self.facts.entries[entry]["team"]
            if team not in best or self.rank(entry) < self.rank(best[team]):
                best[team] = entry
        return list(best.values())

    def rank(self, entry: str) -> tuple[int, Decimal]:
        """The best certain place first, then most advancement and bonus so far."""
        so_far = Score()
        self.bouts(entry, so_far)
        return self.by.running.get(entry, 999), -so_far.total()

    def placement(self, entry: str) -> Decimal:
        """Points of the place that is certain."""
        place = self.by.running.get(entry)
        if place is None:
            return Decimal(0)
        if self.rules["non_scorers"] == "pass":
            scorers = set(self.scorers())
            place -= sum(p < place and e not in scorers for e, p in self.by.final.items())
        count = self.sharing(entry)
        if self.rules["shared_places"] == "each" or count < 2:
            return self.worth(place)
        return sum((self.worth(place + i) for i in range(count)), Decimal(0)) / count

    def sharing(self, entry: str) -> int:
        """How many share an entry's place: they take it up with the places after it.

        Who has it in full, as a side of a bout that nobody won, shares it with nobody.
        """
        place = self.by.final.get(entry)
        if place is None or entry in self.by.alone:
            return 1
        return sum(p == place and e not in self.by.alone for e, p in self.by.final.items())

    def worth(self, place: int) -> Decimal:
        """The points of a place."""
        return self.table[place - 1] if place <= len(self.table) else Decimal(0)

    def path(self, entry: str) -> list[tuple[Key, State]]:
        """The bouts and byes of an entry that are over, in order."""
        return [
            (key, state)
            for key, state in self.at.states.items()
            if entry in state.sides and state.status in ("decided", "bye")
        ]

    def bouts(self, entry: str, to: Score) -> None:
        """Advancement and bonus of an entry's bouts and byes."""
        waiting: list[tuple[Key, State]] = []
        for key, state in self.path(entry):
            if state.status == "bye":
                waiting.append((key, state))
                continue
            if state.winner == entry:
                self.byes(waiting, to)
                to.add("advancement", self.advancement(key))
                to.add("bonus", self.bonus(key, state))
            waiting = []

    def advancement(self, key: Key) -> Decimal:
        """What a win in a round is worth, apart from how it was won.

        The final has none in any case; a bout for a place counts as a win on the consolation
        side where it counts at all.
        """
        side = self.at.plan.nodes[key].side
        if side == "placing" and self.rules["advancement_in_placing_bouts"]:
            side = "consolation"
        name = {"championship": "championship_win", "consolation": "consolation_win"}
        name["pool"] = "pool_win"
        return number(self.rules[name[side]]) if side in name else Decimal(0)

    def bonus(self, key: Key, state: State) -> Decimal:
        """What the kind of a win is worth; none for a win by a ruling."""
        if state.ruled:
            return Decimal(0)
        result = self.facts.results.get(key)
        kind = "medical forfeit" if state.implied or result is None else result.kind
        return bonus_of(kind, result, self.rules)

    def byes(self, before: list[tuple[Key, State]], to: Score) -> None:
        """The byes before a bout that was won; those that do not score count in the row."""
        mode, row = str(self.rules["byes"]), self.rules["byes_in_a_row"]
        if mode == "none":
            return
        if len(before) > 1 and row != "all":
            before = before[-1:] if row == "last" else []
        if not self.rules["byes_from_double_loss"]:
            before = [(key, state) for key, state in before if state.drawn]
        if "championship" in mode:
            before = [b for b in before if self.at.plan.nodes[b[0]].side == "championship"]
        for key, _ in before:
            to.add("advancement", self.advancement(key))
            if mode == "fall-bonus" and self.advancement(key):
                to.add("bonus", number(self.rules["bonus"]["fall"]))


def ranked(totals: dict[str, Decimal]) -> dict[str, int]:
    """Places from most points to fewest; equal ones share, the next is skipped."""
    counts = Counter(totals.values())
    return {
        team: 1 + sum(n for value, n in counts.items() if value > total)
        for team, total in totals.items()
    }
