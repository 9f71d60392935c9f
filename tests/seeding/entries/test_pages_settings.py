"""Settings of a division on its pages: what is refused, where, and when they stand."""

import re

import pytest
from django.urls import reverse

from seeding.entries.models import Division
from tests.seeding.entries.desks import owner, spring

pytestmark = pytest.mark.django_db


def address(name: str, *rest: str) -> str:
    return reverse(name, args=["spring", *rest])


def test_every_wrong_setting_is_said_at_once() -> None:
    client = owner(spring(weights=False))
    lines = "team_points.byes\nteam_points.nothing = 1\nbracket.places = many\nseeding.count = 8"
    sent = {"do": "division", "name": "Open", "rulebook": "college-2025", "settings": lines}
    answer = client.post(address("desk-weights"), sent)
    first, second, third = answer.context["form"].errors["settings"]
    assert first == "line 1: write it as: name = value"
    assert second.startswith("line 2: There is no setting team_points.nothing. There are: ")
    assert third == "line 3: bracket.places must be a number; it is “many”"
    assert "seeding.count = 8" in answer.content.decode()
    assert not Division.objects.exists()


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (
            "team_points.byes = none\n\nbracket.crossings.16 = sideways",
            "line 3: bracket.crossings.16: must be latest or list 2 of ",
        ),
        (
            "bracket.places = 8\nweights.groups.least = 9",
            "line 2: The setting weights.groups.size must be from groups.least to groups.most",
        ),
        (
            "weights.groups.least = 6\nweights.groups.most = 3",
            "lines 1, 2: The setting weights.groups.size must be ",
        ),
    ],
)
def test_what_a_section_refuses_stands_at_its_lines(lines: str, said: str) -> None:
    client = owner(spring(weights=False))
    sent = {"do": "division", "name": "Open", "rulebook": "college-2025", "settings": lines}
    form = client.post(address("desk-weights"), sent).context["form"]
    (told,) = form.errors["settings"]
    assert told.startswith(said)
    assert not Division.objects.exists()


def test_of_many_settings_those_most_like_the_name_are_told() -> None:
    client = owner(spring(weights=False))
    sent = {"do": "division", "name": "Open", "rulebook": "college-2025"}
    answer = client.post(address("desk-weights"), sent | {"settings": "points.byes = none"})
    (told,) = answer.context["form"].errors["settings"]
    assert told.startswith("line 1: There is no setting points.byes. There are: team_points.byes")
    assert told.count(",") == 7
    assert re.search(r" and \d+ more\.$", told)


def test_settings_stand_once_a_weight_is_drawn() -> None:
    tournament = spring()
    client = owner(tournament)
    page = address("desk-division", "open")
    client.post(page, {"do": "edit", "name": "Open", "settings": "bracket.places = 6"})
    assert Division.objects.get().snapshot["bracket"]["places"] == 6
    tournament.weights.filter(key="125").update(locked=True)
    answer = client.post(page, {"do": "edit", "name": "Open", "settings": ""})
    told = "Weight 125 is drawn, so the settings of its division stand."
    assert answer.content.decode().count(told) == 2  # the refusal, and the hint at the field
    assert "readonly" in client.get(page).content.decode()
    assert Division.objects.get().settings == {"bracket.places": 6}


def test_weights_with_places_of_their_own_are_told_to_stand() -> None:
    """They were made under the old number; saving another changes none of them."""
    tournament = spring()
    client = owner(tournament)
    page = address("desk-division", "open")
    count = tournament.weights.count()
    assert "number of places" not in client.get(page).content.decode()
    sent = {"do": "edit", "name": "Open", "settings": "bracket.places = 6"}
    told = f"{count} weights have their own number of places (8): these stand."
    assert f"Saved. {told}" in client.post(page, sent, follow=True).content.decode()
    shown = client.get(page).content.decode()
    assert f'{told} <a href="{address("desk-weights")}#d-open">' in shown
    assert set(tournament.weights.values_list("places", flat=True)) == {8}
    tournament.weights.exclude(key="125").update(places=6)
    one = "1 weight has its own number of places (8): it stands."
    assert one in client.get(page).content.decode()
    tournament.weights.filter(key="125").update(locked=True)
    drawn = client.get(page).content.decode()
    assert one in drawn
    assert "Change them" not in drawn
    tournament.weights.update(locked=False)
    tournament.weights.update(places=6)
    saved = client.post(page, sent, follow=True).content.decode()
    assert "Saved." in saved
    assert "number of places" not in saved
