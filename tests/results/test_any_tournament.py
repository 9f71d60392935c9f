"""Random tournaments through the services: tables follow the facts, and a dump comes back.

`ANY_COUNT` says how many, `ANY_FROM` the first seed; a failure names its seed.
"""

import json
import os
import random
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from brackets.models import Bout, Drawn
from results.core.outcomes import Kind, Outcome
from results.models import LedgerPart, Result, Withdrawal
from results.queries.facts import facts
from results.queries.standing import parts_of, standing_of
from results.serializers.document import dump
from results.services import correct_result, enter_result, reinstate, withdraw
from seeding.entries.models import Entry, Organisation, Tournament
from seeding.journal.core.errors import Refusal
from tests.results.championship import CALL, document, load, side

pytestmark = pytest.mark.django_db

COUNT = int(os.environ.get("ANY_COUNT", "12"))
FROM = int(os.environ.get("ANY_FROM", "0"))
STEPS = 50
OUTCOMES = (
    *[Outcome(Kind.DECISION, 0, (5, 3))] * 4,
    Outcome(Kind.MAJOR, 0, (11, 1)),
    Outcome(Kind.FALL, 0, time=100),
    Outcome(Kind.MEDICAL, 0),
    Outcome(Kind.DISQUALIFICATION, 0),
    Outcome(Kind.DISQUALIFICATION, 0, misconduct=True),
    Outcome(Kind.DOUBLE_FORFEIT, None),
    Outcome(Kind.DOUBLE_DISQUALIFICATION, None),
    Outcome(Kind.DOUBLE_DISQUALIFICATION, None, misconduct=True),
)
SETTINGS: tuple[dict[str, Any], ...] = (
    {},
    {"bracket.double_loss": "drop"},
    {"bracket.open_place": "moved-up"},
    {"bracket.double_loss": "drop", "bracket.open_place": "shared"},
    {"results.withdrawal_place": "vacates"},
)
FORMATS: tuple[dict[str, Any], ...] = (
    {"bracket.two_pools": [6, 7], "bracket.of_two": "best-of-three"},
    {"bracket.true_places": [2, 4], "bracket.always_lines": 8},
    {"bracket.true_places": [2], "team_points.true_placement_scores": True},
    *({"bracket.wrestleback": back} for back in ("to-fifth", "follow-the-leader")),
    *({"bracket.wrestleback": back} for back in ("quarterfinal-winners", "double-elimination")),
    {"bracket.wrestleback": "finalists", "bracket.thirds": "two", "bracket.places": 6},
    {"bracket.wrestleback": "nobody", "bracket.thirds": "two", "bracket.places": 4},
)
BOOKS = ("college-2025", "college-2013", "high-school-2025")


class Day:
    """A tournament of one weight in which one thing after the other happens by chance."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.tournament = load(
            document(
                entries=self.chance.choice([2, 3, 5, 6, 7, 8, 9, 12, 13, 17]),
                settings=self.chance.choice(SETTINGS) | self.chance.choice(({}, *FORMATS)),
                rulebook=self.chance.choice(BOOKS),
            )
        )

    def step(self) -> None:
        """Something that may be refused, but never fails."""
        done: list[Callable[[], None]] = [self.enter, self.correct, self.leave, self.come_back]
        try:
            self.chance.choices(done, [8, 3, 1, 1])[0]()
        except Refusal as refusal:
            if refusal.code in {"bout-not-ready", "clash"}:
                raise

    def outcome(self) -> Outcome:
        picked = self.chance.choice(OUTCOMES)
        who = side(self.chance.randrange(2))
        return picked if picked.winner is None else replace(picked, winner=who)

    def enter(self) -> None:
        if ready := list(bouts().filter(status=Bout.Status.READY)):
            enter_result(call=CALL, bout=self.chance.choice(ready), outcome=self.outcome())

    def correct(self) -> None:
        if decided := list(bouts().filter(pk__in=Result.objects.values("bout"))):
            new = self.outcome() if self.chance.random() < 0.5 else None
            correct_result(call=CALL, bout=self.chance.choice(decided), outcome=new)

    def leave(self) -> None:
        entry = self.chance.choice(list(Entry.objects.order_by("pk")))
        withdraw(call=CALL, entry=entry, kind=self.chance.choice(Withdrawal.Kind.values))

    def come_back(self) -> None:
        if gone := list(Withdrawal.objects.order_by("pk")):
            reinstate(call=CALL, entry=self.chance.choice(gone).entry)


def bouts() -> Any:
    return Bout.objects.select_related("drawn__weight_class__division").order_by("pk")


def check_tables() -> None:
    """Bouts and ledger are what the facts make them."""
    drawn = Drawn.objects.select_related("weight_class__division").get()
    known = facts(drawn)
    standing = standing_of(drawn, known)
    found = {row.key: row.status for row in Bout.objects.filter(drawn=drawn)}
    assert found == {key: str(state.status) for key, state in standing.bouts.items()}
    told = sorted((row.entry.key, row.item, row.points) for row in LedgerPart.objects.all())
    parts = parts_of(drawn, standing, known)
    assert told == sorted((part.entry, str(part.item), part.points) for part in parts)


@pytest.mark.parametrize("seed", range(FROM, FROM + COUNT))
def test_whatever_happens_tables_follow_and_a_dump_comes_back(seed: int) -> None:
    day = Day(seed)
    for _ in range(STEPS):
        day.step()
        check_tables()
    first = json.loads(json.dumps(dump(day.tournament)))
    Organisation.objects.update(slug="before")
    Tournament.objects.update(slug="before")
    assert json.loads(json.dumps(dump(load(first)))) == first
