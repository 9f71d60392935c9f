"""What a closed gate hides.

Most of these are tests of non-interference: two states of a tournament that differ only in what
is hidden have to answer every address with the same bytes.
"""

import pytest

from brackets.models import Bout, Drawn
from results.models import Adjustment
from results.queries.gates import Gates
from results.queries.people import People
from seeding.entries.models import Entry, Team, Tournament
from tests.results.championship import load
from tests.results.published import (
    GATES,
    addresses,
    decide,
    file,
    published,
    rename,
    shut,
    told,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def tournament() -> Tournament:
    return published()


def test_all_pages_open_while_all_gates_are(tournament: Tournament) -> None:
    assert {status for status, _ in told(addresses(tournament)).values()} == {200}


def test_hidden_names_are_in_no_byte(tournament: Tournament) -> None:
    text = "".join(text for _, text in told(addresses(tournament)).values())
    assert "Fullfamily" in text
    assert "Initialsfamily" not in text
    assert "Initialsgiven" not in text
    assert "Hiddenfamily" not in text
    assert "Hiddengiven" not in text
    assert "I. I." in text
    assert "of T3" in text


def test_hidden_names_change_nothing(tournament: Tournament) -> None:
    before = told(addresses(tournament))
    rename(Entry.objects.filter(publish="hidden").select_related("wrestler"))
    assert told(before) == before


def test_the_strictest_entry_of_a_wrestler_counts(tournament: Tournament) -> None:
    full = Entry.objects.filter(publish="full").select_related("wrestler")
    shown, also = (full.filter(weight_class__key=key)[0] for key in ("106", "113"))
    Entry.objects.filter(pk=also.pk).update(wrestler=shown.wrestler, publish="hidden")
    text = "".join(text for _, text in told(addresses(tournament)).values())
    assert shown.wrestler.family not in text


def test_own_ids_stand_only_where_the_name_does(tournament: Tournament) -> None:
    text = "".join(text for _, text in told(addresses(tournament)).values())
    for row in Entry.objects.select_related("wrestler"):
        assert (f"/{row.wrestler.uid}/" in text) == (row.publish == "full")
    hidden = Entry.objects.filter(publish="hidden").select_related("wrestler")[0]
    page = f"/t/spring/wrestlers/{hidden.wrestler.uid}/"
    assert told([page])[page][0] == 404


def test_the_order_of_entry_shows_nowhere(tournament: Tournament) -> None:
    """A file is often in order of the names, so that a neighbour would give a name away."""
    gates = Gates.of(tournament)
    people = list(People.of(tournament, gates).by_pk.values())
    in_weight = [one.entry for one in people if one.weight.key == "106"]
    assert in_weight != sorted(in_weight)
    text = "".join(text for _, text in told(addresses(tournament)).values())
    assert not [one for one in people if f'entry-{one.entry}"' in text]


def test_weigh_in_changes_nothing(tournament: Tournament) -> None:
    before = told(addresses(tournament))
    Entry.objects.update(weigh_in="missed", rank=3, qualifying_place=2)
    assert told(before) == before


def test_closed_results_change_nothing() -> None:
    """Neither scores nor places, nor who has moved on."""
    tournament = load(file(("entries", "seeds", "draw")))
    pages = addresses(tournament)
    before = told(pages)
    decide(tournament, 0.7)
    assert Bout.objects.filter(status="decided").exists()
    assert told(pages) == before


def test_closed_results_leave_team_points_unexplained(tournament: Tournament) -> None:
    shut(tournament, "results")
    text = told(["/t/spring/points/"])["/t/spring/points/"][1]
    assert "Team 1" in text
    assert "Fullfamily" not in text
    assert "fall in" not in text


def test_closed_draw_changes_nothing(tournament: Tournament) -> None:
    shut(tournament, "draw", "team_points")
    before = told(addresses(tournament))
    Bout.objects.update(number=None, mat="", status="vacant", winner=None)
    for drawn in Drawn.objects.all():
        drawn.lines = drawn.lines[::-1]
        drawn.save()
    assert told(before) == before
    assert "Fullfamily" in "".join(text for _, text in before.values())


def test_closed_seeds_change_nothing(tournament: Tournament) -> None:
    shut(tournament, "seeds")
    before = told(addresses(tournament))
    Entry.objects.update(seed=None)
    assert told(before) == before


def test_closed_entries_change_nothing(tournament: Tournament) -> None:
    pages = addresses(tournament)
    shut(tournament, "entries")
    before = told(pages)
    rename(Entry.objects.select_related("wrestler"))
    Entry.objects.update(seed=None, status="scratched")
    assert told(pages) == before
    assert before["/t/spring/weights/106/"][0] == 200


def test_closed_team_points_change_nothing(tournament: Tournament) -> None:
    shut(tournament, "team_points")
    before = told(addresses(tournament))
    Adjustment.objects.update(points=30, reason="Something else")
    assert told(before) == before
    assert "Late to the mat" not in "".join(text for _, text in before.values())


@pytest.mark.parametrize("gate", GATES)
def test_pages_answer_whatever_is_closed(tournament: Tournament, gate: str) -> None:
    shut(tournament, gate)
    assert {status for status, _ in told(addresses(tournament)).values()} <= {200, 404}


def test_an_unpublished_tournament_says_only_name_and_date(tournament: Tournament) -> None:
    pages = addresses(tournament)
    shut(tournament, *GATES)
    found = told(pages)
    assert found.pop("/t/spring/")[0] == 200
    assert "Spring Championships" not in found.pop("/")[1]
    assert {status for status, _ in found.values()} == {404}
    before = told(["/t/spring/"])
    Team.objects.all().update(short="X")
    assert told(["/t/spring/"]) == before
    assert "Weight" not in before["/t/spring/"][1]
