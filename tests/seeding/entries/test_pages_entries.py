"""Teams, entries, weigh-in and rosters through the pages."""

from datetime import timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from seeding.entries.models import Entry, Team, Tournament
from seeding.journal.models import Act, Job
from tests.seeding.entries.desks import enter, owner, spring

pytestmark = pytest.mark.django_db


@pytest.fixture
def tournament() -> Tournament:
    return spring()


@pytest.fixture
def client(tournament: Tournament) -> Client:
    return owner(tournament)


def address(name: str, *rest: str) -> str:
    return reverse(name, args=["spring", *rest])


def holm() -> Entry:
    return Entry.objects.get(wrestler__family="Holm")


def test_a_co_operative_team(client: Client) -> None:
    sent = {"do": "add", "name": "Alder and Birch", "members": "Alder High\nBirch High\n"}
    client.post(address("desk-teams"), sent)
    team = Team.objects.get()
    assert (team.short, team.members) == ("AAB", ["Alder High", "Birch High"])
    sent = {"do": "edit", "name": "Alder", "short": "ALD", "members": "Alder High"}
    client.post(address("desk-team", team.key), sent)
    team.refresh_from_db()
    assert (team.name, team.short, team.members) == ("Alder", "ALD", ["Alder High"])


def test_two_of_a_team_at_one_weight_one_of_them_not_scoring(
    client: Client, tournament: Tournament
) -> None:
    enter(tournament, "125", "Ira Holm")
    team = Team.objects.get()
    sent = {"do": "add", "given": "Tom", "family": "Reed", "team": team.pk, "publish": "initials"}
    client.post(address("desk-entries", "125"), sent)
    entry = Entry.objects.get(wrestler__family="Reed")
    assert (entry.team, entry.scoring, entry.publish) == (team, False, "initials")
    text = client.get(address("desk-entries", "125")).content.decode()
    assert "not scoring" in text
    assert "Licensed medical staff and the local code decide" in text


def test_the_same_wrestler_twice_is_refused_and_what_was_typed_stays(
    client: Client, tournament: Tournament
) -> None:
    enter(tournament, "125", "Ira Holm")
    team = Team.objects.get().pk
    sent = {"do": "add", "given": "Ira", "family": "Holm", "team": team, "publish": "hidden"}
    text = client.post(address("desk-entries", "125"), sent | {"rank": "7"}).content.decode()
    assert "There is already a wrestler at 125 “Ira Holm”. Choose another." in text
    assert 'value="7"' in text
    assert '<option value="hidden" selected>' in text


def test_weigh_in_is_recorded_and_a_stale_press_refused(
    client: Client, tournament: Tournament
) -> None:
    enter(tournament, "125", "Ira Holm")
    page, do = address("desk-entries", "125"), f"weigh-{holm().key}"
    answer = client.post(page, {"do": do, "state": "made", "version": "0"})
    assert answer.headers["Location"] == f"{page}#{holm().key}"
    assert holm().weigh_in == "made"
    answer = client.post(page, {"do": do, "state": "missed", "version": "0"})
    assert "The entry was changed in the meantime." in answer.content.decode()
    assert holm().weigh_in == "made"


def test_an_entry_changes_weight_and_team_until_the_draw(
    client: Client, tournament: Tournament
) -> None:
    enter(tournament, "125", "Ira Holm", "Tom Reed")
    other = tournament.weights.get(key="133")
    team = Team.objects.get(name="Team Reed")
    page = address("desk-entry", holm().key)
    sent = {"do": "edit", "weight_class": other.pk, "team": team.pk, "publish": "full", "seed": "1"}
    assert client.post(page, sent).status_code == 302
    assert (holm().weight_class, holm().team, holm().seed) == (other, team, 1)
    tournament.weights.filter(key="133").update(locked=True)
    sent |= {"weight_class": tournament.weights.get(key="125").pk, "rank": "4"}
    assert client.post(page, sent).status_code == 302
    assert (holm().weight_class, holm().rank) == (other, 4)


def test_a_seed_that_is_taken_is_said_beside_the_field(
    client: Client, tournament: Tournament
) -> None:
    enter(tournament, "125", "Ira Holm", "Tom Reed")
    Entry.objects.filter(wrestler__family="Reed").update(seed=1)
    weight, team = holm().weight_class_id, holm().team_id
    sent = {"do": "edit", "weight_class": weight, "team": team, "publish": "full", "seed": "1"}
    answer = client.post(address("desk-entry", holm().key), sent)
    said = "Seed 1 at 125 belongs to another entry. Change that one first."
    assert answer.context["form"].errors["seed"] == [said]


def test_a_name_is_spelled_otherwise(client: Client, tournament: Tournament) -> None:
    enter(tournament, "125", "Ira Holm")
    page = address("desk-entry", holm().key)
    client.post(page, {"do": "name", "given": "Íra", "family": "Holm"})
    assert holm().wrestler.given == "Íra"


