"""The results of a finished tournament as bouts of the organisation's season."""

import json
from datetime import date, datetime

import pytest
from django.test import Client

from brackets.models import Bout
from brackets.queries import numbered
from results.core.errors import BoutsLeft
from results.core.outcomes import Kind, Outcome
from results.models import Result
from results.serializers.document import dump, read_document
from results.services import correct_result, give_back
from seeding.entries.models import Entry, Organisation, Tournament, WeightClass, Wrestler
from seeding.journal.core.errors import NotAllowed
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.models import PriorBout
from seeding.queries import order_of, rules_of, season_of
from seeding.services.season import strike_bout
from tests.results.championship import CALL, document, load, wrestle
from tests.seeding.entries.desks import signed_in

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]

PAGE = "/desk/spring/season/"
ENDS = (
    Outcome(Kind.FALL, 0, time=148),
    Outcome(Kind.TECHNICAL_FALL, 0, (19, 4), time=265),
    Outcome(Kind.DECISION, 0, (5, 3)),
    Outcome(Kind.FORFEIT, 0),
)


def finish(tournament: Tournament) -> None:
    """Wrestle every bout to come; the top side wins."""
    while bout := numbered(tournament).filter(status=Bout.Status.READY).first():
        number = bout.number or 0
        wrestle(bout, 0, ENDS[number % len(ENDS)])


@pytest.fixture
def over() -> Tournament:
    made = load(document(entries=4))
    finish(made)
    return made


@pytest.fixture
def director(over: Tournament) -> Client:
    return signed_in("director", over)


def test_every_bout_that_was_won_is_given_once(over: Tournament) -> None:
    give_back(call=CALL, tournament=over)
    rows = PriorBout.objects.filter(given_by=over)
    assert rows.count() == numbered(over).count()
    assert set(rows.values_list("date", "weight", "level")) == {
        (date(2026, 3, 19), "125", "varsity")
    }
    told = set(rows.values_list("kind", "time"))
    assert {("fall", "2:28"), ("technical fall", "4:25"), ("forfeit", "")} <= told
    before = list(rows.order_by("pk").values())
    give_back(call=CALL, tournament=over)
    assert list(rows.order_by("pk").values()) == before
    assert Act.objects.latest("pk").subject == {"bouts": 0, "corrected": 0, "gone": 0}


@pytest.mark.parametrize(
    ("occurred", "day"),
    [
        ("2026-03-19T04:30:00Z", date(2026, 3, 19)),  # the evening before, in Chicago
        ("2026-03-21T04:30:00Z", date(2026, 3, 20)),
        ("2026-03-23T15:00:00Z", date(2026, 3, 23)),
        ("2026-03-24T15:00:00Z", date(2026, 3, 19)),
        ("2026-11-25T15:00:00Z", date(2026, 3, 19)),
    ],
)
def test_the_day_of_a_bout_is_one_of_the_tournament(
    occurred: str, day: date, over: Tournament
) -> None:
    """An event that is entered in November stays one of March."""
    Result.objects.update(occurred_at=datetime.fromisoformat(occurred))
    give_back(call=CALL, tournament=over)
    assert set(PriorBout.objects.values_list("date", flat=True)) == {day}


def test_the_page_tells_how_many_results_are_not_official(
    over: Tournament, director: Client
) -> None:
    count = numbered(over).count()
    assert f"{count} results of this tournament are not official" in shown(director)
    Result.objects.update(state=Result.State.OFFICIAL)
    assert "not official" not in shown(director)


def shown(client: Client) -> str:
    return client.get(PAGE).content.decode()


def test_a_bout_that_nobody_won_is_left_out() -> None:
    made = load(document(entries=2))
    wrestle(Bout.objects.get(number=1), 0, Outcome(Kind.DOUBLE_FORFEIT, None))
    give_back(call=CALL, tournament=made)
    assert not PriorBout.objects.exists()


def test_nothing_is_given_before_every_bout_is_decided() -> None:
    made = load(document(entries=4))
    wrestle(Bout.objects.get(number=1), 0)
    with pytest.raises(BoutsLeft):
        give_back(call=CALL, tournament=made)
    assert not PriorBout.objects.exists()


def test_a_corrected_result_corrects_the_season(over: Tournament, director: Client) -> None:
    give_back(call=CALL, tournament=over)
    final = Bout.objects.get(number=numbered(over).count())
    before = PriorBout.objects.get(given_as=f"125 {final.key}")
    correct_result(call=CALL, bout=final, outcome=Outcome(Kind.MAJOR, 1, (11, 1)))
    text = director.get(PAGE).content.decode()
    assert "Corrected: the season has another result" in text
    director.post(PAGE, {"do": "give"})
    after = PriorBout.objects.get(given_as=f"125 {final.key}")
    assert (after.winner, after.loser) == (before.loser, before.winner)
    assert after.how == "major decision 11-1"
    assert PriorBout.objects.count() == numbered(over).count()


def test_what_a_file_told_already_is_not_told_twice(over: Tournament) -> None:
    give_back(call=CALL, tournament=over)
    count = PriorBout.objects.count()
    PriorBout.objects.update(given_by=None, given_as="", time="", level="")
    give_back(call=CALL, tournament=over)
    assert PriorBout.objects.filter(given_by=over, level="varsity").count() == count
    assert PriorBout.objects.count() == count


