"""What no bout tells: ranks, earlier places and ballots, by form and by file."""

from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from seeding.core.put_in import Voted
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.services import add_division, add_weight_set
from seeding.journal.core.errors import Invalid
from seeding.journal.models import Act
from seeding.models import Ballot, Noted
from seeding.queries import rules_of, season_of
from seeding.services.lists import use_list
from seeding.services.put_in import set_ballot
from tests.seeding.entries.desks import CALL, enter, signed_in, spring

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]

HEADS = "Weight,Wrestler,Team,Table,Kind,Value,At weight\n"
RANKS = HEADS + (
    "125,Ira Holm,Team Holm,coaches,rank,1,\n"
    '125,"Reed, Tom",Ree,Coaches,rank,2,\n'
    "125,Tom Reed,,qualifying event,place,3,\n"
    "125,Sam Quill,,qualifying event,took part,,\n"
    "125,Sam Quill,,qualifying event,place,2,133\n"
)
BALLOTS = """Weight,Voter,Voter's team,Wrestler,Team,Rank
125,Coach Ash,Team Holm,Tom Reed,,1
125,Coach Ash,Team Holm,Sam Quill,,2
125,Coach Elm,,Ira Holm,,1
125,Coach Elm,,Sam Quill,,2
125,Coach Elm,,Tom Reed,,3
"""


@pytest.fixture
def tournament() -> Tournament:
    made = spring()
    enter(made, "125", "Ira Holm", "Tom Reed", "Sam Quill")
    return made


@pytest.fixture
def client(tournament: Tournament) -> Client:
    return signed_in("committee", tournament)


def send(client: Client, text: str) -> Any:
    """Upload a file; the page of what it would do."""
    file = SimpleUploadedFile("ranks.csv", text.encode())
    answer = client.post(reverse("desk-put-in", args=["spring"]), {"file": file})
    assert answer.status_code == 302, answer.content.decode()
    return answer.headers["Location"]


def at(name: str) -> str:
    return reverse(name, args=["spring", "125"])


def key(family: str) -> str:
    return Entry.objects.get(wrestler__family=family).key


def season() -> Any:
    weight = WeightClass.objects.select_related("tournament", "division").get(key="125")
    entries = list(Entry.objects.select_related("wrestler", "weight_class").order_by("pk"))
    names = {row.wrestler.uid: row.wrestler.family for row in entries}
    return season_of(weight, entries, rules_of(weight.division)), names


def rankings() -> dict[str, int]:
    found, names = season()
    return {names[uid]: rank for uid, rank in found.rankings["coaches"].items()}


def placings() -> set[tuple[str, int, str]]:
    found, names = season()
    return {(names[one.wrestler], one.place, one.weight) for one in found.placings}


def test_a_file_is_looked_at_then_taken_in_and_twice_changes_nothing(client: Client) -> None:
    page = send(client, RANKS)
    text = client.get(page).content.decode()
    assert "5 changes" in text
    assert "qualifying event, at 133" in text
    assert not Noted.objects.exists()
    client.post(page, {"do": "commit"})
    assert rankings() == {"Holm": 1, "Reed": 2}
    assert placings() == {("Reed", 3, "125"), ("Quill", 0, "125"), ("Quill", 2, "133")}
    assert "All of this file is put in already." in client.get(send(client, RANKS)).content.decode()
    client.post(send(client, RANKS), {"do": "commit"})
    assert Act.objects.latest("pk").subject == {"weights": [], "entry": [], "ballot": []}


def test_every_problem_is_listed_by_row_and_column_and_nothing_is_done(client: Client) -> None:
    page = send(
        client,
        HEADS + "125,Ira Holm,,coaches,rank,1,\n"
        "130,Ira Holm,,coaches,rank,1,\n"
        "125,Ira Hollm,,coaches,rank,1,\n"
        "125,Ira Holm,Team Reed,coaches,rank,1,\n"
        "125,Ira Holm,,state,rank,1,\n"
        "125,Ira Holm,,coaches,place,1,\n"
        "125,Ira Holm,,coaches,rank,0,\n"
        "125,Ira Holm,,coaches,rank,2,\n"
        "125,Tom Reed,,coaches,rank,,\n",
    )
    text = client.get(page).content.decode()
    for told in (
        "row 3, column Weight",
        "“130” is no weight of this tournament",
        "“Ira Hollm” is not entered at 125; is Ira Holm meant?",
        "Ira Holm is entered at 125 for Team Holm, not for “Team Reed”",
        "the list of 125 does not read “state”; it reads “coaches”, “qualifying event”",
        "“coaches” is a table of ranking, not of this kind",
        "“0” is not a whole number from 1",
        "row 2 says 1 of the same; correct one of them",
        "row 10, column Value",
        "the rank is missing",
    ):
        assert told in text, told
    answer = client.post(page, {"do": "commit"})
    assert answer.status_code == 200
    assert rankings() == {}


