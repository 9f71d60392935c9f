"""From two regions to a state meet: places taken in, wild cards, alternates, lines by region."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from django.db.models import Q

from brackets.core.errors import AlreadyDrawn
from brackets.models import Bout, Placing
from brackets.queries import drawn, line_up, numbered
from brackets.services import number_bouts
from results.queries.qualifying import look
from results.serializers.document import check_document, dump
from results.services import draw_weight, load_tournament
from results.services.qualifying import take_places
from seeding.core.errors import (
    NobodyStandsBy,
    NoPlan,
    NoSpot,
    NotSteppedIn,
    PlaceHeld,
    SeedsVoid,
    StillQualified,
    TooLate,
)
from seeding.core.qualifying import Spot
from seeding.entries.core.errors import Locked, StandsBy
from seeding.entries.models import Entry, Role, Tournament, WeightClass
from seeding.entries.services import (
    add_entry,
    add_team,
    found_organisation,
    restore_entry,
    scratch_entry,
)
from seeding.entries.services.entry import Person
from seeding.journal.core.errors import Invalid, NotAllowed, Stale
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.models import Berth, SeedOrder
from seeding.queries.qualifying import candidates, field_of, spots
from seeding.services import adopt_order
from seeding.services.alternates import step_back, step_in
from seeding.services.qualifying import (
    Numbers,
    accept_candidates,
    needed_plan,
    remove_region,
    set_places,
    set_plan,
    set_region,
)
from tests.results.championship import CALL, NOW, document, load, wrestle
from tests.results.interface import user

pytestmark = pytest.mark.django_db
BOOK = "high-school-2025"
UNTIL = NOW + timedelta(hours=2)


def region(slug: str, name: str) -> Tournament:
    """Eight wrestlers of a region, wrestled to the end; the better seed always wins."""
    file = document(entries=8, rulebook=BOOK, settings={})
    file["tournament"] |= {"slug": slug, "name": f"{name} Region", "starts_on": "2026-03-05"}
    for team in file["teams"]:
        team["name"] = f"{name} {team['name']}"
    for entry in file["entries"]:
        entry["family"] = f"{name}{entry['seed']}"
    tournament = load(file)
    finish(tournament)
    return tournament


def finish(tournament: Tournament) -> None:
    while bout := numbered(tournament).filter(status=Bout.Status.READY).first():
        sides = [bout.top, bout.bottom]
        seeds = [side.seed or 99 for side in sides if side]
        wrestle(bout, seeds.index(min(seeds)))


def state(**settings: Any) -> Tournament:
    """The next level, without entries."""
    file = document(entries=0, rulebook=BOOK, settings=settings)
    file["tournament"] |= {"slug": "state", "name": "State Championships"}
    return load(file)


@pytest.fixture
def meet() -> Tournament:
    """The next level with two wrestled regions: four of each advance, two wild cards."""
    north, south = region("north", "North"), region("south", "South")
    tournament = state(**{"seeding.fill": "regions"})
    plan(tournament)
    for letter, source in (("A", north), ("B", south)):
        set_region(call=CALL, tournament=tournament, letter=letter, name=source.name, source=source)
    return tournament


def plan(tournament: Tournament, **numbers: Any) -> None:
    given = {"places": 4, "wild_cards": 0, "alternates": 2, "alternates_until": UNTIL, **numbers}
    set_plan(call=CALL, tournament=tournament, numbers=Numbers(**given))


def weight(tournament: Tournament) -> WeightClass:
    return WeightClass.objects.select_related("division", "tournament").get(tournament=tournament)


def by_spot(tournament: Tournament, text: str) -> Entry:
    return Entry.objects.select_related("wrestler", "weight_class", "tournament").get(
        tournament=tournament,
        pk=Berth.objects.get(
            entry__tournament=tournament, region__letter=text[0], place=int(text[1:])
        ).entry_id,
    )


def names(tournament: Tournament, **status: str) -> list[str]:
    rows = Entry.objects.filter(tournament=tournament, **status)
    return sorted(rows.values_list("wrestler__family", flat=True))


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


def ready(meet: Tournament, **numbers: Any) -> tuple[WeightClass, Entry, Entry]:
    """Taken in and accepted; the weight, a scratched qualifier, and the first alternate."""
    plan(meet, **numbers)
    take_places(call=CALL, tournament=meet)
    at = weight(meet)
    accept_candidates(call=CALL, weight=at)
    gone = by_spot(meet, "A2")
    scratch_entry(call=CALL, entry=gone)
    first = field_of(at).first
    assert first
    return at, gone, first.entry


def test_after_the_stated_time_nobody_steps_in(meet: Tournament) -> None:
    _at, gone, first = ready(meet)
    late = replace(CALL, now=UNTIL + timedelta(seconds=1))
    with pytest.raises(TooLate, match=r"until 2026-03-19 12:00 \(America/Chicago\)"):
        step_in(call=late, entry=gone, alternate=first)
    step_in(call=replace(CALL, now=UNTIL), entry=gone, alternate=first)
    told = Act.objects.order_by("-pk")[0]
    assert told.verb == "alternate.stepped-in"
    assert told.subject == {"entry": first.pk, "for": gone.pk}


def test_who_steps_in_for_whom_is_refused_by_name(meet: Tournament) -> None:
    at, gone, first = ready(meet)
    with pytest.raises(PlaceHeld, match="he is not scratched"):
        step_in(call=CALL, entry=by_spot(meet, "A1"), alternate=first)
    second = Berth.objects.get(entry__weight_class=at, how="alternate", order=2).entry
    with pytest.raises(Stale):
        step_in(call=CALL, entry=gone, alternate=second)
    step_in(call=CALL, entry=gone, alternate=first)
    with pytest.raises(PlaceHeld, match="stepped in already"):
        step_in(call=CALL, entry=gone, alternate=second)
    with pytest.raises(PlaceHeld, match="take that back first"):
        restore_entry(call=CALL, entry=Entry.objects.get(pk=gone.pk))
    assert Entry.objects.get(pk=gone.pk).status == "scratched"


def test_an_alternate_who_is_scratched_too_is_replaced_by_the_next(meet: Tournament) -> None:
    at, gone, first = ready(meet)
    step_in(call=CALL, entry=gone, alternate=first)
    scratch_entry(call=CALL, entry=Entry.objects.get(pk=first.pk))
    second = field_of(at).first
    assert second
    step_in(call=CALL, entry=Entry.objects.get(pk=first.pk), alternate=second.entry)
    assert spots(at)[second.entry.key] == Spot("A", 2)
    other = by_spot(meet, "B1")
    scratch_entry(call=CALL, entry=other)
    with pytest.raises(NobodyStandsBy):
        step_in(call=CALL, entry=other, alternate=second.entry)


def test_an_alternate_goes_back_and_stands_by_again(meet: Tournament) -> None:
    at, gone, first = ready(meet)
    with pytest.raises(NotSteppedIn):
        step_back(call=CALL, entry=first)
    step_in(call=CALL, entry=gone, alternate=first)
    step_back(call=CALL, entry=first)
    assert Entry.objects.get(pk=first.pk).status == "standby"
    assert field_of(at).first.entry_id == first.pk  # type: ignore[union-attr]
    restore_entry(call=CALL, entry=Entry.objects.get(pk=gone.pk))
    assert spots(at)[gone.key] == Spot("A", 2)


def test_who_stands_by_is_not_restored_and_who_was_scratched_stands_by_again(
    meet: Tournament,
) -> None:
    _at, _gone, first = ready(meet)
    with pytest.raises(StandsBy):
        restore_entry(call=CALL, entry=first)
    scratch_entry(call=CALL, entry=first)
    restore_entry(call=CALL, entry=Entry.objects.get(pk=first.pk))
    assert Entry.objects.get(pk=first.pk).status == "standby"


def test_a_scratched_wild_card_whom_an_alternate_replaced_keeps_his_number(
    meet: Tournament,
) -> None:
    plan(meet, wild_cards=1, alternates=3)
    take_places(call=CALL, tournament=meet)
    at = weight(meet)
    accept_candidates(call=CALL, weight=at)
    card = Berth.objects.get(entry__weight_class=at, how="wild card").entry
    scratch_entry(call=CALL, entry=card)
    first = field_of(at).first
    assert first
    step_in(call=CALL, entry=card, alternate=first.entry)
    accept_candidates(call=CALL, weight=at)
    assert candidates(at, needed_plan(meet)).choice.wild_cards == ()
    assert spots(at)[first.entry.key] == Spot("", 1)


def test_a_scratched_wild_card_makes_room_for_the_next_when_the_order_is_accepted_anew(
    meet: Tournament,
) -> None:
    plan(meet, wild_cards=1)
    take_places(call=CALL, tournament=meet)
    at = weight(meet)
    accept_candidates(call=CALL, weight=at)
    card = Berth.objects.get(entry__weight_class=at, how="wild card").entry
    scratch_entry(call=CALL, entry=card)
    accept_candidates(call=CALL, weight=at)
    new = Berth.objects.get(entry__weight_class=at, how="wild card")
    assert new.entry_id != card.pk
    assert field_of(at).vacancies == ()


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


# What a scratch does to the seeds


def seeded(policy: str) -> tuple[Tournament, WeightClass]:
    file = document(entries=8, rulebook=BOOK, settings={"seeding.scratched": policy})
    file["brackets"] = []
    tournament = load(file)
    return tournament, weight(tournament)


def seeds(at: WeightClass) -> dict[str, int]:
    rows = Entry.objects.filter(weight_class=at, status="entered").exclude(seed=None)
    return {row.key: row.seed or 0 for row in rows}


def scratch(tournament: Tournament, key: str) -> None:
    scratch_entry(call=CALL, entry=tournament.entries.get(key=key))


def test_who_is_seeded_below_moves_up() -> None:
    tournament, at = seeded("move-up")
    scratch(tournament, "125-3")
    assert list(seeds(at).values()) == [1, 2, 3, 4, 5, 6, 7]
    assert seeds(at)["125-4"] == 3
    draw_weight(call=CALL, weight=at)
    assert line_up(drawn(at).lines)[:2] == ("125-1", None)


def test_a_hole_stays_empty_and_is_a_bye() -> None:
    tournament, at = seeded("hole")
    scratch(tournament, "125-3")
    assert seeds(at)["125-4"] == 4
    draw_weight(call=CALL, weight=at)
    lines = line_up(drawn(at).lines)
    assert lines[:2] == ("125-1", "125-8")
    assert lines[lines.index("125-6") ^ 1] is None


def test_a_hole_is_closed_again_when_he_is_restored() -> None:
    tournament, at = seeded("hole")
    scratch(tournament, "125-3")
    restore_entry(call=CALL, entry=tournament.entries.get(key="125-3"))
    assert seeds(at)["125-3"] == 3


def test_after_a_scratch_the_order_is_adopted_anew() -> None:
    tournament, at = seeded("redraw")
    adopt_order(call=CALL, weight=at)
    first = Entry.objects.get(weight_class=at, seed=1)
    scratch(tournament, first.key)
    assert seeds(at) == {}
    assert SeedOrder.objects.get(weight_class=at).adopted_at is None
    with pytest.raises(SeedsVoid, match="Adopt it in the seeding room"):
        draw_weight(call=CALL, weight=at)
    adopt_order(call=CALL, weight=at)
    draw_weight(call=CALL, weight=at)
    with pytest.raises((AlreadyDrawn, Locked)):
        draw_weight(call=CALL, weight=at)


def test_a_scratch_of_nobody_seeded_changes_no_seed() -> None:
    tournament, at = seeded("redraw")
    Entry.objects.filter(Q(key="125-8") | Q(key="125-7"), tournament=tournament).update(seed=None)
    scratch(tournament, "125-8")
    assert len(seeds(at)) == 6
