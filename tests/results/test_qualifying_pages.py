"""Qualifying at the desk, as its buttons do it."""

from datetime import UTC, datetime

import pytest
from django.test import Client
from django.utils import timezone

from brackets.queries import find_drawn
from seeding.entries.models import Entry, Tournament
from seeding.entries.services import scratch_entry
from seeding.models import Berth, QualifyingPlan, Region
from tests.results.championship import CALL
from tests.results.desk import buttons, form, press, text
from tests.results.regions import by_spot, names, plan, region, state, two_regions, weight
from tests.seeding.entries.desks import owner

pytestmark = pytest.mark.django_db
DESK = "/desk/state/qualifying/"
FIELD = f"{DESK}weights/125/"


@pytest.fixture
def meet() -> Tournament:
    tournament = two_regions()
    plan(tournament, wild_cards=1, alternates=2, alternates_until=None)
    return tournament


@pytest.fixture
def desk(meet: Tournament) -> Client:
    return owner(meet)


def test_a_plan_and_a_region_are_made_at_the_desk() -> None:
    north, tournament = region("north", "North"), state()
    client = owner(tournament)
    assert "Nobody has said yet" in text(client.get(DESK))
    page = press(
        client, DESK, "plan", places="3", wild_cards="1", alternates="2",
        alternates_until="2026-03-19T09:30",
    )  # fmt: skip
    assert "The plan is kept." in text(page)
    assert QualifyingPlan.objects.get().alternates_until == datetime(
        2026, 3, 19, 14, 30, tzinfo=UTC
    )
    assert "until 2026-03-19 09:30" in text(page)
    assert north.name not in text(page)  # no role there
    page = press(client, DESK, "region", letter="a", name="North", source="")
    assert Region.objects.get().letter == "A"
    page = press(client, f"{DESK}regions/A/", "region", letter="N", name="Far North")
    assert "Far North" in text(page)
    assert "Region N, Far North" in text(client.get(f"{DESK}regions/N/"))
    press(client, DESK, "remove-N")
    assert not Region.objects.exists()


def test_a_letter_that_is_taken_is_refused_beside_the_form(desk: Client) -> None:
    page = press(desk, DESK, "region", letter="A", name="Other", source="")
    assert "There is already a region “A”" in text(page)
    page = press(desk, DESK, "region", letter="7", name="Other", source="")
    assert "Choose one or two letters from A to Z." in text(page)


def test_the_places_are_looked_at_and_taken_in(meet: Tournament, desk: Client) -> None:
    page = text(desk.get(f"{DESK}take/"))
    assert "Take in 16 wrestlers" in page
    assert "candidate, stands by" in page
    assert not Entry.objects.filter(tournament=meet).exists()
    page = text(press(desk, f"{DESK}take/", "take"))
    assert "The places are taken in." in page
    assert len(names(meet, status="entered")) == 8
    assert "Nothing to take in." in text(desk.get(f"{DESK}take/"))


def test_who_did_not_advance_stands_there_with_reasons_and_is_accepted(
    meet: Tournament, desk: Client
) -> None:
    press(desk, f"{DESK}take/", "take")
    page = text(desk.get(FIELD))
    assert "Accept: 1 wild card, 2 alternates" in page
    assert page.count('class="why between"') == 7
    page = text(press(desk, FIELD, "accept"))
    assert "✓ Accepted." in page
    assert len(names(meet, status="entered")) == 9
    assert "wild card 1" in page
    assert "alternate 2" in page
    plan(meet, wild_cards=2, alternates=2, alternates_until=None)
    assert "Nobody comes in or waits by it until it is accepted." in text(desk.get(FIELD))


def test_the_first_alternate_is_offered_and_steps_in(meet: Tournament, desk: Client) -> None:
    press(desk, f"{DESK}take/", "take")
    press(desk, FIELD, "accept")
    gone = by_spot(meet, "B2")
    scratch_entry(call=CALL, entry=gone)
    first = Berth.objects.get(how="alternate", order=1).entry
    page = text(desk.get(FIELD))
    assert f"Alternate 1, {first.wrestler.name}, would take the line." in page
    page = text(press(desk, FIELD, f"step-{gone.key}"))
    assert "The alternate is in the field." in page
    assert f"for {gone.wrestler.name}, on the line of B2" in page
    page = text(press(desk, FIELD, f"back-{first.key}"))
    assert "The alternate stands by again." in page
    plan(meet, wild_cards=1, alternates=2, alternates_until=timezone.now())
    page = text(press(desk, FIELD, f"step-{gone.key}"))
    assert "Alternates stepped in until" in page
    assert f"step-{gone.key}" in buttons(desk, FIELD)


def test_places_are_put_in_by_hand(meet: Tournament, desk: Client) -> None:
    press(desk, f"{DESK}take/", "take")
    row = by_spot(meet, "A5")
    page = press(desk, f"{FIELD}places/", "places", **{f"place-{row.key}": ""})
    assert "Name both region and place, or neither." in text(page)


def test_who_stands_by_is_marked_among_the_entries_and_not_public(
    meet: Tournament, desk: Client
) -> None:
    press(desk, f"{DESK}take/", "take")
    Tournament.objects.filter(pk=meet.pk).update(shows_entries=True)
    page = text(desk.get("/desk/state/entries/125/"))
    assert page.count("stands by") == 8
    public = text(Client().get("/t/state/weights/125/"))
    assert "North1" in public
    assert "North8" not in public
    entry = text(desk.get(f"/desk/state/entry/{by_spot(meet, 'A8').key}/"))
    assert "passed over when a place becomes free" in entry


def test_a_drawn_weight_offers_nothing_any_more(meet: Tournament, desk: Client) -> None:
    plan(meet, wild_cards=0, alternates=2, alternates_until=None)
    press(desk, f"{DESK}take/", "take")
    press(desk, FIELD, "accept")
    scratch_entry(call=CALL, entry=by_spot(meet, "A4"))
    press(desk, "/desk/state/draw/", "draw-all")
    assert find_drawn(weight(meet))
    page = text(desk.get(FIELD))
    assert "The line is a bye." in page
    pressed = buttons(desk, FIELD)
    assert not [name for name in pressed if name.startswith(("step", "back", "accept"))]


def test_who_takes_in_too_late_sees_what_it_would_do_now(meet: Tournament, desk: Client) -> None:
    page = f"{DESK}take/"
    old = form(text(desk.get(page)), "take")
    plan(meet, places=3, wild_cards=1, alternates=2, alternates_until=None)
    answer = text(desk.post(page, {**old, "do": "take"}))
    assert "What the regions" in answer
    desk.post(page, {**form(answer, "take"), "do": "take"})
    assert Entry.objects.filter(tournament=meet).exists()