def test_weights_of_two_divisions_with_one_label_are_told_apart(
    client: Client, tournament: Tournament
) -> None:
    add_division(
        call=CALL, tournament=tournament, key="jv", name="JV", rulebook="college-2025", settings={}
    )
    add_weight_set(call=CALL, division=tournament.divisions.get(key="jv"), name="men")
    enter(tournament, "jv-125", "Abe Lund")
    WeightClass.objects.filter(key="125").update(locked=True)
    page = client.get(send(client, HEADS + "125,Abe Lund,,coaches,rank,4,\n")).content.decode()
    assert "“125” is no weight of this tournament; write “Open 125” or “JV 125”" in page
    rows = "JV 125,Abe Lund,,coaches,rank,4,\nJV 125,Abe Lund,,qualifying event,place,2,125\n"
    client.post(send(client, HEADS + rows), {"do": "commit"})
    lund = Entry.objects.get(wrestler__family="Lund")
    assert (lund.rank, lund.qualifying_place) == (4, 2)
    assert Act.objects.latest("pk").subject["weights"] == [lund.weight_class_id]
    heads = BALLOTS.partition("\n")[0]
    client.post(send(client, f"{heads}\nJV 125,Coach Ash,,Abe Lund,,1\n"), {"do": "commit"})
    assert Ballot.objects.get().weight_class_id == lund.weight_class_id
    ballot = Voted("JV 125", "Coach Elm", "", {key("Holm"): 1})
    with pytest.raises(Invalid, match="is not entered here"):
        set_ballot(call=CALL, weight=lund.weight_class, ballot=ballot)


def test_ballots_come_by_file_and_replace_those_of_the_voter(client: Client) -> None:
    client.post(send(client, BALLOTS), {"do": "commit"})
    found, names = season()
    ash, elm = found.ballots
    assert {names[uid]: rank for uid, rank in ash.ranks.items()} == {"Reed": 1, "Quill": 2}
    assert {names[uid] for uid in ash.own} == {"Holm"}
    assert {names[uid]: rank for uid, rank in elm.ranks.items()} == {
        "Holm": 1,
        "Quill": 2,
        "Reed": 3,
    }
    again = client.get(send(client, BALLOTS)).content.decode()
    assert "All of this file is put in already." in again
    turned = BALLOTS.replace("Tom Reed,,1", "Tom Reed,,x").replace(
        "Sam Quill,,2", "Sam Quill,,1", 1
    )
    client.post(send(client, turned.replace("Tom Reed,,x", "Tom Reed,,2")), {"do": "commit"})
    found, names = season()
    assert {names[uid]: rank for uid, rank in found.ballots[0].ranks.items()}["Quill"] == 1
    assert Ballot.objects.count() == 2


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        ("125,Coach Ash,Team Holm,Ira Holm,,1\n", "own team; leave him out"),
        (
            "125,Coach Ash,,Ira Holm,,1\n125,Coach Ash,,Tom Reed,,1\n",
            "rank 1 is given to",
        ),
        ("125,Coach Ash,,Ira Holm,,1\n125,Coach Ash,,Tom Reed,,3\n", "rank 2 is missing"),
        ("125,Coach Ash,Away,Ira Holm,,1\n", "“Away” is no team of this tournament"),
        ("125,,,Ira Holm,,1\n", "the voter is missing"),
        (
            "125,Coach Ash,,Ira Holm,,1\n125,Coach Ash,Team Reed,Sam Quill,,2\n",
            "the voter has another team in row 2",
        ),
    ],
)
def test_a_wrong_ballot_is_refused_by_row(client: Client, rows: str, message: str) -> None:
    page = send(client, BALLOTS.partition("\n")[0] + "\n" + rows)
    assert message in client.get(page).content.decode()
    client.post(page, {"do": "commit"})
    assert not Ballot.objects.exists()


def test_a_ballot_that_leaves_somebody_out_is_pointed_out(client: Client) -> None:
    page = send(client, BALLOTS.partition("\n")[0] + "\n125,Coach Ash,,Ira Holm,,1\n")
    text = client.get(page).content.decode()
    assert "Coach Ash ranks not everybody at 125: Tom Reed, Sam Quill" in text


