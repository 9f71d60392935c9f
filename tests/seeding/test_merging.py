"""Names that are alike, and bouts told twice: proposed with evidence, decided by people."""

from datetime import date

import pytest
from django.test import Client
from django.urls import reverse

from seeding.core.doubles import Double, Likeness, doubles
from seeding.core.identity import bout_identity
from seeding.core.people import Person
from seeding.entries.models import Entry, Tournament, WeightClass, Wrestler
from seeding.journal.models import Act
from seeding.models import NotSame, OtherName, PriorBout
from tests.seeding.entries.desks import enter, owner, signed_in, spring
from tests.seeding.test_season import counts, report, send

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]


@pytest.fixture
def tournament() -> Tournament:
    made = spring()
    enter(made, "125", "Jon Holm", "Tom Reed")
    return made


@pytest.fixture
def client(tournament: Tournament) -> Client:
    return owner(tournament)


def new(tournament: Tournament, name: str, home: str) -> Wrestler:
    given, _, family = name.partition(" ")
    return Wrestler.objects.create(
        organisation=tournament.organisation, given=given, family=family, home=home
    )


def known(name: str) -> Wrestler:
    given, _, family = name.partition(" ")
    return Wrestler.objects.get(given=given, family=family)


def beat(winner: Wrestler, loser: Wrestler, day: int, event: str, score: str = "5-3") -> PriorBout:
    when = date(2026, 1, day)
    return PriorBout.objects.create(
        organisation=winner.organisation,
        identity=bout_identity(when, winner.uid, loser.uid, "125", event),
        date=when,
        weight="125",
        winner=winner,
        loser=loser,
        kind="decision",
        score=[int(points) for points in score.split("-")],
        event=event,
    )


NAMES = reverse("desk-names", args=["spring"])
TWICE = reverse("desk-twice", args=["spring"])


def pair(one: Wrestler, other: Wrestler) -> str:
    return reverse("desk-names-pair", args=["spring", one.uid, other.uid])


def people(*told: tuple[str, str, str]) -> list[Person]:
    return [Person(f"u{at}", *one) for at, one in enumerate(told)]


@pytest.mark.parametrize(
    ("one", "other", "likeness"),
    [
        (("José", "Nuñez", "Alder"), ("Jose", "Nunez", "Birch"), Likeness.SAME),
        (("Ira", "Holm", "Alder"), ("Ira", "Holm", "Birch"), Likeness.SAME),
        (("Holm", "Ira", "Alder"), ("Ira", "Holm", "Birch"), Likeness.SWAPPED),
        (("J.", "Smith", "Alder"), ("John", "Smith", "Alder High"), Likeness.INITIAL),
        (("Jon", "Smith", "Alder"), ("Jonathan", "Smith", ""), Likeness.INITIAL),
        (("Jonathan", "Smith", "Alder"), ("Johnathan", "Smith", "Alder"), Likeness.SPELLING),
        (("Kendrick", "Hathersley", "Alder"), ("Kendrick", "Hathersly", "Alder"), 4),
        (("J.", "Smith", "Alder"), ("John", "Smith", "Birch"), None),
        (("John", "Smith", "Alder"), ("James", "Smith", "Alder"), None),
        (("Kendrick", "Hathersley", "Alder"), ("Kendrick", "Hathersly", "Birch"), None),
    ],
)
def test_names_are_alike_by_these_signs(
    one: tuple[str, str, str], other: tuple[str, str, str], likeness: int | None
) -> None:
    found = doubles(people(one, other))
    assert [double.likeness for double in found] == ([likeness] if likeness else [])
    assert doubles(people(other, one)) == tuple(
        Double(double.likeness, double.apart, "u0", "u1") for double in found
    )


def test_who_is_judged_to_be_two_is_not_proposed_again() -> None:
    alike = people(("Ira", "Holm", "Alder"), ("Ira", "Holm", "Birch"))
    assert doubles(alike)
    assert not doubles(alike, frozenset({frozenset(("u0", "u1"))}))


