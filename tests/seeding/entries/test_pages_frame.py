"""A tournament is made, framed, published and given weights and people through its pages."""

import io
import re

import pytest
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse

from seeding.entries.models import Division, Organisation, Role, Tournament, User, WeightClass
from seeding.entries.services import add_division
from seeding.entries.services.division import new_weight
from seeding.journal.core.errors import Invalid
from seeding.journal.models import Act, Log
from tests.seeding.entries.desks import CALL, enter, owner, spring

pytestmark = pytest.mark.django_db

NEW = {
    "name": "Autumn Duals",
    "slug": "autumn",
    "starts_on": "2026-11-07",
    "time_zone": "America/Denver",
    "mats": "1, 2, 3",
}
FRAME = {"name": "Spring", "starts_on": "2026-03-20", "time_zone": "UTC", "mats": "A, B"}


def address(name: str, *rest: str) -> str:
    return reverse(name, args=["spring", *rest])


def test_a_user_of_an_organisation_makes_a_tournament_and_owns_it() -> None:
    organisation = Organisation.objects.create(slug="home", name="Home")
    user = User.objects.create(username="ann", organisation=organisation, founds=True)
    client = Client()
    client.force_login(user)
    answer = client.post(reverse("desk"), NEW)
    assert answer.headers["Location"] == reverse("desk-weights", args=["autumn"])
    made = Tournament.objects.get(slug="autumn")
    assert (made.organisation, made.mats) == (organisation, ["1", "2", "3"])
    assert Role.objects.get(tournament=made).name == Role.Name.OWNER
    assert "Autumn Duals" in client.get(reverse("desk")).content.decode()


def test_the_operator_names_a_new_organisation() -> None:
    client = Client()
    client.force_login(User.objects.create(username="op", is_superuser=True))
    text = client.post(reverse("desk"), NEW).content.decode()
    assert "Choose an organisation or name a new one." in text
    client.post(reverse("desk"), NEW | {"new_organisation": "Northern Conference"})
    assert Tournament.objects.get().organisation.slug == "northern-conference"


def test_who_belongs_nowhere_makes_none() -> None:
    client = Client()
    client.force_login(User.objects.create(username="ann"))
    assert "New tournament" not in client.get(reverse("desk")).content.decode()
    client.post(reverse("desk"), NEW)
    assert not Tournament.objects.exists()


def test_a_taken_address_is_refused_and_what_was_typed_stays() -> None:
    client = owner(spring())
    answer = client.post(reverse("desk"), NEW | {"slug": "spring"})
    text = answer.content.decode()
    assert "There is already a tournament at the address “spring”. Choose another." in text
    assert 'value="Autumn Duals"' in text
    assert 'value="2026-11-07"' in text


def test_the_frame_is_changed_once_per_version() -> None:
    tournament = spring()
    client = owner(tournament)
    page = address("desk-frame")
    assert client.post(page, FRAME | {"do": "frame", "version": "0"}).status_code == 302
    tournament.refresh_from_db()
    assert (tournament.name, tournament.mats, tournament.version) == ("Spring", ["A", "B"], 1)
    stale = client.post(page, FRAME | {"do": "frame", "version": "0", "name": "Mine"})
    text = stale.content.decode()
    assert "The tournament was changed in the meantime. Load it again" in text
    assert 'value="Mine"' in text


def test_a_mat_named_twice_is_said_beside_the_field() -> None:
    client = owner(spring())
    answer = client.post(address("desk-frame"), FRAME | {"do": "frame", "mats": "1, 1"})
    form = answer.context["form"]
    assert form.errors["mats"] == ["Name at least one mat, and no name twice, such as: 1, 2, 3."]


def test_a_button_pressed_twice_is_one_act() -> None:
    client = owner(spring())
    sent = FRAME | {"do": "frame", "key": "k1"}
    assert [client.post(address("desk-frame"), sent).status_code for _ in "ab"] == [302, 302]
    assert Act.objects.filter(verb="tournament.edited").count() == 1


def test_gates_open_and_close() -> None:
    tournament = spring()
    client = owner(tournament)
    client.post(address("desk-frame"), {"do": "gates", "entries": "on", "draw": "on"})
    tournament.refresh_from_db()
    assert (tournament.shows_entries, tournament.shows_draw) == (True, True)
    client.post(address("desk-frame"), {"do": "gates", "draw": "on"})
    tournament.refresh_from_db()
    assert (tournament.shows_entries, tournament.shows_draw) == (False, True)


def test_a_division_and_its_whole_set_of_weights() -> None:
    """Published: the ten weights of the college championships."""
    tournament = spring(weights=False)
    client = owner(tournament)
    division = {"do": "division", "name": "Open", "rulebook": "college-2025"}
    client.post(address("desk-weights"), division | {"settings": "team_points.byes = none"})
    assert Division.objects.get().snapshot["team_points"]["byes"] == "none"
    client.post(address("desk-weights"), {"do": "set-open", "name": "men"})
    labels = list(tournament.weights.values_list("label", flat=True))
    assert labels == ["125", "133", "141", "149", "157", "165", "174", "184", "197", "285"]


def test_each_label_of_the_weights_has_a_field_of_its_own() -> None:
    client = owner(spring())
    page = client.get(address("desk-weights")).content.decode()
    ids = re.findall(r' id="([^"]*)"', page)
    assert "id_name" in ids
    assert sorted(ids) == sorted(set(ids))


