"""The desk's pages of rulings, and corrections whose later bouts were wrestled; the interface's."""

import re
from typing import Any

import pytest
from django.test import Client

from brackets.core.rulings import ResultRuling
from brackets.models import Bout, Placing
from brackets.queries import numbered
from results.models import Result, Ruling, VoidBout
from seeding.entries.models import Entry, Role, Tournament
from tests.results.championship import document, load, wrestle
from tests.results.desk import Selected, buttons, form
from tests.results.interface import Api, user
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

DESK = "/desk/spring/"
HERE = "/tournaments/spring"
OTHER = {"winner": "1", "won": "5", "lost": "3"}


@pytest.fixture
def eight() -> Tournament:
    file = document(entries=8)
    gates = ("entries", "seeds", "draw", "results", "team_points")
    file["tournament"]["publish"] = dict.fromkeys(gates, True)
    tournament = load(file)
    while ready := numbered(tournament).filter(status=Bout.Status.READY).first():
        wrestle(ready, 0)
    return tournament


@pytest.fixture
def director(eight: Tournament) -> Client:
    return signed_in("director", eight)


def number(code: str, position: int = 1) -> int:
    return Bout.objects.get(round=code, position=position).number or 0


def text(answer: Any) -> str:
    return str(answer.content.decode())


def mark(answer: Any) -> str:
    found = re.search(r'name="mark" value="([0-9a-f]+)"', text(answer))
    assert found
    return found[1]


def asked(answer: Any) -> list[str]:
    """The bouts about which the page asks and nothing is chosen."""
    return re.findall(
        r'<fieldset class="choice open">.*?name="(choice-[^"]+)"', text(answer), re.DOTALL
    )


def test_the_director_chooses_until_nothing_is_left(eight: Tournament, director: Client) -> None:
    page = f"{DESK}bouts/{number('QF')}/"
    sent = {**OTHER, "do": "look"}
    shown = director.post(page, sent)
    assert {"choice-SF-1", "choice-C1-1"} <= set(asked(shown))
    assert 'value="correct"' not in text(shown)
    while left := asked(shown):
        sent[left[0]] = "void"
        shown = director.post(page, sent)
    assert 'value="correct"' in text(shown)
    final = {**sent, "do": "correct", "mark": mark(shown)}
    assert "Give the reason" in text(director.post(page, final, follow=True))
    done = text(director.post(page, {**final, "reason": "wrong"}, follow=True))
    assert f"The result of bout {number('QF')} is corrected. Void, and wrestled anew:" in done
    assert VoidBout.objects.count() == len(sent) - 4
    semi = VoidBout.objects.get(bout__round="SF")
    assert f"{semi.number} as {number('SF')}" in done
    for shown in (Client().get("/t/spring/weights/125/"), director.get(f"{DESK}rulings/")):
        assert f"ounts for nothing. Now bout {number('SF')}." in text(shown)


def test_what_a_choice_rules_and_what_it_settles_is_said(
    eight: Tournament, director: Client
) -> None:
    """Who lost the corrected bout keeps the semifinal, so his choice elsewhere is not needed."""
    page = f"{DESK}bouts/{number('QF')}/"
    sent = {**OTHER, "do": "look", "choice-SF-1": "void"}
    assert "it is ruled" not in text(director.post(page, sent))
    sent = {**sent, "choice-C1-1": "again"}
    shown = text(director.post(page, sent))
    assert "By these choices it is ruled" in shown
    assert re.search(rf"is (red|green) in bout {number('C1')}\.", shown)
    said = f"Bout {number('SF')}, SF: what you chose for it is not needed now."
    assert said in shown
    again = {**form(shown, "look"), "do": "look"}
    shown = text(director.post(page, again))
    assert said in shown
    back = {**form(shown, "look"), "do": "look", "choice-C1-1": "void"}
    shown = text(director.post(page, back))
    assert said not in shown
    assert form(shown, "look")["choice-SF-1"] == "void"


def test_what_was_not_seen_is_not_done(eight: Tournament, director: Client) -> None:
    page = f"{DESK}bouts/{number('QF')}/"
    sent = {**OTHER, "do": "correct", "choice-SF-1": "stands", "reason": "x", "mark": "old"}
    assert "not what you have seen" in text(director.post(page, sent, follow=True))
    assert not Ruling.objects.exists()


