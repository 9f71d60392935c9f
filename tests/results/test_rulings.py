"""Corrections over wrestled bouts, and rulings: what follows, and what is refused."""

import json
from decimal import Decimal
from typing import Any

import pytest

from brackets.core.drafting import WantedAdvance, WantedPlace, WantedResult, WantedSides
from brackets.core.errors import RulingUnfit
from brackets.core.replay import Choice
from brackets.core.sources import BoutKey, Seat
from brackets.models import Bout, Drawn, Placing
from brackets.queries import numbered
from brackets.services.number import give_numbers
from results.core.errors import (
    ChoicesMissing,
    InTwoBouts,
    NotAsSeen,
    PlaceTaken,
    ReasonMissing,
    RulingsStand,
)
from results.core.outcomes import Kind, Outcome
from results.models import Result, Ruling, VoidBout
from results.queries.points import team_table
from results.queries.preview import preview
from results.queries.rulings import look_at_ruling, look_at_taking_back
from results.serializers.document import check_document, dump
from results.services import correct_result, rule, take_back_draw, take_back_ruling
from seeding.entries.models import Division, Organisation, Tournament, WeightClass
from seeding.journal.models import Act
from tests.results.championship import CALL, document, load, wrestle

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]

OTHER = Outcome(Kind.DECISION, 1, (5, 3))
REASON = "the score was turned round"


@pytest.fixture
def eight() -> Tournament:
    """Eight entries, all wrestled by the top side down to the final."""
    tournament = load(document(entries=8))
    while ready := numbered(tournament).filter(status=Bout.Status.READY).first():
        wrestle(ready, 0)
    return tournament


def at(key: str) -> Bout:
    parsed = BoutKey.parse(key)
    rows = Bout.objects.select_related("drawn__weight_class__division")
    return rows.get(round=parsed.round, position=parsed.position)


def seeds(key: str) -> list[int | None]:
    row = at(key)
    return [side.seed if side else None for side in (row.top, row.bottom)]


def places() -> dict[int, list[int]]:
    found: dict[int, list[int]] = {}
    for row in Placing.objects.order_by("place", "entry__seed"):
        found.setdefault(row.place, []).append(row.entry.seed or 0)
    return found


def drawn() -> Drawn:
    return Drawn.objects.select_related("weight_class__division").get()


def chosen(key: str, outcome: Outcome | None, **choices: Choice) -> None:
    """Choose for every bout affected, by its round, until nothing is left, and correct."""
    made: dict[BoutKey, Choice] = {}
    for _ in range(20):
        seen = preview(at(key), outcome, made)
        if not seen.wrestled:
            break
        row = seen.wrestled[0]
        made[row.key] = choices.get(row.round, choices["other"])
    correct_result(
        call=CALL, bout=at(key), outcome=outcome, choices=made, mark=seen.mark, reason=REASON
    )


def comes_back(tournament: Tournament) -> None:
    """A dump passes its schema, loads, and dumps the same."""
    first = json.loads(json.dumps(dump(tournament)))
    check_document(first)
    Organisation.objects.update(slug="before")
    Tournament.objects.update(slug="before")
    assert json.loads(json.dumps(dump(load(first)))) == first


def total(of: Tournament, seed: int) -> Decimal:
    rows = team_table(Division.objects.get(tournament=of))
    return next(row.line.total for row in rows if row.team.name == f"Team {seed}")


def test_refused_until_chosen_and_the_bouts_are_named(eight: Tournament) -> None:
    with pytest.raises(ChoicesMissing) as refusal:
        correct_result(call=CALL, bout=at("QF-1"), outcome=OTHER)
    number = at("SF-1").number
    assert refusal.value.where.split(", ")[0] in {f"{number}", f"{at('C1-1').number}"}
    assert str(number) in refusal.value.where


def test_three_rounds_back_everything_stands(eight: Tournament) -> None:
    """8 beat 1 in the quarterfinal, but 1 wrestled on: they change places in the bracket."""
    before, semi, numbers = (
        places(),
        seeds("SF-1"),
        {row.pk: row.number for row in Bout.objects.all()},
    )
    chosen("QF-1", OTHER, other=Choice.STANDS)
    assert Result.objects.get(bout=at("QF-1")).winner_side == 1
    assert seeds("SF-1") == semi
    assert places() == before
    assert not VoidBout.objects.exists()
    assert {row.pk: row.number for row in Bout.objects.all()} == numbers
    ruling = Ruling.objects.get()
    assert (ruling.kind, ruling.reason) == ("sides", REASON)
    comes_back(eight)


def test_three_rounds_back_everything_is_void(eight: Tournament) -> None:
    old = {key: at(key).number for key in ("SF-1", "1st-1", "C1-1")}
    met = seeds("SF-1")
    last = max(row.number or 0 for row in Bout.objects.all())
    chosen("QF-1", OTHER, other=Choice.VOID)
    assert seeds("SF-1") == [8, met[1]]
    assert at("SF-1").status == Bout.Status.READY
    assert at("1st-1").status == Bout.Status.WAITING
    void = {row.number: row for row in VoidBout.objects.all()}
    assert set(old.values()) <= set(void)
    assert (void[old["SF-1"]].top.seed, void[old["SF-1"]].bottom.seed) == (1, met[1])
    assert {at(key).number for key in old}.isdisjoint(old.values())
    assert min(at(key).number or 0 for key in old) > last
    assert not Ruling.objects.exists()
    comes_back(eight)


