"""What a remedy lacks is said at its field, by name, to whoever takes people out of the field."""

import re

import pytest
from django.test import Client

from results.models import Withdrawal
from seeding.entries.models import Entry, Tournament
from tests.results.desk import form, text
from tests.results.late import entry, lines, morning
from tests.seeding.entries.desks import owner

pytestmark = pytest.mark.django_db
APPLY = "/desk/spring/weigh-in/apply/"
OUT = "/desk/spring/entry/125-9/out/"
NAME = "Name who comes in the place of Given{} Family125."


@pytest.fixture
def meet() -> Tournament:
    found = morning()
    Entry.objects.filter(key__in=["125-9", "125-10"]).update(weigh_in="missed")
    return found


def at_field(page: str, name: str) -> list[str]:
    """The messages at a field."""
    found = re.search(rf'<ul class="errors" id="r_{re.escape(name)}_error">(.*?)</ul>', page)
    return re.findall("<li>(.*?)</li>", found[1]) if found else []


def asked(client: Client, page: str, **said: str) -> str:
    query = {
        f"125-{name.removeprefix('r').replace('_', '.')}": value for name, value in said.items()
    }
    return text(client.get(page, query))


def test_all_who_have_nobody_named_are_said_at_once_by_name(meet: Tournament) -> None:
    page = asked(owner(meet), APPLY, r9_remedy="substitute", r10_remedy="substitute")
    for seed in (9, 10):
        assert at_field(page, f"125-{seed}.family") == [NAME.format(seed)]
        assert f"125-{seed}.family: " not in page
    assert "See the marked fields." in page
    assert "do-it" not in page
    assert 'id="follows"' not in page


def test_on_the_page_of_one_too(meet: Tournament) -> None:
    page = asked(owner(meet), OUT, r9_remedy="substitute", r9_given="Sam")
    assert at_field(page, "125-9.family") == [NAME.format(9)]
    assert 'id="follows"' not in page


def test_what_does_not_go_together_stands_at_the_remedy(meet: Tournament) -> None:
    page = asked(owner(meet), APPLY, r9_remedy="redraw", r10_remedy="bye")
    (said,) = at_field(page, "125-10.remedy")
    assert said.startswith("125 is drawn anew: choose redraw")
    assert "125-10.remedy: " not in page


def test_a_button_pressed_under_such_a_choice_does_nothing_and_names_nobody_by_id(
    meet: Tournament,
) -> None:
    client = owner(meet)
    sound = asked(client, OUT, r9_remedy="bye")
    sent = {**form(sound, "do-it"), "do": "do-it", "reason": "x"}
    page = text(client.post(f"{OUT}?125-9.remedy=substitute", sent))
    assert at_field(page, "125-9.family") == [NAME.format(9)]
    assert "125-9.family: " not in page
    assert "125-9" in lines(meet)
    assert entry(meet, "125-9").status == "entered"
    assert not Withdrawal.objects.exists()


def test_what_a_remedy_needs_is_not_called_optional(meet: Tournament) -> None:
    client = owner(meet)
    for page in (APPLY, OUT, "/desk/spring/entry/133-9/out/"):
        labels = re.findall(r"<label[^>]*>(.*?)</label>", text(client.get(page)), re.DOTALL)
        optional = {re.sub(" <span.*", "", one).strip() for one in labels if "optional" in one}
        assert optional == {"Who comes instead: Given name"}