def test_the_form_has_a_field_for_every_table(client: Client) -> None:
    typed = {
        f"rank-{key('Holm')}": "2",
        f"place-{key('Reed')}": "3, 1 at 133",
        f"place-{key('Quill')}": "took part",
    }
    assert client.post(at("desk-ranks"), {"do": "inputs", **typed}).status_code == 302
    assert rankings() == {"Holm": 2}
    assert placings() == {("Reed", 3, "125"), ("Reed", 1, "133"), ("Quill", 0, "125")}
    assert Entry.objects.get(wrestler__family="Reed").qualifying_place == 3
    text = client.get(at("desk-ranks")).content.decode()
    assert 'value="3, 1 at 133"' in text
    assert 'value="took part"' in text
    client.post(at("desk-ranks"), {"do": "inputs"})
    assert (rankings(), placings(), Noted.objects.count()) == ({}, set(), 0)


def test_what_the_present_list_does_not_read_is_kept_and_named(
    client: Client, tournament: Tournament
) -> None:
    client.post(at("desk-ranks"), {"do": "inputs", f"rank-{key('Holm')}": "2"})
    assert "Kept, but not read" not in client.get(at("desk-ranks")).content.decode()
    division = tournament.divisions.get()
    use_list(call=CALL, division=division, name="wisconsin-2022")
    Noted.objects.create(
        entry=Entry.objects.get(key=key("Reed")), kind="places", table="cup", weight="", value=1
    )
    text = client.get(at("desk-ranks")).content.decode()
    assert "Kept, but not read by the present list:</strong> Rank, cup. A list" in text
    assert Entry.objects.get(wrestler__family="Holm").rank == 2


def test_a_place_that_is_not_understood_is_refused_beside_its_field(client: Client) -> None:
    answer = client.post(at("desk-ranks"), {"do": "inputs", f"place-{key('Reed')}": "soon"})
    assert "Write it like one of these" in answer.content.decode()


def test_a_ballot_by_form(client: Client) -> None:
    team = Entry.objects.get(wrestler__family="Holm").team.key
    typed = {"do": "ballot", "voter": "Coach Ash", "team": team, key("Reed"): "1"}
    answer = client.post(at("desk-ballots"), {**typed, key("Holm"): "2"})
    assert "own team; leave him out" in answer.content.decode()
    assert client.post(at("desk-ballots"), {**typed, key("Quill"): "2"}).status_code == 302
    row = Ballot.objects.get()
    assert "Coach Ash" in client.get(at("desk-ballots")).content.decode()
    chosen = client.get(at("desk-ballots"), {"ballot": row.pk}).content.decode()
    assert "The ballot of Coach Ash" in chosen
    client.post(at("desk-ballots"), {"do": f"take-{row.pk}"})
    assert not Ballot.objects.exists()


def test_what_is_drawn_stands(client: Client) -> None:
    WeightClass.objects.filter(key="125").update(locked=True)
    assert "125 is drawn; its order stands" in client.get(send(client, RANKS)).content.decode()
    answer = client.post(at("desk-ballots"), {"do": "ballot", "voter": "Ash", key("Reed"): "1"})
    assert "Weight 125 is drawn" in answer.content.decode()
    assert "Type one below" not in answer.content.decode()


@pytest.mark.parametrize("role", ["table", "reader"])
def test_only_the_committee_puts_in(role: str, tournament: Tournament) -> None:
    person = signed_in(role, tournament)
    for address in (reverse("desk-put-in", args=["spring"]), at("desk-ranks"), at("desk-ballots")):
        assert person.get(address).status_code == 403


def test_blank_tables_are_read_as_they_are_written(client: Client) -> None:
    for what, rows in (("ranks", RANKS), ("ballots", BALLOTS)):
        address = reverse("desk-put-in-blank", args=["spring", what, "csv"])
        blank = client.get(address).content.decode("utf-8-sig")
        text = client.get(send(client, blank + rows.partition("\n")[2])).content.decode()
        assert "Take them in" in text
    assert client.get(reverse("desk-put-in-blank", args=["spring", "x", "csv"])).status_code == 404


@pytest.mark.parametrize(
    ("value", "weight", "message"),
    [(3, "133", "leave the weight out"), (0, "", "a whole number from 1")],
)
def test_a_rank_that_is_none_is_refused_by_the_interface(
    client: Client, value: int, weight: str, message: str
) -> None:
    table = {"kind": "ranking", "name": "coaches"}
    item = {"entry": key("Holm"), "kind": "ranking", "table": "coaches", "value": value}
    body = {"tables": [table], "items": [{**item, "weight": weight}]}
    answer = client.put(
        reverse("api-tables", args=["spring", "125"]), body, content_type="application/json"
    )
    assert answer.status_code == 400
    error = answer.json()["errors"][0]
    assert error["attr"] == "items.0"
    assert message in error["detail"]
    assert not Noted.objects.exists()