def test_a_crowd_of_one_name_is_not_compared_all_with_all() -> None:
    crowd = people(*(("Ira", "Holm", f"Team {number}") for number in range(2000)))
    assert len(doubles(crowd)) < 2000 * 50


def test_the_pair_is_shown_with_its_evidence(client: Client, tournament: Tournament) -> None:
    one, other = known("Jon Holm"), new(tournament, "John Holm", "Team Holm")
    beat(one, known("Tom Reed"), 6, "Winter Classic")
    beat(known("Tom Reed"), other, 6, "River Duals")
    text = client.get(NAMES).content.decode()
    assert "spelled almost alike" in text
    assert "On 6 January 2026 they wrestled at different events." in text
    page = client.get(pair(one, other)).content.decode()
    assert "Spring Open, 125" in page
    assert "Jon Holm over Tom Reed" in page
    assert "Tom Reed over John Holm" in page


def test_two_people_are_not_proposed_again(client: Client, tournament: Tournament) -> None:
    one, other = known("Jon Holm"), new(tournament, "John Holm", "Team Holm")
    client.post(NAMES, {"do": "apart", "one": other.uid, "other": one.uid})
    assert "Nothing to decide." in client.get(NAMES).content.decode()
    assert NotSame.objects.count() == 1


def test_one_person_has_the_bouts_and_entries_of_both(
    client: Client, tournament: Tournament
) -> None:
    gone, keep = known("Jon Holm"), new(tournament, "John Holm", "Team Holm")
    reed = known("Tom Reed")
    beat(gone, reed, 6, "Winter Classic")
    beat(keep, reed, 7, "River Duals")
    answer = client.post(pair(gone, keep), {"do": f"keep-{keep.uid}"})
    assert answer.status_code == 302
    assert not Wrestler.objects.filter(pk=gone.pk).exists()
    assert {row.winner_id for row in PriorBout.objects.all()} == {keep.pk}
    assert Entry.objects.get(wrestler=keep).weight_class.label == "125"
    row = PriorBout.objects.get(event="Winter Classic")
    assert row.identity == bout_identity(row.date, keep.uid, reed.uid, "125", "Winter Classic")


def test_files_may_call_him_by_either_name_afterwards(
    client: Client, tournament: Tournament
) -> None:
    heads = "Date,Weight,Winner,Winner team,Loser,Loser team,Result,Event\n"
    row = "2026-01-06,125,John Holm,Team Holm,Tom Reed,Team Reed,Dec 5-3,Winter Classic\n"
    client.post(send(client, heads + row), {"do": "keep"})
    gone, keep = known("John Holm"), known("Jon Holm")
    client.post(pair(gone, keep), {"do": f"keep-{keep.uid}"})
    assert OtherName.objects.get().wrestler == keep
    send(client, heads + row)
    assert (counts(), report()["wrestlers"]) == ([0, 0, 1, 0], [])


def test_one_bout_told_of_both_becomes_one(client: Client, tournament: Tournament) -> None:
    gone, keep = known("Jon Holm"), new(tournament, "John Holm", "Team Holm")
    reed = known("Tom Reed")
    beat(gone, reed, 6, "Winter Classic")
    twin = beat(keep, reed, 6, "Winter Classic")
    PriorBout.objects.filter(winner=gone).update(level="varsity")
    client.post(pair(gone, keep), {"do": f"keep-{keep.uid}"})
    assert PriorBout.objects.get() == twin
    assert PriorBout.objects.get().level == "varsity"
    assert Act.objects.get(verb="wrestlers.merged").subject["folded"] == 1


def test_reports_that_contradict_are_listed_and_nothing_is_merged(
    client: Client, tournament: Tournament
) -> None:
    gone, keep = known("Jon Holm"), new(tournament, "John Holm", "Team Holm")
    reed = known("Tom Reed")
    wrong = beat(gone, reed, 6, "Winter Classic", "7-3")
    beat(keep, reed, 6, "Winter Classic")
    text = client.post(pair(gone, keep), {"do": f"keep-{keep.uid}"}).content.decode()
    assert "one bout is told in two ways" in text
    assert "decision 7-3" in text
    assert Wrestler.objects.filter(pk=gone.pk).exists()
    client.post(TWICE, {"do": "strike", "bout": wrong.pk, "reason": "mistyped"})
    assert client.post(pair(gone, keep), {"do": f"keep-{keep.uid}"}).status_code == 302
    assert PriorBout.objects.get(struck_at=None).score == [5, 3]


