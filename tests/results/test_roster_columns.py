"""Regions and figures that come with a roster: what is kept, what is refused, who reads it."""

from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from seeding.entries.models import Division, Entry, Measured, Tournament
from seeding.entries.services import commit_roster, roster_plan
from seeding.entries.services.roster import Sealed
from seeding.journal.core.errors import Invalid
from seeding.journal.models import Act, Job, Outbox
from seeding.models import Berth
from seeding.services.qualifying import Numbers, set_plan, set_region
from tests.results.championship import CALL, document, load
from tests.results.interface import with_role
from tests.results.young import young
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

FIGURES = ("61.37", "77.13", "2016-03-20")
DESK = "/desk/spring/"
WEIGHED = (
    "Given name,Family name,Team,Weighed,Age,Experience\n"
    "Givenyoung1,Familyyoung1,Youngteam 1,61.37,2016-03-20,1\n"
    "New,Comer,Youngteam 1,77.13,10,\n"
)
FROM_REGIONS = (
    "Given name,Family name,Weight,Team,Region,Place\n"
    "Ira,Holm,125,Team 3,A,1\nNoa,Berg,125,Team 4,South,3\n"
)


@pytest.fixture
def tournament() -> Tournament:
    file = document(("125", "133"), entries=2) | {"brackets": []}
    made = load(file)
    set_plan(call=CALL, tournament=made, numbers=Numbers(2, 0, 0, None))
    for letter, name in (("A", "North"), ("B", "South")):
        set_region(call=CALL, tournament=made, letter=letter, name=name)
    return made


def take_in(division: Division, text: str) -> Act:
    return commit_roster(call=CALL, division=division, data=text.encode(), name="roster.csv")


def again(division: Division, text: str) -> Any:
    return roster_plan(division, text.encode(), "roster.csv", strict=False)


def of(family: str) -> Entry:
    return Entry.objects.get(wrestler__family=family)


def came(family: str) -> tuple[str, int | None, str]:
    row = Berth.objects.get(entry=of(family))
    return row.region.letter if row.region else "", row.place, row.how


def test_who_advanced_is_in_the_field_and_who_did_not_stands_by(tournament: Tournament) -> None:
    division = tournament.divisions.get()
    take_in(division, FROM_REGIONS)
    assert came("Holm") == ("A", 1, Berth.How.PLACE)
    assert came("Berg") == ("B", 3, Berth.How.CANDIDATE)
    assert (of("Holm").status, of("Berg").status) == (Entry.Status.ENTERED, Entry.Status.STANDBY)
    found = again(division, FROM_REGIONS)
    assert (found.adds, found.changes, found.warnings, len(found.unchanged)) == ((), (), (), 2)


def test_a_place_or_a_region_changes_and_another_weight_has_none(tournament: Tournament) -> None:
    division = tournament.divisions.get()
    take_in(division, FROM_REGIONS)
    take_in(division, FROM_REGIONS.replace("South,3", "South,2"))
    assert (came("Berg"), of("Berg").status) == (("B", 2, "place"), Entry.Status.ENTERED)
    take_in(division, "Name,Weight,Team,Place\nIra Holm,125,Team 3,2\n")
    assert came("Holm") == ("A", 2, Berth.How.PLACE)
    take_in(division, "Name,Weight,Team\nIra Holm,133,Team 3\n")
    assert not Berth.objects.filter(entry=of("Holm")).exists()
    assert (of("Holm").qualifying_place, of("Holm").status) == (None, Entry.Status.ENTERED)


def test_no_place_of_a_region_is_held_twice_in_a_weight(tournament: Tournament) -> None:
    division = tournament.divisions.get()
    take_in(division, FROM_REGIONS)
    more = "Name,Weight,Team,Region,Place\nAda Moss,125,Team 1,B,3\nZoe Reed,133,Team 1,B,3\n"
    with pytest.raises(Invalid) as refusal:
        take_in(division, more)
    (problem,) = refusal.value.problems
    assert str(problem) == (
        "row 2, column Place: place 3 of region B at 125 belongs to Noa Berg of Team 4, who is "
        "entered already; change one of them"
    )
    assert not Entry.objects.filter(wrestler__family="Reed").exists()


def test_figures_come_with_the_roster_of_a_division_that_forms_groups(
    tournament: Tournament,
) -> None:
    division = young(tournament)
    take_in(division, WEIGHED)
    row = Measured.objects.get(entry=of("Familyyoung1"))
    assert (str(row.weight), row.age, row.experience) == ("61.37", 9, 1)
    assert of("Familyyoung1").weigh_in == Entry.WeighIn.MADE
    assert of("Comer").weight_class.key == "young-waiting"
    found = again(division, WEIGHED)
    assert (found.adds, found.changes, len(found.unchanged)) == ((), (), 2)
    assert found.warnings == ()
    take_in(division, "Name,Team,Experience\nGivenyoung1 Familyyoung1,Youngteam 1,4\n")
    row.refresh_from_db()
    assert (str(row.weight), row.age, row.experience) == ("61.37", 9, 4)


def test_figures_of_a_roster_are_read_by_those_who_direct_alone(tournament: Tournament) -> None:
    division = young(tournament)
    director = signed_in("director", tournament)
    file = SimpleUploadedFile("roster.csv", WEIGHED.encode())
    page = director.post(
        reverse("desk-roster", args=["spring"]), {"file": file, "division": division.pk}
    )["Location"]
    assert "weighed 61.37" not in director.get(page).content.decode()  # entered already: a change
    assert "weighed 77.13, age 10" in director.get(page).content.decode()
    for role in ("committee", "table", "reader"):
        client = signed_in(role, tournament)
        for address in (page, f"{DESK}log/", f"{DESK}entries/", f"{DESK}entries/young-waiting/"):
            text = client.get(address, follow=True).content.decode()
            assert not [one for one in FIGURES if one in text], (role, address)
        api = with_role(tournament, role)
        plan = "/tournaments/spring/divisions/young/roster/plan/"
        sent = {"file": SimpleUploadedFile("r.csv", WEIGHED.encode()), "strict": "false"}
        assert api.ask("post", plan, sent).status_code == 403
    job = Job.objects.get(task="roster")
    name = str(job.source.name)
    assert job.source.storage.exists(name)
    director.post(page, {"do": "commit", "key": "k1"})
    assert not job.source.storage.exists(name)
    assert director.post(page, {"do": "commit", "key": "k1"}).status_code == 302
    assert Measured.objects.filter(weight="77.13").count() == 1
    text = "".join(str(row) for model in (Act, Job, Outbox) for row in model.objects.values_list())
    assert "roster.committed" in text
    assert not [one for one in FIGURES if one in text]
    assert Client().get(page).status_code == 302


def test_the_same_file_leaves_different_marks_on_different_machines(settings: Any) -> None:
    here = repr(Sealed(WEIGHED.encode()))
    settings.SECRET_KEY = "another"
    assert repr(Sealed(WEIGHED.encode())) != here
    assert "61.37" not in here
