"""A weigh-in morning through the pages: weighed, applied, a late entry, a swap, a redraw."""

import re
from typing import Any

import pytest
from django.test import Client

from brackets.models import Bout, LineChange
from brackets.queries import drawn, line_up
from results.models import Withdrawal
from seeding.entries.models import Entry, Tournament
from seeding.journal.models import Act
from tests.results.championship import wrestle
from tests.results.desk import Selected, form, press, text
from tests.results.late import at, entry, lines, morning, of
from tests.results.young import grouped
from tests.seeding.entries.desks import owner

pytestmark = pytest.mark.django_db
DESK = "/desk/spring/"
DRAW = f"{DESK}draw/weights/125/"


@pytest.fixture
def meet() -> Tournament:
    return morning()


def look(client: Client, page: str, **asked: str) -> str:
    """What a page says would follow from what is asked."""
    return text(client.get(page, asked))


def do(client: Client, page: str, asked: dict[str, str], **typed: Any) -> str:
    """Press the button under a preview."""
    shown = look(client, page, **asked)
    sent = {**form(shown, "do-it"), "do": "do-it", **typed}
    query = client.get(page, asked).wsgi_request.get_full_path()
    return text(client.post(query, sent, follow=True))


def weighed(client: Client, **states: str) -> None:
    typed = {name.replace("_", "-", 1): state for name, state in states.items()}
    page = f"{DESK}weigh-in/"
    rows = {
        f"{row.key}.state": row.weigh_in for row in Entry.objects.filter(tournament__slug="spring")
    }
    rows |= {f"{key}.state": state for key, state in typed.items()}
    assert "weigh-ins recorded" in text(press(client, page, "weigh", **rows))


def test_a_weigh_in_morning(meet: Tournament) -> None:
    client = owner(meet)
    page = text(client.get(f"{DESK}weigh-in/"))
    assert "Licensed medical staff" in page
    weighed(client, **{"125_9": "missed", "125_10": "no-show", "133_4": "missed"})
    assert "Apply the weigh-in: 3 wrestlers" in text(client.get(f"{DESK}weigh-in/"))
    apply = f"{DESK}weigh-in/apply/"
    asked = {
        "125-9.remedy": "bye",
        "125-10.remedy": "substitute",
        "125-10.given": "Sam",
        "125-10.family": "Sub",
        "133-4.remedy": "scratch",
    }
    seen = look(client, apply, **asked)
    for words in ("What follows", "Sam Sub (T10)", "Given9 Family125 (T9)", "scratched"):
        assert words in seen
    assert not LineChange.objects.exists()
    assert "The weigh-in is applied." in do(client, apply, asked)
    assert {row.given["kind"] for row in LineChange.objects.all()} == {"emptied", "replaced"}
    assert entry(meet, "133-4").status == "scratched"
    assert "Nothing to apply." in text(client.get(apply))
    drawn_so = text(client.get(DRAW))
    assert " was vacated. " in drawn_so
    assert "“”" not in drawn_so
    told = text(client.get(f"{DESK}log/"))
    assert "Weigh-in applied" in told


def test_who_is_not_yet_weighed_made_weight_in_one_press(meet: Tournament) -> None:
    client = owner(meet)
    page = f"{DESK}weigh-in/"
    rows = {f"{row.key}.state": row.weigh_in for row in Entry.objects.filter(tournament=meet)}
    rows |= {"125-9.state": "missed"}
    unweighed = Entry.objects.filter(tournament=meet, weigh_in="not yet").exclude(key="125-9")
    n = unweighed.count() + 1
    assert n > 2
    assert f"{n} weigh-ins recorded." in text(press(client, page, "weigh", **rows, rest="on"))
    assert not unweighed.exists()
    assert entry(meet, "125-9").weigh_in == "missed"
    sheet = text(client.get(page))
    assert f'href="{DESK}withdrawals/"' in sheet


