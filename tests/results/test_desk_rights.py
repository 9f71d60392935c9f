"""Who may open which page of the results desk, and press which button."""

import pytest
from django.test import Client

from brackets.core.drafting import WantedResult
from brackets.queries import numbered_bout
from results.models import Ruling
from results.services import rule, withdraw
from seeding.entries.models import Entry, Tournament
from seeding.services.qualifying import Numbers, set_plan, set_region
from tests.results import late_cells
from tests.results.championship import CALL, document, load, wrestle
from tests.results.desk import buttons
from tests.results.young import grouped
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

DESK = "/desk/spring/"
ROLES = ("owner", "director", "committee", "table", "reader")
DIRECTS, RECORDS = ("owner", "director"), ("owner", "director", "table")
SEEDS = ("owner", "director", "committee")
SEEDS = ("owner", "director", "committee")
PAGES = {
    "seeding/": SEEDS,
    "seeding/125/": SEEDS,
    "seeding/125/grid/": SEEDS,
    "seeding/125/violations/": SEEDS,
    "seeding/125/challenges/": SEEDS,
    "seeding/125/minutes/": SEEDS,
    "seeding/125/minutes.pdf": SEEDS,
    "own-teams/": DIRECTS,
    "": ROLES,
    "bouts/": ROLES,
    "bouts/1/": ROLES,
    "bouts/find/?number=1": ROLES,
    "rulings/": ROLES,
    "bouts/1/ruling/": DIRECTS,
    "rulings/places/125/": DIRECTS,
    "rulings/{ruling}/": DIRECTS,
    "points/": ROLES,
    "sheets/": ROLES,
    "sheets/weights/125/": ROLES,
    "bouts/1/kind/?won=7&lost=3": RECORDS,
    "mats/1/": RECORDS,
    "mats/1/undo/": RECORDS,
    "draw/": DIRECTS,
    "draw/commitment/": DIRECTS,
    "rematches/open/": ROLES,
    "draw/mats/": DIRECTS,
    "draw/weights/125/": DIRECTS,
    "withdrawals/": DIRECTS,
    "withdrawals/125-6/": DIRECTS,
    "groups/young/": DIRECTS,
    "groups/young/change/": DIRECTS,
    "groups/young/change/?group=group-1": DIRECTS,
    "points/teams/": DIRECTS,
    "season/": DIRECTS,
    "intake/": DIRECTS,
    "intake/names/": DIRECTS,
    "intake/twice/": DIRECTS,
    "intake/put-in/": SEEDS,
    "seeding/125/ranks/": SEEDS,
    "seeding/125/ballots/": SEEDS,
    "qualifying/": SEEDS,
    "qualifying/take/": DIRECTS,
    "qualifying/weights/125/": SEEDS,
    "qualifying/weights/125/places/": DIRECTS,
    "qualifying/regions/A/": DIRECTS,
    **dict.fromkeys(late_cells.PAGES, DIRECTS),
}


@pytest.fixture
def eight() -> Tournament:
    tournament = load(document(entries=8))
    set_plan(call=CALL, tournament=tournament, numbers=Numbers(4, 0, 0, None))
    set_region(call=CALL, tournament=tournament, letter="A", name="North")
    grouped(tournament)
    bout = numbered_bout(tournament, 4)
    rule(call=CALL, drawn=bout.drawn, wanted=WantedResult(bout.key, 0), reason="x")
    withdraw(call=CALL, entry=Entry.objects.get(key="125-6"), kind="injury")
    return tournament


def at(page: str) -> str:
    """The address of a page."""
    return DESK + page.format(ruling=Ruling.objects.get().pk)


@pytest.mark.parametrize("role", [*ROLES, None])
def test_every_page_opens_to_those_whose_role_it_is(eight: Tournament, role: str | None) -> None:
    client = signed_in(role, eight)
    for page, allowed in PAGES.items():
        status = client.get(at(page), follow=True).status_code
        wanted = 200 if role in allowed else 403 if role else 404
        assert (page, status) == (page, wanted)


def test_who_is_not_signed_in_is_asked_to(eight: Tournament) -> None:
    for page in PAGES:
        answer = Client().get(at(page))
        assert answer.status_code == 302
        assert answer["Location"].startswith("/sign-in/?next=/desk/spring/")


@pytest.mark.parametrize("role", ROLES)
def test_a_page_shows_only_the_buttons_that_the_role_may_press(
    eight: Tournament, role: str
) -> None:
    wrestle(numbered_bout(eight, 1), 0)
    client = signed_in(role, eight)
    writes, directs = role in RECORDS, role in DIRECTS
    assert ("enter" in buttons(client, DESK + "bouts/2/")) == writes
    assert ("look" in buttons(client, DESK + "bouts/1/")) == writes
    assert ("adjust" in buttons(client, DESK + "points/")) == directs
    assert ("official" in buttons(client, DESK + "bouts/")) == directs