def test_a_weight_stands_in_its_place_and_goes_while_it_is_empty() -> None:
    tournament = spring()
    client = owner(tournament)
    client.post(address("desk-weights"), {"do": "weight-open", "label": "130", "places": "6"})
    labels = list(tournament.weights.values_list("label", flat=True))
    assert labels[:4] == ["125", "130", "133", "141"]
    again = client.post(
        address("desk-weights"), {"do": "weight-open", "label": "130", "places": "6"}
    )
    assert "There is already a weight in Open “130”." in again.content.decode()
    client.post(address("desk-weight", "130"), {"do": "remove"})
    assert not WeightClass.objects.filter(key="130").exists()
    enter(tournament, "125", "Ira Holm")
    answer = client.post(address("desk-weight", "125"), {"do": "remove"})
    assert "still has 1 entries" in answer.content.decode()


def test_a_weight_gives_as_many_places_as_the_rule_book_has_points_for() -> None:
    """Not a fixed list: a division with points for 7 places offers 7 too, and a label that is
    changed does not take them away."""
    tournament = spring()
    client = owner(tournament)
    points = "team_points.placement.7 = [16, 12, 10, 7, 5, 3, 1]"
    client.post(
        address("desk-division", "open"), {"do": "edit", "name": "Open", "settings": points}
    )
    client.post(address("desk-weights"), {"do": "weight-open", "label": "130", "places": "7"})
    made = WeightClass.objects.get(key="130")
    assert made.places == 7
    page = client.get(address("desk-weight", "130"))
    offered = [value for value, _ in page.context["form"].fields["places"].choices]
    assert offered == [2, 3, 4, 6, 7, 8, 12, 16]
    assert '<option value="7" selected>' in page.content.decode()


@pytest.mark.parametrize("places", [2, 3, 12, 16])
def test_places_that_no_published_table_has_can_be_chosen(places: int) -> None:
    client = owner(spring())
    client.post(
        address("desk-weights"), {"do": "weight-open", "label": "130", "places": str(places)}
    )
    assert WeightClass.objects.get(key="130").places == places


def test_a_number_of_places_without_points_is_refused_and_says_how_to_have_it() -> None:
    tournament = spring(weights=False)
    add_division(
        call=CALL,
        tournament=tournament,
        key="free",
        name="Freestyle",
        rulebook="international-2025",
        settings={"bracket.places": 16},
    )
    with pytest.raises(Invalid) as caught:
        new_weight(Division.objects.get(), "57")
    assert caught.value.problems[0].message == (
        "The rule book has no team points for 16 places, only for 4, 6. "
        "Choose one of these, or first set team_points.placement.16 = [points of 1st, 2nd, ...]."
    )


def test_a_new_user_gets_a_role_and_a_weak_password_is_refused() -> None:
    client = owner(spring())
    sent = {"do": "new", "username": "bea", "role": "table", "password": "12345678"}
    answer = client.post(address("desk-people"), sent)
    assert answer.context["new"].errors["password"]
    assert 'value="bea"' in answer.content.decode()
    sent |= {"password": "red-mat-41", "key": "k1"}
    for _ in "ab":
        assert client.post(address("desk-people"), sent).status_code == 302
    bea = User.objects.get(username="bea")
    assert bea.check_password("red-mat-41")
    assert bea.organisation == Tournament.objects.get().organisation
    assert Role.objects.get(user=bea).name == "table"


def test_the_last_owner_stays() -> None:
    client = owner(spring())
    role = Role.objects.get(user__username="owner")
    answer = client.post(address("desk-people"), {"do": f"take-{role.pk}"})
    assert "owner is the only owner of this tournament." in answer.content.decode()
    sent = {"do": "give", "username": "nobody at all", "role": "reader"}
    text = client.post(address("desk-people"), sent).content.decode()
    assert "There is no user &#x27;nobody at all&#x27; here." in text


def test_the_log_tells_acts_in_words_and_whether_the_chain_holds() -> None:
    tournament = spring()
    client = owner(tournament)
    enter(tournament, "125", "Ira Holm")
    text = client.get(address("desk-log")).content.decode()
    assert "Entry added: Ira Holm, 125 (Hol)" in text
    assert "The chain of digests holds" in text
    Act.objects.filter(log=tournament.log_id, seq=2).update(verb="tournament.sold")
    text = client.get(address("desk-log")).content.decode()
    assert "The chain of digests does not hold from act 2 on" in text


def test_the_log_is_paged() -> None:
    tournament = spring()
    client = owner(tournament)
    names = [f"Given{n} Family{n}" for n in range(25)]
    enter(tournament, "125", *names)
    text = client.get(address("desk-log")).content.decode()
    assert "1 of 2" in text
    assert Log.objects.get(pk=tournament.log_id).seq > 50
    assert "Tournament created" in client.get(address("desk-log") + "?page=2").content.decode()


def test_found_makes_an_organisation_and_its_first_user(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("red-mat-41\n"))
    call_command("found", "north", "Northern Conference", "--user", "ann", stdout=io.StringIO())
    ann = User.objects.get(username="ann")
    assert ann.check_password("red-mat-41")
    assert ann.organisation == Organisation.objects.get(slug="north")
    monkeypatch.setattr("sys.stdin", io.StringIO("12345678\n"))
    with pytest.raises(CommandError, match="password"):
        call_command("found", "south", "South", "--user", "bob", stdout=io.StringIO())
    assert not Organisation.objects.filter(slug="south").exists()