def test_a_field_stands_beside_the_remedy_that_needs_it(meet: Tournament) -> None:
    client = owner(meet)
    weighed(client, **{"125_9": "missed", "125_10": "missed"})
    page = text(client.get(f"{DESK}weigh-in/apply/"))
    for needs, name in (("substitute", "125-9.given"), ("withdraw", "125-9.kind")):
        assert re.search(rf'data-for="{needs}">(?:(?!data-for).)*name="{name}"', page, re.DOTALL)
    alone = text(client.get(f"{DESK}entry/125-9/out/"))
    assert re.search(r'data-for="withdraw">(?:(?!data-for).)*name="125-9.kind"', alone, re.DOTALL)


def test_who_made_a_drawn_weight_is_told_the_way_into_it(meet: Tournament) -> None:
    client = owner(meet)
    made = {"weigh_in": "wrong weight", "weighed_as": meet.weights.get(key="125")}
    Entry.objects.filter(key="133-4").update(**made)
    for page in (f"{DESK}weigh-in/apply/", f"{DESK}entry/133-4/out/"):
        seen = text(client.get(page))
        assert "He made 125." in seen
        assert f'href="{DRAW}late/">Late entry at 125<' in seen
    Entry.objects.filter(key="133-4").update(weighed_as=None)
    assert "Late entry at" not in text(client.get(f"{DESK}weigh-in/apply/"))


def test_who_misses_weight_during_the_event_is_not_written_down_as_medical(
    meet: Tournament,
) -> None:
    client = owner(meet)
    wrestle(of(meet, "125-9"), 0)
    weighed(client, **{"125_9": "missed", "125_1": "made"})
    apply = f"{DESK}weigh-in/apply/"
    shown = Selected(text(client.get(apply))).found
    assert shown["125-9.kind"] == "absent"
    assert Selected(text(client.get(f"{DESK}entry/125-8/out/"))).found["125-8.kind"] == "medical"
    do(client, apply, {"125-9.remedy": "withdraw", "125-9.kind": "absent"})
    assert Withdrawal.objects.get().kind == "absent"


def test_who_is_late_and_what_was_wrong(meet: Tournament) -> None:
    client = owner(meet)
    asked = {"given": "Lee", "family": "Late", "team": "t1", "where": "lot", "lot_seed": "1912"}
    seen = look(client, f"{DRAW}late/", **asked)
    assert "The lot chooses the line" in seen
    assert "Reason" in seen
    assert "This field is required" in do(client, f"{DRAW}late/", asked)
    shown = do(client, f"{DRAW}late/", asked, reason="bus broke down")
    assert "by lot among the lines 2, 7, 10, 15 (seed 1912" in shown
    assert "bus broke down" in shown
    swapped = do(client, f"{DRAW}swap/", {"one": "3", "other": "13"}, reason="a slip")
    assert "The lines 3, 13 changed places." in swapped
    assert line_up(drawn(at(meet)).drawn_lines)[2] == "125-9"
    again = do(client, f"{DRAW}anew/", {}, reason="start afresh")
    assert "It was drawn anew:" in again
    assert "start afresh" in again
    assert not LineChange.objects.exists()


def test_one_page_reaches_every_way_out(meet: Tournament) -> None:
    client = owner(meet)
    assert f"{DESK}entry/125-9/out/" in text(client.get(f"{DESK}entry/125-9/"))
    page = f"{DESK}entry/133-9/out/"
    assert "before the draw" in text(client.get(page))
    seen = look(client, page, **{"133-9.remedy": "scratch"})
    assert "Given10 Family133" in seen  # the seed below moves up
    do(client, page, {"133-9.remedy": "scratch"})
    assert entry(meet, "133-9").status == "scratched"
    page = f"{DESK}entry/125-9/out/"
    do(client, page, {"125-9.remedy": "withdraw", "125-9.kind": "medical"})
    assert Withdrawal.objects.get().kind == "medical"
    assert "125-9" in lines(meet)
    assert "not in the field" in text(client.get(f"{DESK}entry/133-9/out/"))


def test_what_cannot_be_is_said_and_has_no_button(meet: Tournament) -> None:
    client = owner(meet)
    seen = look(client, f"{DRAW}swap/", one="3", other="3")
    assert "two different lines" in seen
    assert "do-it" not in seen
    seq = Act.objects.count()
    answer = client.post(f"{DRAW}swap/?one=3&other=3", {"do": "do-it", "reason": "x"})
    assert "two different lines" in text(answer)
    assert Act.objects.count() == seq