def test_a_table_asks_the_head_table(eight: Tournament) -> None:
    page = f"{DESK}bouts/{number('QF')}/"
    shown = signed_in("table", eight).post(page, {**OTHER, "do": "look"})
    assert "The head table can say" in text(shown)
    assert "choice-SF-1" not in text(shown)


def test_an_undo_asks_too(eight: Tournament, director: Client) -> None:
    page = f"{DESK}bouts/{number('SF')}/"
    sent = {"do": "look-undo"}
    shown = director.post(page, sent)
    while left := asked(shown):
        sent[left[0]] = "void"
        shown = director.post(page, sent)
    sent |= {"do": "undo", "mark": mark(shown), "reason": "wrong mat"}
    assert "is undone" in text(director.post(page, sent, follow=True))
    assert not Result.objects.filter(bout__round__in=["SF", "1st"], bout__position=1).exists()


def test_a_winner_is_ruled_shown_and_taken_back(eight: Tournament, director: Client) -> None:
    page = f"{DESK}bouts/{number('1st')}/ruling/"
    assert {"look-winner", "look-seats"} <= set(buttons(director, page))
    shown = director.post(page, {"do": "look-winner", "winner": "1"})
    assert "goes on as the winner of bout" in text(shown)
    assert "Places that move" in text(shown)
    sent = {"do": "rule-winner", "winner": "1"}
    assert "Give the reason" in text(director.post(page, sent, follow=True))
    assert "is made" in text(director.post(page, {**sent, "reason": "protest"}, follow=True))
    ruling = Ruling.objects.get()
    who = ruling.value.sides[0] if isinstance(ruling.value, ResultRuling) else ""
    uid = Entry.objects.get(key=who).wrestler.uid
    for address in ("/t/spring/weights/125/", f"/t/spring/wrestlers/{uid}/"):
        public = text(Client().get(address))
        assert "chip ruling" in public
        assert "protest" not in public
    back = f"{DESK}rulings/{ruling.pk}/"
    assert "Places that move" in text(director.get(back))
    assert "is taken back" in text(director.post(back, {"do": "take-back"}, follow=True))
    assert not Ruling.objects.exists()


def test_sides_and_places_are_ruled(eight: Tournament, director: Client) -> None:
    page = f"{DESK}bouts/{number('1st')}/ruling/"
    assert "Choose somebody" in text(director.post(page, {"do": "look-seats"}))
    fifth = Bout.objects.get(round="5th").winner
    assert fifth
    sent = {"do": "look-seats", "green": fifth.key, "choice-1st-1": "void"}
    shown = director.post(page, sent)
    sent |= {"do": "rule-seats", "mark": mark(shown), "reason": "x"}
    assert "is made" in text(director.post(page, sent, follow=True))
    place = f"{DESK}rulings/places/125/"
    sent = {"do": "look-place", "entry": fifth.key, "place": "3"}
    assert "bouts still to be decided: 1" in text(director.post(place, sent))
    said = f"1 bout of this weight is open: {number('1st')}. A place can be ruled when all"
    assert said in text(director.get(place))
    wrestle(Bout.objects.select_related("drawn__weight_class__division").get(round="1st"), 0)
    assert "can be ruled when all" not in text(director.get(place))
    assert Selected(text(director.get(place))).found == {"entry": "", "place": ""}
    for unsaid in ("entry", "place"):
        answer = director.post(place, {**sent, unsaid: ""})
        assert "It would be ruled" not in text(answer)
        assert list(answer.context["forms"][0].errors) == [unsaid]
    assert "has no place" in text(director.post(place, {**sent, "place": "-"}))
    assert "has place 3" in text(director.post(place, sent))
    done = director.post(place, {**sent, "do": "rule-place", "reason": "x"}, follow=True)
    assert "is made" in text(done)