SENT = (
    ("seeding/125/", {"do": "move", "entry": "125-1", "to": "2", "reason": "x"}, SEEDS),
    ("seeding/125/", {"do": "adopt"}, SEEDS),
    ("seeding/125/challenges/", {"do": "window", "until": "2040-01-01T10:00"}, SEEDS),
    ("seeding/125/minutes/", {"do": "sign", "name": "x", "digest": "x"}, SEEDS),
    ("own-teams/", {"do": "own-1"}, DIRECTS),
    ("bouts/2/", {"do": "enter", "winner": "0", "won": "5", "lost": "3"}, RECORDS),
    ("bouts/1/", {"do": "undo"}, RECORDS),
    ("bouts/1/", {"do": "state", "state": "confirmed"}, RECORDS),
    ("bouts/1/", {"do": "state", "state": "official"}, DIRECTS),
    ("bouts/", {"do": "official", "seen": "1:1"}, DIRECTS),
    ("mats/2/", {"do": "enter", "bout": "2", "winner": "0", "won": "5", "lost": "3"}, RECORDS),
    ("mats/1/undo/", {"do": "undo", "bout": "1"}, RECORDS),
    ("draw/", {"do": "number"}, DIRECTS),
    ("draw/", {"do": "draw-all"}, DIRECTS),
    ("draw/commitment/", {"do": "commit"}, DIRECTS),
    ("draw/commitment/", {"do": "reveal"}, DIRECTS),
    ("draw/weights/125/", {"do": "take-back"}, DIRECTS),
    ("draw/mats/", {"do": "send", "number": "2", "mat": "1"}, DIRECTS),
    ("points/", {"do": "adjust", "points": "1", "reason": "why"}, DIRECTS),
    ("points/", {"do": "take-back", "adjustment": "1"}, DIRECTS),
    ("points/teams/", {"do": "merge"}, DIRECTS),
    ("withdrawals/?entry=125-3&kind=medical", {"do": "do-it"}, DIRECTS),
    ("withdrawals/125-6/", {"do": "return"}, DIRECTS),
    ("bouts/2/ruling/", {"do": "rule-winner", "winner": "0", "reason": "x"}, DIRECTS),
    ("rulings/places/125/", {"do": "rule-place", "entry": "125-1", "reason": "x"}, DIRECTS),
    ("rulings/{ruling}/", {"do": "take-back"}, DIRECTS),
    ("season/", {"do": "give"}, DIRECTS),
    ("groups/young/", {"do": "measure", "young-1.weight": "60"}, DIRECTS),
    ("groups/young/", {"do": "form"}, DIRECTS),
    (
        "groups/young/change/?group=group-1&entries=young-1&target=group-2",
        {"do": "regroup", "reason": "x"},
        DIRECTS,
    ),
    ("intake/names/", {"do": "apart", "one": "a", "other": "b"}, DIRECTS),
    ("intake/twice/", {"do": "strike", "bout": "1", "reason": "x"}, DIRECTS),
    ("seeding/125/ranks/", {"do": "inputs"}, SEEDS),
    ("seeding/125/ballots/", {"do": "ballot", "voter": "x"}, SEEDS),
    (
        "qualifying/",
        {"do": "plan", "places": "3", "wild_cards": "0", "alternates": "0"},
        DIRECTS,
    ),
    ("qualifying/", {"do": "region", "letter": "C", "name": "x"}, DIRECTS),
    ("qualifying/take/", {"do": "take"}, DIRECTS),
    ("qualifying/weights/125/places/", {"do": "places"}, DIRECTS),
    ("qualifying/weights/125/", {"do": "accept"}, SEEDS),
    *((page, sent, DIRECTS) for page, sent in late_cells.SENT),
)


@pytest.mark.parametrize("role", ["committee", "table", "reader"])
def test_a_button_that_was_not_shown_does_nothing(eight: Tournament, role: str) -> None:
    wrestle(numbered_bout(eight, 1), 0)
    client = signed_in(role, eight)
    eight.log.refresh_from_db()
    seq = eight.log.seq
    for page, sent, allowed in SENT:
        if role not in allowed:
            answer = client.post(at(page), sent, follow=True)
            assert "You may not do this" in answer.content.decode(), page
    eight.log.refresh_from_db()
    assert eight.log.seq == seq


def test_another_tournament_is_not_found(eight: Tournament) -> None:
    client = signed_in("owner", eight)
    assert client.get("/desk/autumn/bouts/").status_code == 404
    assert client.get(DESK + "mats/99/").status_code == 404
    assert client.get(DESK + "bouts/999/").status_code == 404
