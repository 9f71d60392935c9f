"""What was chosen about wrestled bouts stays on the page until it is carried out."""

from dataclasses import dataclass, field

import pytest
from django.test import Client

from brackets.core.drafting import WantedAdvance
from brackets.core.replay import Choice
from brackets.core.sources import BoutKey, Seat
from brackets.models import Bout
from results.models import Ruling, VoidBout
from results.queries.rulings import look_at_ruling
from results.services import rule, withdraw
from seeding.entries.models import Entry, Tournament
from tests.results.championship import CALL, document, load, wrestle
from tests.results.desk import form, text
from tests.results.overruled import at, drawn, wrestled_through
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

DESK = "/desk/spring/"
OTHER = {"winner": "1", "won": "5", "lost": "3"}


def of_bout(key: str, more: str = "") -> str:
    return f"{DESK}bouts/{at(key).number}/{more}"


@dataclass(frozen=True, slots=True)
class Case:
    """An act at the desk, up to its first look; `said` is typed, `done` is told at the end."""

    page: str
    look: str
    act: str
    done: str
    said: dict[str, str] = field(default_factory=dict)


def corrected() -> Case:
    wrestled_through()
    return Case(of_bout("QF-1"), "look", "correct", "is corrected.", OTHER)


def undone() -> Case:
    wrestled_through()
    return Case(of_bout("SF-1"), "look-undo", "undo", "is undone")


def ruled() -> Case:
    wrestled_through()
    fifth = at("5th-1").winner
    said = {"green": fifth.key if fifth else ""}
    page = of_bout("1st-1", "ruling/")
    return Case(page, "look-seats", "rule-seats", "The ruling is made.", said)


def taken_back() -> Case:
    """The final came about by a ruling, and is wrestled."""
    wrestled_through()
    final, fifth = BoutKey("1st", 1), at("5th-1").winner
    wanted = WantedAdvance(Seat(final, 1), fifth.key if fifth else None)
    choices = {final: Choice.VOID}
    mark = look_at_ruling(drawn(), wanted, choices)[1].mark
    rule(call=CALL, drawn=drawn(), wanted=wanted, reason="x", choices=choices, mark=mark)
    wrestle(at("1st-1"), 0)
    page = f"{DESK}rulings/{Ruling.objects.get().pk}/"
    return Case(page, "look", "take-back", "The ruling is taken back.")


def returned() -> Case:
    """Who was out before his semifinal comes back when the final is wrestled."""
    load(document(entries=8))
    for key in ("QF-1", "QF-2", "QF-3", "QF-4", "SF-2"):
        wrestle(at(key), 0)
    withdraw(call=CALL, entry=Entry.objects.get(seed=1), kind="injury")
    wrestle(at("1st-1"), 0)
    return Case(
        f"{DESK}withdrawals/{Entry.objects.get(seed=1).key}/", "look", "return", "may wrestle on."
    )


CASES = (corrected, undone, ruled, taken_back, returned)


def chosen(director: Client, case: Case) -> dict[str, str]:
    """Choose "void" for one bout after the other, until the page has the button of the act."""
    shown = text(director.post(case.page, {**case.said, "do": case.look}))
    while f'value="{case.act}"' not in shown:
        left = shown.split('<fieldset class="choice open">')[1]
        name = left.split('name="')[1].split('"')[0]
        sent = {**form(shown, case.look), name: "void", "do": case.look}
        shown = text(director.post(case.page, sent))
    return form(shown, case.act)


@pytest.fixture(params=CASES)
def case(request: pytest.FixtureRequest) -> Case:
    made: Case = request.param()
    return made


@pytest.fixture
def director(case: Case) -> Client:
    return signed_in("director", Tournament.objects.get())


def test_what_is_refused_is_shown_again_as_it_was_filled_in(case: Case, director: Client) -> None:
    """The refusals follow one another on one page, each sent on as the page stood."""
    sent = chosen(director, case)
    choices = {name: value for name, value in sent.items() if name.startswith("choice-")}
    void, mark = VoidBout.objects.count(), sent["mark"]
    assert choices
    for typed, refusal in (
        ({"reason": "  "}, "Give the reason: it stays on record"),
        ({"reason": "the wrong one", "mark": "old"}, "not what you have seen"),
    ):
        shown = text(director.post(case.page, {**sent, **typed, "do": case.act}))
        assert refusal in shown
        assert "Wrestled bouts: what becomes of each?" in shown
        sent = form(shown, case.act)
        assert {**sent, **case.said, **choices, "mark": mark} == sent
    assert sent["reason"] == "the wrong one"
    assert VoidBout.objects.count() == void
    assert case.done in text(director.post(case.page, {**sent, "do": case.act}, follow=True))
    assert VoidBout.objects.count() > void


def test_the_browser_asks_for_the_reason_before_the_act_and_not_before_a_look(
    case: Case, director: Client
) -> None:
    shown = text(director.post(case.page, {**chosen(director, case), "do": case.look}))
    asked = next(one for one in shown.split("<input") if 'name="reason"' in one)
    assert " required" in asked.split(">")[0]
    for name, free in ((case.look, True), (case.act, False)):
        button = next(one for one in shown.split("<button") if f'value="{name}"' in one)
        assert ("formnovalidate" in button.split(">")[0]) is free


@pytest.mark.parametrize("case", [corrected], indirect=True)
def test_who_presses_again_has_seen_the_result_as_it_is_now(case: Case, director: Client) -> None:
    sent = {**chosen(director, case), "do": "correct", "reason": "x"}
    Bout.objects.filter(pk=at("QF-1").pk).update(version=9)
    shown = text(director.post(case.page, sent))
    assert "was changed in the meantime" in shown
    again = {**form(shown, "correct"), "do": "correct"}
    assert "is corrected." in text(director.post(case.page, again, follow=True))


@pytest.mark.parametrize("case", [corrected], indirect=True)
def test_what_cannot_be_is_said_once_and_where_it_is_typed(case: Case, director: Client) -> None:
    level = {"winner": "1", "won": "4", "lost": "4", "do": "correct"}
    shown = text(director.post(case.page, level))
    assert shown.count("A decision 4-4 is level.") == 1
    assert form(shown, "look")["won"] == "4"


@pytest.mark.parametrize("case", [corrected], indirect=True)
def test_an_entry_does_not_turn_into_a_correction(case: Case, director: Client) -> None:
    shown = text(director.post(case.page, {**OTHER, "do": "enter"}))
    assert "already has a result" in shown
    assert "It would be" not in shown


@pytest.mark.parametrize("case", [ruled], indirect=True)
def test_a_reason_that_is_too_long_loses_no_ruling(case: Case, director: Client) -> None:
    sent = {**chosen(director, case), "reason": "x" * 301, "do": case.act}
    shown = text(director.post(case.page, sent))
    assert "at most 300 characters" in shown
    assert form(shown, case.act)["green"] == case.said["green"]
