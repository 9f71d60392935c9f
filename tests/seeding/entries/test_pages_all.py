"""Every desk page of entries: opens, asks the right, and asks the database few times."""

import pytest
from django.test import Client
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
    return made


@pytest.mark.parametrize("role", list(Role.Name))
def test_a_role_opens_what_it_grants(role: Role.Name, tournament: Tournament) -> None:
    client = signed_in(role, tournament)
    for (name, *rest), right in PAGES.items():
        status = client.get(reverse(name, args=["spring", *rest])).status_code
        assert status == (200 if right in OPENS[role] else 403), name


def test_without_a_role_nothing_is_there(tournament: Tournament) -> None:
    client = signed_in(None, tournament)
    for name, *rest in PAGES:
        assert client.get(reverse(name, args=["spring", *rest])).status_code == 404


def test_who_is_not_signed_in_is_asked_to(tournament: Tournament) -> None:
    for name, *rest in PAGES:
        answer = Client().get(reverse(name, args=["spring", *rest]))
        assert answer.status_code == 302
        assert answer.headers["Location"].startswith(reverse("sign-in"))


def test_what_is_not_there_is_said(tournament: Tournament) -> None:
    client = signed_in(Role.Name.OWNER, tournament)
    answer = client.get(reverse("desk-weight", args=["spring", "99"]))
    assert answer.status_code == 404
    assert "There is no weight &#x27;99&#x27; here." in answer.content.decode()


@pytest.mark.parametrize(("name", "rest"), [(name, rest) for name, *rest in PAGES])
def test_a_longer_list_needs_no_more_queries(
    name: str, rest: list[str], tournament: Tournament, django_assert_max_num_queries: object
) -> None:
    """The same page with five times as much on it."""
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    client = signed_in(Role.Name.OWNER, tournament)
    address = reverse(name, args=["spring", *rest])
    client.get(address)
    with CaptureQueriesContext(connection) as few:
        client.get(address)
    enter(tournament, "125", *(f"Given{n} Family{n}" for n in range(8)))
    for number in range(4):
        signed = signed_in(Role.Name.READER, tournament) if number == 0 else None
        assert signed or number
    with CaptureQueriesContext(connection) as many:
        client.get(address)
    assert len(many) <= len(few) + 1, name
