"""Random tournaments with corrections over wrestled bouts and rulings: tables follow the facts,
what was seen is what happens, no number comes twice, and a dump comes back.

`RULED_COUNT` says how many, `RULED_FROM` the first seed; a failure names its seed.
"""

import json
import os
from collections import Counter
from collections.abc import Callable

import pytest

from brackets.core.drafting import (
    Wanted,
    WantedAdvance,
    WantedPlace,
    WantedResult,
    WantedSides,
)
from brackets.core.graph import BoutKey
from brackets.core.replay import Choice
from brackets.core.rulings import in_two
from brackets.core.sources import Seat
from brackets.models import Bout, Drawn, Placing
from brackets.queries import bracket
from results.models import Result, Ruling, VoidBout, Withdrawal
from results.queries.consequences import Preview
from results.queries.facts import facts
from results.queries.out import look_at_return
from results.queries.preview import preview
from results.queries.rulings import look_at_ruling, look_at_taking_back
from results.queries.standing import standing_of
from results.serializers.document import check_document, dump
from results.services import correct_result, reinstate, rule, take_back_ruling
from seeding.entries.models import Entry, Organisation, Tournament
from seeding.journal.core.errors import Refusal
from tests.results.championship import CALL, load, side
from tests.results.test_any_tournament import Day, bouts, check_tables

pytestmark = pytest.mark.django_db

COUNT = int(os.environ.get("RULED_COUNT", "10"))
FROM = int(os.environ.get("RULED_FROM", "0"))
STEPS = 45
Choices = dict[BoutKey, Choice]


def drawn() -> Drawn:
    return Drawn.objects.select_related("weight_class__division", "weight_class__tournament").get()


class RuledDay(Day):
    """A day on which the director overrules."""

    def step(self) -> None:
        done: list[Callable[[], None]] = [
            *(self.enter, self.correct_on, self.rule, self.give_in, self.leave, self.come_back)
        ]
        try:
            self.chance.choices(done, [12, 4, 2, 1, 1, 1])[0]()
        except Refusal as refusal:
            if refusal.code in {"bout-not-ready", "clash", "not-as-seen"}:
                raise

    def chosen(self, look: Callable[[Choices], Preview]) -> tuple[Choices, Preview]:
        """By chance what becomes of every bout affected, until nothing is left to choose."""
        made: Choices = {}
        seen = look(made)
        while seen.wrestled:
            key = seen.wrestled[0].key
            made[key] = Choice.VOID if key in made else self.chance.choice(list(Choice))
            seen = look(made)
        return made, seen

    def correct_on(self) -> None:
        if decided := list(bouts().filter(pk__in=Result.objects.values("bout"))):
            row = self.chance.choice(decided)
            new = self.outcome() if self.chance.random() < 0.7 else None
            choices, seen = self.chosen(lambda made: preview(row, new, made))
            standing = self.expected(seen)
            correct_result(
                call=CALL, bout=row, outcome=new, choices=choices, mark=seen.mark, reason="x"
            )
            self.happened(seen, standing)

    def rule(self) -> None:
        wanted = self.wanted()
        choices, seen = self.chosen(lambda made: look_at_ruling(drawn(), wanted, made)[1])
        standing = self.expected(seen)
        rule(call=CALL, drawn=drawn(), wanted=wanted, reason="x", choices=choices, mark=seen.mark)
        self.happened(seen, standing)
        known = facts(drawn())
        assert not in_two(bracket(drawn()), standing_of(drawn(), known))

    def wanted(self) -> Wanted:
        real = list(bouts().exclude(status__in=[Bout.Status.BYE, Bout.Status.VACANT]))
        entries = list(Entry.objects.order_by("pk").values_list("key", flat=True))
        key = self.chance.choice(real).key
        one, other = self.chance.sample(entries, 2)
        kinds: list[Wanted] = [
            WantedSides(key, (one, other)),
            WantedResult(key, self.chance.choice((0, 1, None))),
            WantedAdvance(
                Seat(key, side(self.chance.randrange(2))), self.chance.choice([one, None])
            ),
            WantedPlace(one, self.chance.choice([1, 2, 3, None]), self.chance.random() < 0.5),
        ]
        return self.chance.choice(kinds)

    def give_in(self) -> None:
        if rows := list(Ruling.objects.select_related("drawn__weight_class__division")):
            row = self.chance.choice(rows)
            choices, seen = self.chosen(lambda made: look_at_taking_back(row, made))
            standing = self.expected(seen)
            take_back_ruling(call=CALL, ruling=row, choices=choices, mark=seen.mark, reason="x")
            self.happened(seen, standing)

    def come_back(self) -> None:
        if gone := list(Withdrawal.objects.select_related("entry").order_by("pk")):
            entry = self.chance.choice(gone).entry
            choices, seen = self.chosen(lambda made: look_at_return(entry, made))
            standing = self.expected(seen)
            reinstate(call=CALL, entry=entry, choices=choices, mark=seen.mark, reason="x")
            self.happened(seen, standing)

    def expected(self, seen: Preview) -> dict[int, int]:
        """The places as they are, with what the preview says of them."""
        found = dict(Placing.objects.values_list("entry_id", "place"))
        for moved in seen.places:
            found.pop(moved.what.pk, None)
            if moved.after != "-":
                found[moved.what.pk] = int(moved.after)
        return found

    def happened(self, seen: Preview, places: dict[int, int]) -> None:
        """What was shown is what came."""
        assert dict(Placing.objects.values_list("entry_id", "place")) == places
        for one in seen.affected:
            row = Bout.objects.get(pk=one.bout.pk)
            stands = one.choice is Choice.STANDS
            assert Result.objects.filter(bout=row).exists() == stands
            assert (row.number == one.bout.number) == stands
            if one.choice is not Choice.VOID:
                assert (row.top_id, row.bottom_id) == (one.bout.top_id, one.bout.bottom_id)


def check_numbers() -> None:
    """No number comes twice, void bouts counted."""
    held = [row.number for row in Bout.objects.all() if row.number is not None]
    held += [row.number for row in VoidBout.objects.all() if row.number is not None]
    assert max(Counter(held).values()) == 1
    assert max(held) <= Tournament.objects.get().last_number


@pytest.mark.parametrize("seed", range(FROM, FROM + COUNT))
def test_whatever_is_ruled_tables_follow_and_a_dump_comes_back(seed: int) -> None:
    day = RuledDay(seed)
    for _ in range(STEPS):
        day.step()
        check_tables()
        check_numbers()
    first = json.loads(json.dumps(dump(day.tournament)))
    check_document(first)
    Organisation.objects.update(slug="before")
    Tournament.objects.update(slug="before")
    assert json.loads(json.dumps(dump(load(first)))) == first