def test_who_met_each_other_are_two_people(client: Client, tournament: Tournament) -> None:
    gone, keep = known("Jon Holm"), new(tournament, "John Holm", "Team Holm")
    beat(gone, keep, 6, "Winter Classic")
    text = client.post(pair(gone, keep), {"do": f"keep-{keep.uid}"}).content.decode()
    assert "Jon Holm wrestled each other" in text
    assert Wrestler.objects.filter(pk=gone.pk).exists()


def test_who_are_both_entered_in_a_weight_are_not_merged(
    client: Client, tournament: Tournament
) -> None:
    enter(tournament, "125", "John Holm")
    gone, keep = known("Jon Holm"), known("John Holm")
    text = client.post(pair(gone, keep), {"do": f"keep-{keep.uid}"}).content.decode()
    assert "are both entered at 125 in Spring Open" in text


def test_merging_needs_the_right_to_hold_tournaments(tournament: Tournament) -> None:
    director = signed_in("director", tournament)
    gone, keep = known("Jon Holm"), new(tournament, "John Holm", "Team Holm")
    assert "Two people" in director.get(pair(gone, keep)).content.decode()
    text = director.post(pair(gone, keep), {"do": f"keep-{keep.uid}"}).content.decode()
    assert "You may not do this." in text
    assert director.post(pair(gone, keep), {"do": "apart"}).status_code == 302


def test_another_organisation_s_wrestler_is_not_found(
    client: Client, tournament: Tournament
) -> None:
    away = type(tournament.organisation).objects.create(slug="away", name="Away")
    mine = known("Jon Holm")
    other = Wrestler.objects.create(organisation=away, given="Jon", family="Holm")
    assert client.get(pair(mine, other)).status_code == 404


def test_the_same_two_twice_on_a_day_are_looked_at(client: Client, tournament: Tournament) -> None:
    one, other = known("Jon Holm"), known("Tom Reed")
    first, second = beat(one, other, 6, "Winter Classic"), beat(other, one, 6, "Wintr Classic")
    beat(one, other, 7, "River Duals")
    text = client.get(TWICE).content.decode()
    assert "The reports differ in who won, the event." in text
    answer = client.post(TWICE, {"do": "strike", "bout": second.pk, "reason": " "})
    assert "This field is required" in answer.content.decode()
    client.post(TWICE, {"do": "strike", "bout": second.pk, "reason": "The event is misspelled"})
    text = client.get(TWICE).content.decode()
    assert "Nothing to look at." in text
    assert "The event is misspelled" in text
    client.post(TWICE, {"do": "back", "bout": second.pk})
    assert "The reports differ" in client.get(TWICE).content.decode()
    client.post(TWICE, {"do": "both", "one": second.pk, "other": first.pk})
    assert "Nothing to look at." in client.get(TWICE).content.decode()


def test_a_struck_bout_is_no_evidence_and_a_file_does_not_bring_it_back(
    client: Client, tournament: Tournament
) -> None:
    heads = "Date,Weight,Winner,Loser,Result,Event\n"
    row = "2026-01-06,125,Jon Holm,Tom Reed,Dec 5-3,Winter Classic\n"
    client.post(send(client, heads + row), {"do": "keep"})
    bout = PriorBout.objects.get()
    client.post(TWICE, {"do": "strike", "bout": bout.pk, "reason": "never wrestled"})
    room = reverse("desk-seeding", args=["spring", WeightClass.objects.get(key="125").key])
    assert "Winter Classic" not in client.get(room).content.decode()
    send(client, heads + row)
    assert counts() == [0, 0, 1, 0]
    bout.refresh_from_db()
    assert bout.struck_reason == "never wrestled"