def test_a_struck_bout_stays_struck(over: Tournament) -> None:
    give_back(call=CALL, tournament=over)
    row = PriorBout.objects.order_by("pk")[0]
    strike_bout(call=CALL, tournament=over, bout=row, reason="stopped by the lights")
    PriorBout.objects.filter(pk=row.pk).update(level="")
    give_back(call=CALL, tournament=over)
    again = PriorBout.objects.get(given_as=row.given_as)
    assert (again.struck_reason, again.level) == ("stopped by the lights", "varsity")


def test_two_who_meet_twice_are_two_bouts() -> None:
    made = load(document(entries=4))
    finish(made)
    give_back(call=CALL, tournament=made)
    pairs = [frozenset(pair) for pair in PriorBout.objects.values_list("winner", "loser")]
    assert len(pairs) == numbered(made).count()
    often = {pair for pair in pairs if pairs.count(pair) > 1}
    events = PriorBout.objects.filter(event="Spring Championships (2)")
    assert {frozenset((row.winner_id, row.loser_id)) for row in events} == often


def test_it_is_evidence_in_the_next_tournament_of_the_organisation(over: Tournament) -> None:
    give_back(call=CALL, tournament=over)
    file = document(entries=2)
    file["tournament"] |= {"slug": "summer", "name": "Summer Open", "starts_on": "2026-06-01"}
    summer = load(file)
    weight = WeightClass.objects.get(tournament=summer)
    entries = list(Entry.objects.filter(tournament=summer).select_related("wrestler"))
    season = season_of(weight, entries, rules_of(weight.division))
    assert any(bout.event == "Spring Championships" for bout in season.bouts)
    first, second = order_of(weight).order[:2]
    names = dict(Wrestler.objects.values_list("uid", "given"))
    met = PriorBout.objects.filter(winner__uid=first, loser__uid=second)
    assert met.exists(), (names[first], names[second])


def test_its_own_results_are_no_evidence_for_its_own_seeds(over: Tournament) -> None:
    give_back(call=CALL, tournament=over)
    weight = WeightClass.objects.get(tournament=over)
    entries = list(Entry.objects.filter(tournament=over).select_related("wrestler"))
    assert not season_of(weight, entries, rules_of(weight.division)).bouts


@pytest.mark.parametrize("role", ["committee", "table", "reader"])
def test_only_who_directs_gives_back(role: str, over: Tournament) -> None:
    client = signed_in(role, over)
    assert client.get(PAGE).status_code == 403
    actor = int(client.session["_auth_user_id"])
    with pytest.raises(NotAllowed):
        give_back(call=Call(actor, CALL.now), tournament=over)


def test_the_page_says_what_it_would_do(over: Tournament, director: Client) -> None:
    assert "Give the results back" in director.get(PAGE).content.decode()
    assert PAGE in director.get("/desk/spring/").content.decode()
    director.post(PAGE, {"do": "give"})
    assert "The season has every result" in director.get(PAGE).content.decode()


def test_the_file_of_the_next_tournament_carries_what_was_put_in(over: Tournament) -> None:
    """Times, line-ups, tables and ballots come back as they were."""
    give_back(call=CALL, tournament=over)
    file = document(entries=2)
    file["tournament"] |= {"slug": "summer", "name": "Summer Open", "starts_on": "2026-06-01"}
    file["weight_classes"][0]["seeding"] = {
        "lot_seed": "a",
        "adopted": False,
        "overrides": [],
        "inputs": [
            {"entry": "125-1", "kind": "places", "table": "state last season", "value": 0},
            {"entry": "125-2", "kind": "places", "table": "state last season", "value": 3}
            | {"weight": "133"},
            {"entry": "125-2", "kind": "ranking", "table": "newspaper", "value": 7},
        ],
        "ballots": [
            {"voter": "Coach Ash", "team": "t1", "ranks": [{"entry": "125-2", "rank": 1}]},
            {
                "voter": "Coach Elm",
                "ranks": [{"entry": "125-2", "rank": 1}, {"entry": "125-1", "rank": 2}],
            },
        ],
    }
    file["brackets"] = []
    first = dump(load(file))
    kept = first["weight_classes"][0]["seeding"]
    assert kept["inputs"] == file["weight_classes"][0]["seeding"]["inputs"]
    assert kept["ballots"] == file["weight_classes"][0]["seeding"]["ballots"]
    assert {bout["level"] for bout in first["prior_bouts"]} == {"varsity"}
    assert {bout.get("time", "") for bout in first["prior_bouts"]} >= {"2:28"}
    Organisation.objects.filter(slug="home").update(slug="before")
    Tournament.objects.filter(slug="summer").update(slug="before")
    second = dump(load(read_document(json.dumps(first).encode())))
    assert second["weight_classes"] == first["weight_classes"]
    told = ("date", "kind", "time", "event", "level")
    assert [[bout.get(part) for part in told] for bout in second["prior_bouts"]] == [
        [bout.get(part) for part in told] for bout in first["prior_bouts"]
    ]
