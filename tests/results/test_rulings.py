"""Rulings: what they change, and what is refused."""

import json
from decimal import Decimal
from typing import Any

import pytest

from brackets.core.drafting import WantedAdvance, WantedPlace, WantedResult, WantedSides
from brackets.core.errors import RulingUnfit
from brackets.core.replay import Choice
from brackets.core.sources import BoutKey, Seat
from brackets.models import Bout
from brackets.services import number_bouts
from results.core.errors import (
    PlaceTaken,
    ReasonMissing,
)
from results.models import Result, Ruling
from results.queries.rulings import look_at_ruling
from results.serializers.document import dump
from results.services import rule, take_back_ruling
from seeding.entries.models import Tournament
from tests.results.championship import CALL, document, load, wrestle
from tests.results.overruled import (
    at,
    comes_back,
    drawn,
    places,
    seeds,
    total,
    wrestled_through,
)

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]


@pytest.fixture
def eight() -> Tournament:
    return wrestled_through()


def highest() -> int:
    return max(row.number or 0 for row in Bout.objects.all())


def test_a_ruling_on_the_result_of_an_open_bout() -> None:
    tournament = load(document(entries=8))
    rule(call=CALL, drawn=drawn(), wanted=WantedResult(BoutKey("QF", 1), 1), reason="no show")
    assert seeds("SF-1")[0] == 8
    assert at("QF-1").status == Bout.Status.DECIDED
    # eight entries: eighth place 3; a quarterfinal won makes sixth certain, 6, and counts 1
    assert [total(tournament, seed) for seed in (8, 1)] == [Decimal(7), Decimal(3)]
    comes_back(tournament)


def test_a_bout_that_only_a_ruling_fills_takes_the_next_number() -> None:
    tournament = load(document(entries=7))
    number_bouts(call=CALL, tournament=tournament)
    last = highest()
    assert at("QF-1").status == Bout.Status.BYE
    wanted = WantedSides(BoutKey("QF", 1), ("125-1", "125-2"))
    rule(call=CALL, drawn=drawn(), wanted=wanted, reason="drawn on one side by mistake")
    assert (at("QF-1").status, at("QF-1").number) == (Bout.Status.READY, last + 1)
    assert at("QF-1").mat in tournament.mats
    number_bouts(call=CALL, tournament=tournament)
    assert at("QF-1").number == highest()
    comes_back(tournament)


def test_a_ruling_against_a_result_and_taking_it_back(eight: Tournament) -> None:
    before = json.loads(json.dumps(dump(eight)))
    final, met = BoutKey("1st", 1), seeds("1st-1")
    rule(call=CALL, drawn=drawn(), wanted=WantedResult(final, 1), reason="protest upheld")
    assert (places()[1], places()[2]) == ([met[1]], [met[0]])
    assert Result.objects.get(bout=at("1st-1")).winner_side == 0
    take_back_ruling(call=CALL, ruling=Ruling.objects.get())
    assert json.loads(json.dumps(dump(eight))) == before


def test_a_ruling_on_sides_changes_two_wrestlers() -> None:
    """The one of the lower half comes over, the one he replaces takes his seat."""
    tournament = load(document(entries=8))
    for key in ("QF-1", "QF-2", "QF-3", "QF-4"):
        wrestle(at(key), 0)
    four = {*seeds("SF-1"), *seeds("SF-2")}
    top, bottom = at("SF-1").bottom, at("SF-2").top
    assert top
    assert bottom
    wanted = WantedSides(BoutKey("SF", 1), (bottom.key, top.key))
    rule(call=CALL, drawn=drawn(), wanted=wanted, reason="wrongly drawn")
    assert [at("SF-1").top, at("SF-1").bottom] == [bottom, top]
    assert {*seeds("SF-1"), *seeds("SF-2")} == four
    comes_back(tournament)


