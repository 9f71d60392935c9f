"""A hall in which a scenario's day is wrestled, on the cores alone."""

from collections.abc import Iterator
from typing import Any

from brackets.core.draw import Entrant
from brackets.core.formats import build
from brackets.core.graph import BoutKey, Bracket
from brackets.core.numbering import number
from brackets.core.progress import Standing, Status, play
from brackets.core.rules import BracketRules
from deploy.scenario.tournament import OpenBout
from results.core.outcomes import Kind, Outcome, verdict
from seeding.core.lot import Lot
from seeding.entries.rulebooks import book
from tests.brackets.core.books import drawn

RULES = BracketRules.from_section(book("college-2025")["bracket"])


class Hall:
    """Every weight of a tournament file, drawn and numbered, and what was wrestled so far."""

    def __init__(self, document: dict[str, Any]) -> None:
        self.brackets = {
            item["id"]: _bracket(document, item) for item in document["weight_classes"]
        }
        self.numbers = number(list(self.brackets.items()))
        self.outcomes: dict[str, dict[BoutKey, Outcome]] = {key: {} for key in self.brackets}
        self.out: set[str] = set()
        self.standings = {key: self._standing(key) for key in self.brackets}

    def open_bouts(self) -> Iterator[OpenBout]:
        for weight, standing in self.standings.items():
            for key, state in standing.bouts.items():
                if state.status is Status.READY:
                    top, bottom = map(str, state.sides)
                    yield OpenBout(weight, key, self.numbers[weight, key], (top, bottom))

    def enter(self, bout: OpenBout, outcome: Outcome) -> None:
        self.outcomes[bout.weight][bout.key] = outcome
        if outcome.kind is Kind.MEDICAL:
            self.out.add(bout.sides[1 - (outcome.winner or 0)])
        self.standings[bout.weight] = self._standing(bout.weight)

    def _standing(self, weight: str) -> Standing:
        verdicts = {key: verdict(outcome) for key, outcome in self.outcomes[weight].items()}
        return play(self.brackets[weight], verdicts, RULES, out=frozenset(self.out))


def _bracket(document: dict[str, Any], weight: dict[str, Any]) -> Bracket:
    entrants = [
        Entrant(item["id"], item.get("seed"), item["team"])
        for item in document["entries"]
        if item["weight_class"] == weight["id"] and item["status"] == "entered"
    ]
    lines = drawn(entrants, RULES, Lot(weight["seeding"]["lot_seed"], f"draw/{weight['id']}"))
    return build(lines, RULES, min(weight["places"], 8) if len(entrants) > 7 else 4)
