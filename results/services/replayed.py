"""The results of a tournament file, applied in order to the brackets of its weights."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from brackets.core.graph import BoutKey
from brackets.core.rulings import Ruling
from brackets.core.standing import BoutState, Standing
from brackets.models import Bout, Drawn
from brackets.queries import bracket
from results.core.outcomes import Kind, Outcome, check, read_time
from results.models import Result
from results.queries.facts import Facts, Left, rules_of
from results.queries.standing import standing_of
from seeding.journal.core.errors import Invalid, Problem, Refusal
from seeding.journal.services import Call

Item = Mapping[str, Any]


@dataclass
class Weight:
    """One weight while its results are applied: the facts so far and how it stands by them."""

    drawn: Drawn
    rows: dict[BoutKey, Bout]
    keeps: bool
    outcomes: dict[BoutKey, Outcome] = field(default_factory=dict)
    sides: dict[BoutKey, tuple[str, str]] = field(default_factory=dict)
    left: dict[str, Left] = field(default_factory=dict)
    rulings: list[Ruling] = field(default_factory=list)

    @classmethod
    def of(cls, drawn: Drawn) -> "Weight":
        keeps = rules_of(drawn.weight_class.division).results.withdrawal_keeps_place
        return cls(drawn, {row.key: row for row in Bout.objects.filter(drawn=drawn)}, keeps)

    def facts(self) -> Facts:
        return Facts(
            order=bracket(self.drawn).wiring.index,
            outcomes=self.outcomes,
            sides=self.sides,
            left=tuple(self.left.values()),
            keeps=self.keeps,
            rulings=tuple(self.rulings),
        )

    def standing(self) -> Standing:
        return standing_of(self.drawn, self.facts())

    def apply(self, call: Call, item: Item, where: str) -> Result:
        """The row of one result; refuses, with the path, what does not fit."""
        state = self._open(item, where)
        outcome = _outcome(state, item, where)
        try:
            check(outcome, rules_of(self.drawn.weight_class.division).results, complete=False)
        except Refusal as refusal:
            raise Invalid([Problem(where, str(refusal))]) from refusal
        self.outcomes[state.key] = outcome
        self.sides[state.key] = (str(state.sides[0]), str(state.sides[1]))
        return _row(call, self.rows[state.key], outcome, item)

    def _open(self, item: Item, where: str) -> BoutState:
        states = self.standing().bouts
        label = self.drawn.weight_class.label
        if "bout" in item:
            keys = [key for key, row in self.rows.items() if row.number == item["bout"]]
            if not keys:
                raise wrong(where, f"there is no bout {item['bout']} at weight {label}")
            state = states[keys[0]]
            if not state.takes_result:
                raise wrong(where, f"bout {item['bout']} ({state.key}) is {state.status}")
            return state
        pair = set(item["between"])
        found = [
            state for state in states.values() if state.takes_result and set(state.sides) == pair
        ]
        if len(found) != 1:
            names = " and ".join(item["between"])
            raise wrong(where, f"{names} are not in one open bout of weight {label}")
        return found[0]


def _outcome(state: BoutState, item: Item, where: str) -> Outcome:
    winner = item.get("winner")
    if winner is not None and winner not in state.sides:
        names = " and ".join(str(side) for side in state.sides)
        raise wrong(where, f"“{winner}” is not in bout {state.key}, which is between {names}")
    return outcome_between(state.sides, item)


def outcome_between(sides: Sequence[object], item: Item) -> Outcome:
    """How a bout between these two ended; the winner, where there is one, is one of them."""
    winner = item.get("winner")
    score = item.get("score")
    return Outcome(
        kind=Kind(item["kind"]),
        winner=None if winner is None else (0 if sides[0] == winner else 1),
        score=(score[0], score[1]) if score else None,
        time=read_time(item["time"]) if item.get("time") else None,
        overtime=item.get("overtime"),
        decided_by=item.get("decided_by"),
        near_fall=item.get("near_fall", True),
        misconduct=item.get("misconduct", False),
    )


def _row(call: Call, bout: Bout, outcome: Outcome, item: Item) -> Result:
    at = datetime.fromisoformat(item["occurred_at"]) if "occurred_at" in item else call.now
    row = Result.of(bout, outcome)
    row.state = item.get("state", Result.State.ENTERED)
    row.occurred_at, row.received_at = at, call.now
    row.author_id = call.author
    return row


def wrong(where: str, message: str) -> Invalid:
    """The refusal of one thing in a file."""
    return Invalid([Problem(where, message)])
