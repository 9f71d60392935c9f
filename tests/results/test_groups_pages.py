"""The pages of groups, as a director uses them."""

from datetime import date

import pytest
from django.test import Client

from results.services import draw_every
from seeding.entries.forms.groups import AgeField
from seeding.entries.models import Division, Entry, Measured, Tournament
from seeding.entries.services import add_division
from tests.results.championship import CALL, document, load
from tests.results.desk import buttons, press, text
from tests.results.young import WEIGHED, grouped, young
from tests.seeding.entries.desks import owner

pytestmark = pytest.mark.django_db

PAGE = "/desk/spring/groups/young/"
CHANGE = f"{PAGE}change/"
EVERYBODY = "&entries=young-1&entries=young-2&entries=young-3&entries=young-4"


@pytest.fixture
def tournament() -> Tournament:
    return load(document(entries=2) | {"brackets": []})


@pytest.fixture
def desk(tournament: Tournament) -> Client:
    return owner(tournament)


def typed() -> dict[str, str]:
    """What the scale said, as it is typed."""
    found: dict[str, str] = {}
    for at, (weight, age, years) in enumerate(WEIGHED, start=1):
        found |= {
            f"young-{at}.weight": weight,
            f"young-{at}.age": str(age),
            f"young-{at}.experience": str(years),
        }
    return found


def test_from_a_new_division_to_groups(tournament: Tournament, desk: Client) -> None:
    add_division(
        call=CALL,
        tournament=tournament,
        key="small",
        name="Small",
        rulebook="high-school-2025",
        settings={},
    )
    weights = text(desk.get("/desk/spring/weights/"))
    assert "Groups of Small" in weights
    assert "Groups of Open" not in weights
    started = text(press(desk, "/desk/spring/groups/small/", "start"))
    assert "they wait at “To be grouped”" in started
    assert "Nobody is entered yet." in started


def test_weigh_in_preview_and_groups(tournament: Tournament, desk: Client) -> None:
    young(tournament)
    before = text(desk.get(PAGE))
    assert before.count("no weight yet") == 9
    assert "local code decide" in before
    seen = text(press(desk, PAGE, "measure", **typed()))
    assert "New group 2" in seen
    assert "spread 2.34 lb" in seen
    assert "New group 3" not in seen
    assert "Make 2 groups" in seen
    assert "nobody else is within the limits" in seen
    assert "put them by hand into a group that stands" in seen
    made = text(press(desk, PAGE, "form"))
    assert "Groups that stand" in made
    assert Entry.objects.filter(weight_class__label="Group 1").count() == 4


def test_only_changed_rows_are_recorded(tournament: Tournament, desk: Client) -> None:
    young(tournament)
    press(desk, PAGE, "measure", **{"young-1.weight": "61.37", "young-1.age": "2017-05-01"})
    known = Measured.objects.get()
    assert (known.entry.key, str(known.weight), known.age) == ("young-1", "61.37", 8)
    again = text(press(desk, PAGE, "measure"))
    assert "Nothing was changed." in again
    press(desk, PAGE, "measure", **{"young-1.experience": "2"})
    known.refresh_from_db()
    assert (known.experience, known.version) == (2, 2)


def test_what_cannot_be_is_marked_and_what_was_typed_stays(
    tournament: Tournament, desk: Client
) -> None:
    young(tournament)
    sent = {"young-1.weight": "heavy", "young-2.age": "soon", "young-3.weight": "61.5"}
    answer = text(press(desk, PAGE, "measure", **sent))
    assert "See the marked fields." in answer
    assert "Whole years from 0 to 98, or a date such as 2016-05-31." in answer
    assert 'value="heavy"' in answer
    assert 'value="61.5"' in answer
    assert not Measured.objects.exists()


@pytest.mark.parametrize(
    ("given", "age"),
    [("2016-03-19", 10), ("2016-03-20", 9), ("9", 9), ("", None)],
)
def test_of_a_date_of_birth_the_age_on_the_first_day_is_kept(given: str, age: int | None) -> None:
    assert AgeField(day=date(2026, 3, 19), required=False).clean(given) == age


def test_a_form_that_is_out_of_date_is_refused(tournament: Tournament, desk: Client) -> None:
    young(tournament)
    press(desk, PAGE, "measure", **typed())
    answer = text(press(desk, PAGE, "form", shown="x"))
    assert "was changed in the meantime" in answer


@pytest.fixture
def division(tournament: Tournament) -> Division:
    return grouped(tournament)