def test_by_the_interface(eight: Tournament) -> None:
    person = user("boss")
    Role.objects.create(tournament=eight, user=person, name="director")
    api = Api(person)
    bout = f"{HERE}/bouts/{number('QF')}/result"
    sent: dict[str, Any] = {"outcome": {"kind": "decision", "winner": "bottom", "score": [5, 3]}}
    sent["choices"] = [{"bout": "125.SF-1", "choice": "stands"}]
    seen = api.ask("post", f"{bout}/preview/", sent).json()
    assert seen["wrestled"] == []
    assert [one["choice"] for one in seen["affected"]] == ["stands"]
    refused = api.ask("post", f"{bout}/correction/", {**sent, "mark": "x", "reason": "x"})
    assert refused.status_code == 409
    done = api.ask("post", f"{bout}/correction/", {**sent, "mark": seen["mark"], "reason": "x"})
    assert done.status_code == 200, done.json()
    listed = api.ask("get", f"{HERE}/rulings/", None).json()
    assert [one["kind"] for one in listed["items"]] == ["sides"]
    assert listed["items"][0]["reason"] == "x"
    assert "reason" not in Api().ask("get", f"{HERE}/rulings/", None).json()["items"][0]
    ruling = listed["items"][0]["id"]
    assert api.ask("delete", f"{HERE}/rulings/{ruling}/", None).status_code == 409
    chosen: dict[str, Any] = {"choices": []}
    while True:
        seen = api.ask("post", f"{HERE}/rulings/{ruling}/preview/", chosen).json()
        if not seen["wrestled"]:
            break
        chosen["choices"].append({"bout": seen["wrestled"][0], "choice": "void"})
    gone = {**chosen, "mark": seen["mark"], "reason": "x"}
    assert api.ask("post", f"{HERE}/rulings/{ruling}/taking-back/", gone).status_code == 200
    listed = api.ask("get", f"{HERE}/rulings/", None).json()
    assert listed["items"] == []
    assert {one["bout"] for one in listed["void"]} >= {"125.SF-1"}


def test_a_return_by_the_interface(eight: Tournament) -> None:
    person = user("boss")
    Role.objects.create(tournament=eight, user=person, name="director")
    api, out = Api(person), f"{HERE}/entries/125-1"
    assert api.ask("post", f"{out}/return/preview/", {"choices": []}).status_code == 409
    seventh = Bout.objects.get(round="7th")
    undone = api.ask("delete", f"{HERE}/bouts/{seventh.number}/result/", None)
    assert undone.status_code == 200
    assert seventh.top
    key = seventh.top.key
    out = f"{HERE}/entries/{key}"
    assert api.ask("post", f"{out}/withdrawal/", {"kind": "injury"}).status_code == 201
    seen = api.ask("post", f"{out}/return/preview/", {"choices": []}).json()
    assert (seen["affected"], seen["changed"]) == ([], [])
    assert [one["wrestler"]["entry"] for one in seen["places"]]
    sent = {"choices": [], "mark": seen["mark"], "reason": ""}
    assert api.ask("post", f"{out}/return/", sent).status_code == 200
    assert api.ask("get", f"{HERE}/withdrawals/", None).json()["items"] == []


@pytest.mark.parametrize(
    ("body", "where"),
    [
        ({"kind": "sides", "bout": "125.SF-1"}, "sides"),
        ({"kind": "result", "bout": "125.SF-1"}, "winner"),
        ({"kind": "place", "entry": None, "place": 1}, "entry"),
        ({"kind": "place", "entry": "125-1", "place": 1, "choices": "other"}, "choices[0].bout"),
    ],
)
def test_what_is_missing_is_named(eight: Tournament, body: dict[str, Any], where: str) -> None:
    person = user("boss")
    Role.objects.create(tournament=eight, user=person, name="director")
    if body.get("choices"):
        body = {**body, "choices": [{"bout": "141.SF-1", "choice": "void"}]}
    answer = Api(person).ask("post", f"{HERE}/rulings/", {"weight": "125", "reason": "x", **body})
    assert answer.status_code == 400
    assert where in str(answer.json())


def test_points_that_a_place_moves_are_written_without_idle_zeros() -> None:
    meet = load(document(entries=5))
    while ready := numbered(meet).filter(status=Bout.Status.READY).first():
        wrestle(ready, 0)
    last = Placing.objects.order_by("place").last()
    assert last
    asked = {"do": "look-place", "entry": last.entry.key, "place": "1", "shared": "on"}
    director = signed_in("director", meet)
    shown = text(director.get(f"{DESK}rulings/places/125/"))
    assert re.findall(r'<option value="(\d)"', shown) == ["1", "2", "3", "4", "5"]
    page = text(director.post(f"{DESK}rulings/places/125/", asked))
    moved = re.findall(r"Team \d: ([\d.]+) → ([\d.]+)<", page)
    assert moved
    assert not [points for pair in moved for points in pair if "." in points]