def test_three_rounds_back_the_semifinal_is_wrestled_again(eight: Tournament) -> None:
    was = {key: seeds(key) for key in ("SF-1", "C1-1")}
    chosen("QF-1", OTHER, SF=Choice.AGAIN, C1=Choice.AGAIN, other=Choice.VOID)
    assert {key: seeds(key) for key in was} == was
    again = VoidBout.objects.first()
    assert again
    assert again.bout.status == Bout.Status.READY
    assert again.bout.number != again.number
    assert Ruling.objects.filter(kind="sides").exists()
    comes_back(eight)


def test_choices_cascade(eight: Tournament) -> None:
    first = preview(at("QF-1"), OTHER)
    touched = {str(one.bout.key) for one in first.affected}
    assert {"SF-1", "C1-1"} <= touched
    after = preview(at("QF-1"), OTHER, {BoutKey("SF", 1): Choice.STANDS})
    assert {str(one.bout.key) for one in after.affected} == {"SF-1"}
    assert not after.wrestled
    assert after.mark != first.mark


def test_only_what_was_seen_is_done_and_with_a_reason(eight: Tournament) -> None:
    choices = {BoutKey("SF", 1): Choice.STANDS}
    seen = preview(at("QF-1"), OTHER, choices)
    for mark, reason, refusal in (("", "x", NotAsSeen), (seen.mark, " ", ReasonMissing)):
        with pytest.raises(refusal):
            correct_result(
                call=CALL, bout=at("QF-1"), outcome=OTHER, choices=choices, mark=mark, reason=reason
            )
    acts = Act.objects.count()
    correct_result(
        call=CALL, bout=at("QF-1"), outcome=OTHER, choices=choices, mark=seen.mark, reason="x"
    )
    assert Act.objects.count() == acts + 1


def test_nobody_stands_in_two_open_bouts(eight: Tournament) -> None:
    """1 cannot wrestle his quarterfinal again while his semifinal and so his final stand."""
    chosen("1st-1", None, other=Choice.STANDS)
    choices = {BoutKey("SF", 1): Choice.STANDS, BoutKey("C1", 1): Choice.VOID}
    seen = preview(at("QF-1"), None, choices)
    while seen.wrestled:
        choices[seen.wrestled[0].key] = Choice.VOID
        seen = preview(at("QF-1"), None, choices)
    assert [one.entry.seed for one in seen.clashes] == [1]
    with pytest.raises(InTwoBouts, match="Given1"):
        correct_result(
            call=CALL, bout=at("QF-1"), outcome=None, choices=choices, mark=seen.mark, reason="x"
        )


def test_numbers_of_void_bouts_are_never_given_again(eight: Tournament) -> None:
    chosen("QF-1", OTHER, other=Choice.VOID)
    gone = set(VoidBout.objects.values_list("number", flat=True))
    for row in list(Result.objects.order_by("-bout__column")):
        if not preview(row.bout, None).wrestled:
            correct_result(call=CALL, bout=row.bout, outcome=None)
    assert not Result.objects.exists()
    give_numbers(Tournament.objects.get())
    numbers = [row.number for row in Bout.objects.exclude(number=None)]
    assert gone.isdisjoint(numbers)
    assert len(numbers) == len(set(numbers))
    with pytest.raises(RulingsStand):
        take_back_draw(call=CALL, weight=WeightClass.objects.get())


def test_a_ruling_on_the_result_of_an_open_bout() -> None:
    tournament = load(document(entries=8))
    rule(call=CALL, drawn=drawn(), wanted=WantedResult(BoutKey("QF", 1), 1), reason="no show")
    assert seeds("SF-1")[0] == 8
    assert at("QF-1").status == Bout.Status.DECIDED
    # eight entries: eighth place 3; a quarterfinal won makes sixth certain, 6, and counts 1
    assert [total(tournament, seed) for seed in (8, 1)] == [Decimal(7), Decimal(3)]
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
    with pytest.raises(ReasonMissing):
        rule(call=CALL, drawn=drawn(), wanted=WantedPlace("125-1", 2, shared=False), reason="")


def test_places_are_ruled_when_all_is_wrestled() -> None:
    load(document(entries=8))
    with pytest.raises(RulingUnfit, match="places can be ruled when all are decided"):
        rule(call=CALL, drawn=drawn(), wanted=WantedPlace("125-1", 1, shared=False), reason="x")


def test_a_place_is_not_held_twice(eight: Tournament) -> None:
    """Two share third by a ruling; a third cannot have that place alone."""
    third, fourth, fifth = (places()[one][0] for one in (3, 4, 5))
    wanted = WantedPlace(f"125-{fourth}", 3, shared=True)
    rule(call=CALL, drawn=drawn(), wanted=wanted, reason="x")
    assert places()[3] == sorted([third, fourth])
    wanted = WantedPlace(f"125-{fifth}", 3, shared=False)
    with pytest.raises(PlaceTaken):
        rule(call=CALL, drawn=drawn(), wanted=wanted, reason="x")


def test_taking_back_what_keeps_a_wrestled_bout_asks_again(eight: Tournament) -> None:
    chosen("QF-1", OTHER, other=Choice.STANDS)
    seen = look_at_taking_back(Ruling.objects.get())
    assert {"SF-1", "C1-1"} <= {str(one.key) for one in seen.wrestled}