def test_a_merger_is_shown_before_it_is_done(division: Division, desk: Client) -> None:
    assert CHANGE in text(desk.get(PAGE))
    chosen = f"{CHANGE}?group=group-2&target=group-1" + "".join(
        f"&entries=young-{number}" for number in range(5, 9)
    )
    seen = text(desk.get(chosen))
    assert "Group 1 · 4 · 61.37 to 63.71 lb" in seen
    assert "To be grouped · 1 · 97.73 lb" in seen
    assert "8 wrestlers, at most 5 are wanted" in seen
    assert "spread 17.94 lb, allowed 6.14 lb" in seen
    assert "nobody; the group is removed" in seen
    refused = text(press(desk, chosen, "regroup"))
    assert "say why it is right here" in refused
    done = text(press(desk, chosen, "regroup", reason="they asked"))
    assert "Reasons given for broken limits" in done
    assert "they asked" in done


def test_a_split_and_a_drawn_group(division: Division, desk: Client) -> None:
    draw_every(call=CALL, tournament=division.tournament)
    chosen = f"{CHANGE}?group=group-1&target=new+group&entries=young-1&entries=young-2"
    seen = text(desk.get(chosen))
    assert "A new group" in seen
    assert "taken back" in seen
    press(desk, chosen, "regroup")
    assert Entry.objects.filter(weight_class__label="Group 3").count() == 2


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("", "Choose the group that somebody leaves."),
        ("?group=group-1&target=group-2", "This field is required."),
        (f"?group=group-1&target=new+group{EVERYBODY}", "would be the same group"),
    ],
)
def test_what_cannot_be_meant_is_said(
    division: Division, desk: Client, query: str, said: str
) -> None:
    assert said in text(desk.get(CHANGE + query))
    assert "regroup" not in buttons(desk, CHANGE + query)


def test_the_log_says_it_in_words(division: Division, desk: Client) -> None:
    log = text(desk.get("/desk/spring/log/"))
    for words in ("Weighed for groups", "Groups formed", "Division forms groups after weigh-in"):
        assert words in log


def test_a_division_with_fixed_weights_says_why_it_forms_no_groups(desk: Client) -> None:
    page = "/desk/spring/groups/open/"
    assert "It has 1 fixed weight." in text(desk.get(page))
    assert "start" not in buttons(desk, page)
    answer = text(desk.post(page, {"do": "start"}))
    assert "“Open” still has 1 fixed weight" in answer


def test_who_waits_to_be_grouped_is_not_drawn_there(tournament: Tournament, desk: Client) -> None:
    young(tournament)
    page = "/desk/spring/draw/weights/young-waiting/"
    shown = text(desk.get(page))
    assert "Nothing to draw." in shown
    assert f'href="{PAGE}"' in shown
    assert "draw" not in buttons(desk, page)
    assert "Draw 1 weight" in text(desk.get("/desk/spring/draw/"))
    overview = text(desk.get("/desk/spring/"))
    assert "9 wrestlers wait to be grouped" in overview
    assert "weight is not drawn: 125" in " ".join(overview.split())


def test_the_public_sees_the_waiting_room_while_somebody_waits(tournament: Tournament) -> None:
    division = grouped(tournament)
    Tournament.objects.update(shows_entries=True, shows_draw=True, shows_results=True)
    pages = [f"/t/spring/{path}" for path in ("", "weights/group-1/")]
    for page in pages:
        assert "To be grouped" in text(Client().get(page))
    division.weights.get(key="young-waiting").entries.update(status="scratched")
    for page in pages:
        seen = text(Client().get(page))
        assert "To be grouped" not in seen
        assert "Group 2" in seen
    assert Client().get("/t/spring/weights/young-waiting/").status_code == 200


def test_one_bout_is_one_bout(tournament: Tournament) -> None:
    Tournament.objects.update(shows_entries=True, shows_draw=True, shows_results=True)
    draw_every(call=CALL, tournament=tournament)
    assert "<span>drawn, 1 bout\n</span>" in text(Client().get("/t/spring/"))


def test_a_tournament_that_only_waits_for_groups_is_not_over(
    tournament: Tournament, desk: Client
) -> None:
    young(tournament)
    Entry.objects.filter(weight_class__key="125").delete()
    tournament.weights.filter(key="125").delete()
    overview = text(desk.get("/desk/spring/"))
    assert 'id="step-entries" class="next"' in overview
    assert "9 wrestlers wait to be grouped" in overview
