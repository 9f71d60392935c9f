"""From two regions to a state meet: places taken in, wild cards, lines by region and place."""

import pytest

from brackets.models import Bout, Placing
from brackets.queries import drawn, line_up, numbered
from brackets.services import number_bouts
from results.queries.qualifying import look
from results.serializers.document import check_document, dump
from results.services import draw_weight, give_back, load_tournament
from results.services.qualifying import take_places
from seeding.core.errors import (
    NoPlan,
    NoSpot,
    StillQualified,
)
from seeding.core.qualifying import Spot
from seeding.entries.core.errors import Locked
from seeding.entries.models import Entry, Role, Tournament
from seeding.entries.services import (
    add_entry,
    add_team,
    found_organisation,
    scratch_entry,
)
from seeding.entries.services.entry import Person
from seeding.journal.core.errors import Invalid, NotAllowed, Stale
from seeding.journal.services import Call
from seeding.models import Berth
from seeding.queries.qualifying import candidates, field_of, spots
from seeding.services.alternates import step_in
from seeding.services.qualifying import (
    accept_candidates,
    needed_plan,
    remove_region,
    set_places,
    set_region,
)
from tests.results.championship import CALL, NOW, document, load, wrestle
from tests.results.interface import user
from tests.results.regions import (
    BOOK,
    by_spot,
    finish,
    names,
    plan,
    ready,
    region,
    state,
    two_regions,
    weight,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def meet() -> Tournament:
    return two_regions()


def test_two_regions_a_wild_card_a_scratch_an_alternate_and_the_draw(meet: Tournament) -> None:
    plan(meet, wild_cards=0)
    seen = look(meet)
    assert seen.found.missing == ()
    assert seen.found.doubts == ()
    take_places(call=CALL, tournament=meet, mark=seen.mark)
    assert names(meet, status="entered") == [
        "North1", "North2", "North3", "North4", "South1", "South2", "South3", "South4",
    ]  # fmt: skip
    assert names(meet, status="standby") == [
        "North5", "North6", "North7", "North8", "South5", "South6", "South7", "South8",
    ]  # fmt: skip
    at = weight(meet)
    accept_candidates(call=CALL, weight=at, mark=candidates(at, needed_plan(meet)).mark)
    waiting = Berth.objects.filter(entry__weight_class=at, how="alternate").order_by("order")
    assert [row.order for row in waiting] == [1, 2]
    gone = by_spot(meet, "B4")
    scratch_entry(call=CALL, entry=gone)
    field = field_of(at)
    assert [str(one.spot) for one in field.vacancies] == ["B4"]
    assert field.first
    step_in(call=CALL, entry=gone, alternate=field.first.entry)
    assert spots(at)[field.first.entry.key] == Spot("B", 4)
    draw_weight(call=CALL, weight=at)
    lines = line_up(drawn(at).lines)
    told = {row.key: row.wrestler.family for row in Entry.objects.filter(weight_class=at)}
    assert [told[str(line)] for line in lines] == [
        "North1", field.first.entry.wrestler.family, "South2", "North3",
        "South1", "North4", "North2", "South3",
    ]  # fmt: skip
    assert names(meet) != names(meet, status="entered")


SIXTEEN = [
    *("A1", "*1", "D1", "B4", "B2", "D2", "D3", "A3"),
    *("B1", "D4", "D5", "A4", "A2", "D6", "D7", "B3"),
]


def test_the_regions_bouts_choose_the_wild_card_and_he_has_his_line() -> None:
    tournament = state(**{"seeding.fill": "regions", "seeding.region_lines.16": SIXTEEN})
    plan(tournament, wild_cards=1)
    for letter, name in (("A", "North"), ("B", "South")):
        source = region(name.lower(), name)
        give_back(call=CALL, tournament=source)
        arguments = {"letter": letter, "name": name, "source": source}
        set_region(call=CALL, tournament=tournament, **arguments)
    take_places(call=CALL, tournament=tournament)
    at = weight(tournament)
    found = candidates(at, needed_plan(tournament))
    told = [found.berths[uid].entry.wrestler.family for uid in found.order]
    assert {told[0], told[1]} == {"North5", "South5"}
    # The lot says who of those behind is third, and with him which criterion of bouts decides.
    by_bouts = {"win percentage", "head-to-head", "common opponent"}
    assert found.reasons()[1].criterion in by_bouts
    accept_candidates(call=CALL, weight=at, mark=found.mark)
    draw_weight(call=CALL, weight=at)
    lines = line_up(drawn(at).lines)
    assert lines[:2] == (by_spot(tournament, "A1").key, found.berths[found.order[0]].entry.key)
    assert sum(line is None for line in lines) == 7


def test_taken_in_twice_nothing_is_added(meet: Tournament) -> None:
    take_places(call=CALL, tournament=meet)
    before = list(Entry.objects.filter(tournament=meet).order_by("pk").values())
    take_places(call=CALL, tournament=meet)
    assert list(Entry.objects.filter(tournament=meet).order_by("pk").values()) == before
    assert look(meet).found.known == 16


def test_the_same_person_and_his_privacy_come_along(meet: Tournament) -> None:
    Entry.objects.filter(tournament__slug="north", key="125-1").update(publish="initials")
    take_places(call=CALL, tournament=meet)
    here = by_spot(meet, "A1")
    there = Entry.objects.get(tournament__slug="north", key="125-1")
    assert here.wrestler_id == there.wrestler_id
    assert here.publish == "initials"
    assert here.qualifying_place == 1
    assert here.team.name == "North Team 1"


def test_what_was_looked_at_is_taken_or_nothing(meet: Tournament) -> None:
    mark = look(meet).mark
    plan(meet, places=3)
    with pytest.raises(Stale):
        take_places(call=CALL, tournament=meet, mark=mark)
    assert not Entry.objects.filter(tournament=meet).exists()


def test_a_region_that_is_not_over_is_missing_and_comes_later() -> None:
    file = document(entries=8, rulebook=BOOK, settings={})
    north = load(file | {"tournament": {**file["tournament"], "slug": "north"}})
    tournament = state()
    plan(tournament)
    set_region(call=CALL, tournament=tournament, letter="A", name="North", source=north)
    assert [str(one) for one in look(tournament).found.missing] == [
        "125: nobody has placed as A1, A2, A3, A4 yet"
    ]
    finish(north)
    take_places(call=CALL, tournament=tournament)
    assert len(names(tournament, status="entered")) == 4


def test_without_a_plan_nothing_is_taken() -> None:
    with pytest.raises(NoPlan):
        take_places(call=CALL, tournament=state())


def test_a_source_is_of_the_organisation_and_readable() -> None:
    tournament = state()
    plan(tournament)
    away = found_organisation(slug="away", name="Away")
    file = document(entries=2)
    file["tournament"] |= {"slug": "far"}
    load_tournament(call=CALL, organisation=away, document=file)
    far = Tournament.objects.get(slug="far")
    arguments = {"tournament": tournament, "letter": "A", "name": "Far"}
    with pytest.raises(Invalid, match="same organisation"):
        set_region(call=CALL, source=far, **arguments)
    Tournament.objects.filter(pk=far.pk).update(organisation=tournament.organisation)
    person = user("director")
    Role.objects.create(tournament=tournament, user=person, name="director")
    with pytest.raises(NotAllowed):
        set_region(
            call=Call(person.pk, NOW), source=Tournament.objects.get(slug="far"), **arguments
        )
    with pytest.raises(Invalid, match="letters from A to Z"):
        set_region(call=CALL, tournament=tournament, letter="1", name="x")


def test_wild_cards_come_in_by_the_list_and_the_rest_waits_in_its_order(meet: Tournament) -> None:
    plan(meet, wild_cards=2, alternates=1)
    take_places(call=CALL, tournament=meet)
    at = weight(meet)
    found = candidates(at, needed_plan(meet))
    assert len(found.order) == 8
    assert not found.accepted
    assert len(found.reasons()) == 7
    accept_candidates(call=CALL, weight=at, mark=found.mark)
    assert candidates(at, needed_plan(meet)).accepted
    assert len(names(meet, status="entered")) == 10
    cards = Berth.objects.filter(entry__weight_class=at, how="wild card").order_by("order")
    assert [row.entry.wrestler.uid for row in cards] == list(found.choice.wild_cards)
    plan(meet, wild_cards=1)
    accept_candidates(call=CALL, weight=at)
    assert len(names(meet, status="entered")) == 9


def test_who_came_without_a_place_has_no_line(meet: Tournament) -> None:
    take_places(call=CALL, tournament=meet)
    at = weight(meet)
    team = meet.teams.first()
    assert team
    add_entry(call=CALL, weight=at, team=team, person=Person("Ira", "Holm"))
    with pytest.raises(NoSpot, match="Ira Holm of 125"):
        draw_weight(call=CALL, weight=at)
    assert [row.wrestler.family for row in field_of(at).without] == ["Holm"]


def test_places_by_hand(meet: Tournament) -> None:
    at = weight(meet)
    add_team(call=CALL, tournament=meet, name="Alder", short="ALD")
    team = meet.teams.get(name="Alder")
    for family in ("Elm", "Fir", "Gum"):
        add_entry(call=CALL, weight=at, team=team, person=Person("", family))
    rows = {row.wrestler.family: row for row in Entry.objects.filter(weight_class=at)}
    places = {rows["Elm"].pk: Spot("A", 1), rows["Fir"].pk: Spot("B", 5)}
    set_places(call=CALL, weight=at, places=places)
    assert names(meet, status="standby") == ["Fir"]
    assert spots(at) == {rows["Elm"].key: Spot("A", 1)}
    set_places(call=CALL, weight=at, places={rows["Fir"].pk: None})
    assert names(meet, status="standby") == []
    with pytest.raises(StillQualified):
        remove_region(call=CALL, tournament=meet, letter="A")
    remove_region(call=CALL, tournament=meet, letter="B")


def test_a_gap_in_the_field_is_a_bye(meet: Tournament) -> None:
    take_places(call=CALL, tournament=meet)
    at = weight(meet)
    for text in ("A1", "B4"):
        scratch_entry(call=CALL, entry=by_spot(meet, text))
    draw_weight(call=CALL, weight=at)
    assert line_up(drawn(at).lines)[:2] == (None, None)
    with pytest.raises(Locked):
        accept_candidates(call=CALL, weight=at)
    number_bouts(call=CALL, tournament=meet)
    while bout := numbered(meet).filter(status=Bout.Status.READY).first():
        wrestle(bout, 0)
    placed = Placing.objects.filter(drawn=drawn(at)).order_by("place")
    assert list(placed.values_list("place", flat=True)) == [1, 2, 3, 4, 5]


def test_a_field_of_five_wrestles_a_round_robin(meet: Tournament) -> None:
    take_places(call=CALL, tournament=meet)
    at = weight(meet)
    for text in ("A1", "B4", "A3"):
        scratch_entry(call=CALL, entry=by_spot(meet, text))
    draw_weight(call=CALL, weight=at)
    told = {row.key: row.wrestler.family for row in Entry.objects.filter(weight_class=at)}
    assert [told[str(line)] for line in line_up(drawn(at).lines)] == [
        "South2", "South1", "North4", "North2", "South3",
    ]  # fmt: skip


def test_a_correction_at_the_region_moves_who_is_here(meet: Tournament) -> None:
    take_places(call=CALL, tournament=meet)
    one, two = by_spot(meet, "A4"), by_spot(meet, "A5")
    Placing.objects.filter(entry__wrestler=one.wrestler).update(place=5)
    Placing.objects.filter(entry__wrestler=two.wrestler).update(place=4)
    take_places(call=CALL, tournament=meet)
    assert by_spot(meet, "A4") == two
    assert Entry.objects.get(pk=two.pk).status == "entered"
    assert Entry.objects.get(pk=one.pk).status == "standby"


def test_the_file_brings_plan_regions_and_berths_back(meet: Tournament) -> None:
    at, gone, first = ready(meet, wild_cards=1)
    step_in(call=CALL, entry=gone, alternate=first)
    file = dump(meet)
    check_document(file)
    file["tournament"]["slug"] = "again"
    load_tournament(call=CALL, organisation=meet.organisation, document=file)
    again = Tournament.objects.get(slug="again")
    twin = dump(again)
    assert twin["qualifying"] == file["qualifying"]
    assert twin["entries"] == file["entries"]
    assert {key: str(one) for key, one in spots(weight(again)).items()} == {
        key: str(one) for key, one in spots(at).items()
    }
    assert len(file["qualifying"]["berths"]) == 16
