"""Drawing, numbering and mats from the desk."""

import re

import pytest
from django.test import Client

from brackets.models import Bout, Drawn
from brackets.queries import numbered, numbered_bout
from results.services import draw_weight
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.journal.models import Act
from tests.results.championship import CALL, document, load, wrestle
from tests.results.desk import buttons, form, press, text
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

DRAW = "/desk/spring/draw/"


@pytest.fixture
def event() -> Tournament:
    """33, 12, 5 and 1 entries at four weights, nothing drawn."""
    file = document(("125", "133", "141", "149"), entries=33)
    kept = {"125": 33, "133": 12, "141": 5, "149": 1}
    entries = [e for e in file["entries"] if e["seed"] <= kept[e["weight_class"]]]
    return load(file | {"brackets": [], "entries": entries})


@pytest.fixture
def director(event: Tournament) -> Client:
    return signed_in("director", event)


def test_each_weight_says_what_it_will_take(director: Client) -> None:
    page = text(director.get(DRAW))
    for words in ("32 lines, 1 pigtail", "16 lines, 4 byes", "round robin of 5"):
        assert words in page
    assert "two entries at least" in page
    assert "Draw all 3 weights" in page


def test_all_weights_are_drawn_and_the_bouts_numbered(event: Tournament, director: Client) -> None:
    assert "3 weights are drawn." in text(press(director, DRAW, "draw-all"))
    assert Drawn.objects.count() == 3
    assert "draw-all" not in buttons(director, DRAW)
    assert "Number 96 bouts" in text(director.get(DRAW))
    press(director, DRAW, "number")
    assert numbered(event).count() == 64 + 22 + 10
    assert "Number all bouts anew" in text(director.get(DRAW))
    wrestle(numbered_bout(event, 1), 0)
    assert "number" not in buttons(director, DRAW)


def test_draw_all_pressed_twice_draws_once(director: Client) -> None:
    sent = {**form(text(director.get(DRAW)), "draw-all"), "do": "draw-all"}
    for _ in range(2):
        director.post(DRAW, sent, follow=True)
    assert Act.objects.filter(verb="weight.drawn").count() == 3


def test_one_weight_with_a_lot_seed_of_ones_own(event: Tournament, director: Client) -> None:
    Entry.objects.filter(seed__gt=4).update(seed=None)
    page = f"{DRAW}weights/133/"
    lines = []
    for _ in range(2):
        answer = press(director, page, "draw", lot_seed="drawn by the mayor")
        assert "133 is drawn." in text(answer)
        assert "drawn by the mayor" in text(answer)
        lines.append(Drawn.objects.get().lines)
        press(director, page, "take-back")
    assert lines[0] == lines[1]
    assert not Drawn.objects.exists()


def test_a_draw_is_not_taken_back_once_a_bout_is_wrestled(
    event: Tournament, director: Client
) -> None:
    press(director, DRAW, "draw-all")
    press(director, DRAW, "number")
    sent = {**form(text(director.get(f"{DRAW}weights/125/")), "take-back"), "do": "take-back"}
    wrestle(numbered_bout(event, 1), 0)
    page = text(director.get(f"{DRAW}weights/125/"))
    assert "The draw stands. Bouts of 125 that have a result: 1. Take these back first" in page
    assert "take-back" not in buttons(director, f"{DRAW}weights/125/")
    answer = director.post(f"{DRAW}weights/125/", sent, follow=True)
    assert "Bouts of 125 that have a result: 1." in text(answer)


def test_an_old_page_does_not_draw(director: Client) -> None:
    page = f"{DRAW}weights/125/"
    sent = {**form(text(director.get(page)), "draw"), "do": "draw"}
    WeightClass.objects.filter(key="125").update(version=5)
    answer = director.post(page, sent, follow=True)
    assert "Weight 125 was changed in the meantime." in text(answer)
    assert not Drawn.objects.exists()


def test_a_bout_is_sent_to_another_mat(event: Tournament, director: Client) -> None:
    press(director, DRAW, "draw-all")
    press(director, DRAW, "number")
    mats = f"{DRAW}mats/"
    assert "Bout 3 is on mat 8 now." in text(press(director, mats, "send", number="3", mat="8"))
    assert numbered_bout(event, 3).mat == "8"
    chosen = f"{mats}?mat=8&bout=3"
    assert "Send bout 3 from mat 8 to another" in text(director.get(chosen))
    press(director, chosen, "send", mat="1")
    assert numbered_bout(event, 3).mat == "1"
    sent = {**form(text(director.get(chosen)), "send"), "do": "send", "mat": "3"}
    wrestle(numbered_bout(event, 3), 0)
    sent["version"] = numbered_bout(event, 3).version
    answer = director.post(chosen, sent, follow=True)
    assert "Bout 3 is decided, so it stays on mat 1." in text(answer)
    assert "There is no bout" in text(press(director, mats, "send", number="999", mat="8"))


def test_loads_add_up(event: Tournament, director: Client) -> None:
    press(director, DRAW, "draw-all")
    press(director, DRAW, "number")
    per_mat = Bout.objects.exclude(number=None).values_list("mat", flat=True)
    page = text(director.get(DRAW))
    for mat in event.mats:
        count = list(per_mat).count(mat)
        assert f'?mat={mat}">{mat}</a></th><td class="num">{count}</td>' in page


def test_no_link_of_a_drawn_weight_leads_into_the_void(director: Client) -> None:
    draw_weight(call=CALL, weight=WeightClass.objects.get(key="141"))
    page = director.get(f"{DRAW}weights/141/").content.decode()
    assert "Take the draw back" in page
    assert not re.search(r'href="[^"/?#]', page.replace('href="data:', ""))