def test_a_ruling_on_who_goes_on(eight: Tournament) -> None:
    """Who took fifth is put into the final instead of the loser there."""
    final, met, out = BoutKey("1st", 1), seeds("1st-1"), places()[5][0]
    wanted = WantedAdvance(Seat(final, 1), f"125-{out}")
    ruling, seen = look_at_ruling(drawn(), wanted)
    assert [str(one.bout.key) for one in seen.affected] == ["1st-1"]
    assert ruling.kind == "advancement"
    choices = {final: Choice.VOID}
    _, seen = look_at_ruling(drawn(), wanted, choices)
    old = 5
    rule(call=CALL, drawn=drawn(), wanted=wanted, reason="x", choices=choices, mark=seen.mark)
    assert seeds("1st-1") == [met[0], out]
    assert places()[old] == [met[1]]
    assert 1 not in places()
    comes_back(eight)


def test_a_ruling_on_a_place_exchanges_shares_or_takes(eight: Tournament) -> None:
    was = places()
    third, fifth = was[3][0], was[5][0]

    def ruled(place: int | None, shared: bool = False) -> Ruling:
        wanted = WantedPlace(f"125-{fifth}", place, shared)
        rule(call=CALL, drawn=drawn(), wanted=wanted, reason="ruled", mark="")
        return Ruling.objects.get()

    first = ruled(3)
    assert (places()[3], places()[5]) == ([fifth], [third])
    take_back_ruling(call=CALL, ruling=first)
    second = ruled(3, shared=True)
    assert places()[3] == sorted([third, fifth])
    assert 5 not in places()
    take_back_ruling(call=CALL, ruling=second)
    ruled(None)
    assert 5 not in places()
    comes_back(eight)


def test_what_cannot_be_ruled(eight: Tournament) -> None:
    top, bottom = seeds("1st-1")
    unfit: list[Any] = [
        WantedPlace("125-1", 9, shared=False),
        WantedPlace("125-99", 1, shared=False),
        WantedSides(BoutKey("SF", 1), ("125-1", "125-1")),
        WantedSides(BoutKey("1st", 1), (f"125-{top}", f"125-{bottom}")),
        WantedResult(BoutKey("R1", 1), 0),
    ]
    for wanted in unfit:
        with pytest.raises(Exception, match=r"cannot be ruled|no bout"):
            rule(call=CALL, drawn=drawn(), wanted=wanted, reason="x")
    final = Bout.objects.get(round="1st")
    with pytest.raises(RulingUnfit, match=f"in bout {final.number} it is so already"):
        rule(call=CALL, drawn=drawn(), wanted=unfit[3], reason="x")
    with pytest.raises(ReasonMissing):
        rule(call=CALL, drawn=drawn(), wanted=WantedPlace("125-1", 2, shared=False), reason="")


def test_places_are_ruled_when_all_is_wrestled() -> None:
    load(document(entries=8))
    with pytest.raises(RulingUnfit, match="places can be ruled when all are decided"):
        rule(call=CALL, drawn=drawn(), wanted=WantedPlace("125-1", 1, shared=False), reason="x")


def test_a_refusal_calls_wrestlers_and_bouts_as_people_do() -> None:
    load(document(entries=8))
    for code, position in (("QF", 1), ("QF", 2), ("SF", 1)):
        wrestle(Bout.objects.get(round=code, position=position), 0)
    wanted = WantedAdvance(Seat(BoutKey("QF", 4), 1), "125-1")
    with pytest.raises(RulingUnfit, match=r"Given1 Family125 has wrestled bout 5, .* after bout 4"):
        rule(call=CALL, drawn=drawn(), wanted=wanted, reason="x")


def test_a_place_is_not_held_twice(eight: Tournament) -> None:
    """Two share third by a ruling; a third cannot have that place alone."""
    third, fourth, fifth = (places()[one][0] for one in (3, 4, 5))
    wanted = WantedPlace(f"125-{fourth}", 3, shared=True)
    rule(call=CALL, drawn=drawn(), wanted=wanted, reason="x")
    assert places()[3] == sorted([third, fourth])
    wanted = WantedPlace(f"125-{fifth}", 3, shared=False)
    with pytest.raises(PlaceTaken):
        rule(call=CALL, drawn=drawn(), wanted=wanted, reason="x")
