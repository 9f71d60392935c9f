"""Every desk page of entries: opens, asks the right, and asks the database few times."""

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from seeding.entries.models import Role, Tournament
from tests.seeding.entries.desks import enter, signed_in, spring

pytestmark = pytest.mark.django_db

# Common practice, no source: what each role opens.
OPENS = {
    Role.Name.OWNER: {"direct", "read", "own"},
    Role.Name.DIRECTOR: {"direct", "read"},
    Role.Name.COMMITTEE: {"read"},
    Role.Name.TABLE: {"read"},
    Role.Name.READER: {"read"},
}
PAGES = {
    ("desk-frame",): "direct",
    ("desk-weights",): "direct",
    ("desk-weight", "125"): "direct",
    ("desk-division", "open"): "direct",
    ("desk-teams",): "direct",
    ("desk-team", "team-holm"): "direct",
    ("desk-entry", "holm"): "direct",
    ("desk-roster",): "direct",
    ("desk-roster-blank", "csv"): "direct",
    ("desk-roster-blank", "xlsx"): "direct",
    ("desk-entries",): "read",
    ("desk-entries", "125"): "read",
    ("desk-log",): "read",
    ("desk-people",): "own",
}


@pytest.fixture
def tournament() -> Tournament:
    made = spring()
    enter(made, "125", "Ira Holm", "Tom Reed")
    made.entries.filter(wrestler__family="Holm").update(key="holm")
    return made


def address(name: str, *rest: str) -> str:
    return reverse(name, args=["spring", *rest])


@pytest.mark.parametrize("role", list(Role.Name))
def test_a_role_opens_what_it_grants(role: Role.Name, tournament: Tournament) -> None:
    client = signed_in(role, tournament)
    for page, right in PAGES.items():
        status = client.get(address(*page)).status_code
        assert status == (200 if right in OPENS[role] else 403), page


@pytest.mark.parametrize("role", [Role.Name.COMMITTEE, Role.Name.TABLE, Role.Name.READER])
def test_who_only_looks_changes_nothing(role: Role.Name, tournament: Tournament) -> None:
    client = signed_in(role, tournament)
    page = address("desk-entries", "125")
    assert "Add an entry" not in client.get(page).content.decode()
    for do in ("add", "weigh-holm"):
        answer = client.post(page, {"do": do, "state": "made", "family": "Quill"})
        assert answer.status_code == 403
    assert not tournament.entries.filter(weigh_in="made").exists()


def test_without_a_role_nothing_is_there(tournament: Tournament) -> None:
    client = signed_in(None, tournament)
    for page in PAGES:
        assert client.get(address(*page)).status_code == 404


def test_who_is_not_signed_in_is_asked_to(tournament: Tournament) -> None:
    for page in PAGES:
        answer = Client().get(address(*page))
        assert answer.status_code == 302
        assert answer.headers["Location"].startswith(reverse("sign-in"))


def test_what_is_not_there_is_said(tournament: Tournament) -> None:
    client = signed_in(Role.Name.OWNER, tournament)
    answer = client.get(address("desk-weight", "99"))
    assert answer.status_code == 404
    assert "There is no weight &#x27;99&#x27; here." in answer.content.decode()


@pytest.mark.parametrize("page", [page for page in PAGES if "blank" not in page[0]])
def test_a_longer_list_needs_no_more_queries(page: tuple[str, ...], tournament: Tournament) -> None:
    client = signed_in(Role.Name.OWNER, tournament)
    client.get(address(*page))
    with CaptureQueriesContext(connection) as few:
        client.get(address(*page))
    enter(tournament, "125", *(f"Given{n} Family{n}" for n in range(8)))
    signed_in(Role.Name.READER, tournament)
    with CaptureQueriesContext(connection) as many:
        client.get(address(*page))
    assert len(many) <= len(few)