def test_the_cut_off_is_stated_in_the_time_of_the_tournament(meet: Tournament) -> None:
    client = owner(meet)
    page = text(press(client, f"{DESK}weigh-in/", "cut-off", at="2026-03-19T08:30"))
    assert "The cut-off is stated." in page
    assert "8:30" in page
    assert "No cut-off is stated." in text(press(client, f"{DESK}weigh-in/", "cut-off", at=""))


def test_public_pages_say_what_was_changed_and_no_reason(meet: Tournament) -> None:
    client = owner(meet)
    do(client, f"{DRAW}swap/", {"one": "3", "other": "13"}, reason="a private matter")
    Tournament.objects.update(shows_draw=True, shows_entries=True, shows_seeds=True)
    shown = text(Client().get("/t/spring/weights/125/"))
    assert "changed places" in shown
    assert "private matter" not in shown
    assert "private matter" not in text(Client().get("/t/spring/draw/?again"))


def test_who_presses_too_late_keeps_what_he_typed_and_sees_what_follows_now(
    meet: Tournament,
) -> None:
    client = owner(meet)
    page = f"{DESK}entry/125-9/out/?125-9.remedy=bye"
    old = form(text(client.get(page)), "do-it")
    do(client, f"{DRAW}swap/", {"one": "3", "other": "13"}, reason="a slip")
    answer = client.post(page, {**old, "do": "do-it", "reason": "overslept"})
    assert "What follows is not what you have seen." in text(answer)
    again = form(text(answer), "do-it")
    assert again["reason"] == "overslept"
    assert again["mark"] != old["mark"]
    done = client.post(page, {**again, "do": "do-it"}, follow=True)
    assert "Done:" in text(done)
    assert entry(meet, "125-9").status == "scratched"


def test_two_lines_to_swap_are_two_lines_from_the_start(meet: Tournament) -> None:
    page = f"{DRAW}swap/"
    lines = Selected(text(owner(meet).get(page))).found
    assert lines == {"one": "1", "other": "2"}


def test_a_weight_that_has_begun_says_at_once_who_can_come_late(meet: Tournament) -> None:
    client = owner(meet)
    page = f"{DRAW}late/"
    assert "the weight is drawn anew</option>" in text(client.get(page))
    wrestle(of(meet, "125-9"), 0)
    begun = text(client.get(page))
    assert "a free line by lot</option>" in begun
    assert "drawn anew" not in begun
    for row in Bout.objects.filter(round="R1", status="ready"):
        wrestle(row, 0)
    for row in Bout.objects.filter(round="QF", status="ready"):
        wrestle(row, 0)
    full = text(client.get(page))
    assert "Nobody can come late here." in full
    assert "Bouts of 125 that have a result: 8. Take these back first" in full
    assert 'name="family"' not in full


def test_a_group_takes_nobody_late_and_says_where(meet: Tournament) -> None:
    grouped(meet)
    shown = text(owner(meet).get(f"{DESK}draw/weights/group-1/late/"))
    assert "Group 1 is a group formed after weigh-in." in shown
    assert f'href="{DESK}groups/young/"' in shown
    assert 'name="family"' not in shown


def test_a_wrong_weight_without_the_one_made_is_recorded_and_said_to_be_missing(
    meet: Tournament,
) -> None:
    client = owner(meet)
    sheet, apply = f"{DESK}weigh-in/", f"{DESK}weigh-in/apply/"
    missing = "The weight that he made is missing."
    assert missing not in text(client.get(sheet))
    weighed(client, **{"133_4": "wrong weight", "133_5": "missed"})
    assert text(client.get(sheet)).count(missing) == 1
    assert entry(meet, "133-4").weigh_in == "wrong weight"
    shown = text(client.get(apply))
    assert missing in shown
    assert f'href="{sheet}#133-4"' in shown
    Entry.objects.filter(key="133-4").update(weighed_as=meet.weights.get(key="125"))
    assert missing not in text(client.get(sheet)) + text(client.get(apply))