def test_scratch_and_restore_before_the_draw(client: Client, tournament: Tournament) -> None:
    enter(tournament, "125", "Ira Holm")
    page = address("desk-entry", holm().key)
    for state in ("scratched", "entered"):
        client.post(page, {"do": "turn"})
        assert holm().status == state
    tournament.weights.update(locked=True)
    text = client.post(page, {"do": "turn"}).content.decode()
    assert "Weight 125 is drawn, so its entries stand." in text
    assert holm().status == "entered"
    assert "Scratch this entry" not in text
    Entry.objects.update(status="scratched")
    shown = client.get(page).content.decode()
    assert "Restore this entry" not in shown
    assert "he comes back as a late entry" in shown


ROSTER = """Name,Weight,Team,Seed
"Holm, Ira",125,Alder Valley,1
"Reed, Tom",125,Birch Valley,
"Quill, Sam",Hwt,Alder Valley,
"""


def upload(client: Client, text: str) -> str:
    """Send a roster; the address of its dry run."""
    file = SimpleUploadedFile("roster.csv", text.encode())
    division = Tournament.objects.get().divisions.get().pk
    answer = client.post(address("desk-roster"), {"file": file, "division": division})
    assert answer.status_code == 302, answer.content.decode()
    return answer.headers["Location"]


def test_a_roster_is_looked_through_and_taken_in_without_choosing_it_again(client: Client) -> None:
    page = upload(client, ROSTER)
    found = client.get(page).context["plan"]
    assert (len(found.adds), len(found.new_teams), found.problems) == (3, 2, ())
    assert not Entry.objects.exists()
    answer = client.post(page, {"do": "commit", "key": "k1"})
    assert answer.headers["Location"] == address("desk-entries")
    assert Entry.objects.get(wrestler__family="Quill").weight_class.label == "285"
    assert Act.objects.filter(verb="roster.committed").count() == 1
    assert client.post(page, {"do": "commit", "key": "k1"}).status_code == 302
    assert Act.objects.filter(verb="roster.committed").count() == 1


def test_a_roster_that_was_only_looked_at_is_deleted_a_day_later(client: Client) -> None:
    """When the next one is looked at; a younger one stays."""
    upload(client, ROSTER)
    (first,) = Job.objects.all()
    upload(client, ROSTER)
    first.refresh_from_db()
    assert first.source.storage.exists(str(first.source.name))
    Job.objects.update(created_at=first.created_at - timedelta(days=1))
    count = len(first.source.storage.listdir("jobs/in")[1])
    upload(client, ROSTER)
    assert sum(bool(job.source) for job in Job.objects.all()) == 1
    assert len(first.source.storage.listdir("jobs/in")[1]) == count - 1


def test_the_same_roster_twice_adds_nothing_twice(client: Client) -> None:
    client.post(upload(client, ROSTER), {"do": "commit"})
    page = upload(client, ROSTER)
    assert "Everything in this file is entered already." in client.get(page).content.decode()
    client.post(page, {"do": "commit"})
    assert (Entry.objects.count(), Team.objects.count()) == (3, 2)


def test_changes_are_told_before_and_after(client: Client) -> None:
    client.post(upload(client, ROSTER), {"do": "commit"})
    page = upload(client, ROSTER.replace("125,Birch Valley,", "133,Birch Valley,2"))
    answer = client.get(page)
    said = [(one.name, one.label, one.before, one.after) for one in answer.context["changes"]]
    assert '<td data-label="What">Weight</td>' in answer.content.decode()
    nothing = "\N{EN DASH}"
    assert said == [("Tom Reed", "Weight", "125", "133"), ("Tom Reed", "Seed", nothing, "2")]


def test_every_problem_is_listed_and_nothing_taken_in(client: Client) -> None:
    text = ROSTER + '"Umber, Lou",126,Alder Valley,x\n,125,,\n"Holm, Ira",125,Alder Valley,1\n'
    page = upload(client, text)
    answer = client.get(page)
    wheres = [problem.where for problem in answer.context["plan"].problems]
    assert wheres == [
        "row 5, column Weight",
        "row 5, column Seed",
        "row 6, column Name",
        "row 6, column Team",
        "row 7, column Name",
        "row 7, column Seed",
    ]
    assert all(where in answer.content.decode() for where in wheres)
    assert client.post(page, {"do": "commit"}).status_code == 200
    assert not Entry.objects.exists()
    assert not Team.objects.exists()


def test_a_file_that_is_no_table_is_refused_at_once(client: Client) -> None:
    division = Tournament.objects.get().divisions.get().pk
    file = SimpleUploadedFile("roster.pdf", b"%PDF-1.7")
    answer = client.post(address("desk-roster"), {"file": file, "division": division})
    assert "The file roster.pdf is a PDF." in answer.content.decode()


def test_a_roster_of_another_tournament_is_not_there(client: Client) -> None:
    page = upload(client, ROSTER)
    Tournament.objects.update(slug="other")
    assert client.get(page).status_code == 404


def test_the_blank_roster_is_read_as_it_is_written(client: Client) -> None:
    blank = client.get(address("desk-roster-blank", "csv")).content.decode("utf-8-sig")
    line = "Ira,Holm,125,Alder Valley,ALD,1,no,initials,4,,2\n"
    page = upload(client, blank + line)
    found = client.get(page).context["plan"]
    assert (found.problems, found.warnings) == ((), ())
    (row,) = found.adds
    assert (row.scoring, row.publish, row.rank, row.qualifying_place) == (False, "initials", 4, 2)
