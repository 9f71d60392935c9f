"""The tournament file: in, out, in again; and what is refused."""

import io
import json
import random
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from brackets.models import Bout
from brackets.queries import numbered
from results.core.outcomes import Kind, Outcome
from results.serializers.document import check_document, dump, read_document
from results.services import adjust, withdraw
from seeding.entries.models import Division, Entry, Organisation, Team, Tournament
from seeding.journal.core.errors import Invalid
from tests.results.championship import CALL, document, load, side, wrestle

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]

SIDES = [None, None]
KINDS = (
    Outcome(Kind.DECISION, 0, (5, 3)),
    Outcome(Kind.MAJOR, 0, (11, 1)),
    Outcome(Kind.TECHNICAL_FALL, 0, (19, 4), time=265, near_fall=False),
    Outcome(Kind.FALL, 0, time=148),
    Outcome(Kind.DECISION, 0, (6, 6), overtime="TB-2", decided_by="riding time"),
    Outcome(Kind.INJURY, 0, time=197),
    Outcome(Kind.FORFEIT, 0),
    Outcome(Kind.MEDICAL, 0),
    Outcome(Kind.DISQUALIFICATION, 0),
    Outcome(Kind.DOUBLE_DISQUALIFICATION, None),
)


def played(weights: tuple[str, ...], entries: int, share: float) -> Tournament:
    """A tournament with a share of its bouts wrestled, every kind of result among them."""
    tournament = load(document(weights, entries))
    chance = random.Random(7)
    for number in range(1, int(numbered(tournament).count() * share)):
        bout = numbered(tournament).get(number=number)
        if bout.status == Bout.Status.READY:
            outcome = KINDS[number % len(KINDS)]
            if outcome.winner is not None:
                winner = side(chance.randrange(2))
                outcome = Outcome(
                    outcome.kind, winner, outcome.score, outcome.time, outcome.overtime,
                    outcome.decided_by, outcome.near_fall,
                )  # fmt: skip
            wrestle(bout, 0, outcome)
    return tournament


def reloaded(file: dict[str, Any]) -> dict[str, Any]:
    """The dump of a dump loaded under a new organisation."""
    Organisation.objects.filter(slug="home").update(slug="before")
    Tournament.objects.filter(slug=file["tournament"]["slug"]).update(slug="before")
    again: dict[str, Any] = json.loads(json.dumps(dump(load(file))))
    return again


def test_a_dump_loaded_and_dumped_again_is_the_same_document() -> None:
    tournament = played(("125", "133"), 12, 0.6)
    withdraw(call=CALL, entry=Entry.objects.get(key="133-2"), kind="medical", reason="knee")
    adjust(
        call=CALL,
        division=Division.objects.get(),
        team=Team.objects.get(key="t3"),
        points=Decimal(-1),
        reason="unsportsmanlike conduct",
    )
    first = json.loads(json.dumps(dump(tournament)))
    check_document(first)
    assert {item["kind"] for item in first["results"]} == {str(one.kind) for one in KINDS}
    assert reloaded(first) == first


def test_results_may_name_a_bout_by_number_or_by_the_two() -> None:
    file = document(entries=8)
    file["results"] = [
        {"weight_class": "125", "bout": 1, "winner": "125-1", "kind": "decision", "score": [8, 1]},
        {"weight_class": "125", "between": ["125-4", "125-5"], "winner": "125-4", "kind": "fall",
         "time": "2:28"},
    ]  # fmt: skip
    tournament = load(file)
    semifinal = numbered(tournament).get(number=5)
    assert semifinal.top
    assert semifinal.bottom
    assert (semifinal.top.key, semifinal.bottom.key) == ("125-1", "125-4")


WRONG: list[tuple[dict[str, Any], str]] = [
    (
        {"weight_class": "125", "bout": 99, "winner": "125-1", "kind": "forfeit"},
        "results[0]: there is no bout 99 at weight 125",
    ),
    (
        {"weight_class": "125", "between": ["125-1", "125-2"], "kind": "double forfeit"},
        "results[0]: 125-1 and 125-2 are not in one open bout of weight 125",
    ),
    (
        {"weight_class": "125", "bout": 1, "winner": "125-3", "kind": "forfeit"},
        "results[0]: “125-3” is not in bout QF-1, which is between 125-1 and 125-8",
    ),
    (
        {"weight_class": "125", "bout": 1, "winner": "125-1", "kind": "decision", "score": [11, 2]},
        (
            "results[0]: 11-2 is no decision: a decision is won by 1 to 7 points; "
            "9 points apart is a major decision."
        ),
    ),
    (
        {"weight_class": "141", "bout": 1, "winner": "125-1", "kind": "forfeit"},
        "results[0].weight_class: “141” is not an id of this file.",
    ),
]


@pytest.mark.parametrize(("item", "message"), WRONG)
def test_a_wrong_result_is_refused_with_its_path_and_nothing_is_kept(
    item: dict[str, Any], message: str
) -> None:
    file = document(entries=8)
    file["results"] = [item]
    with pytest.raises(Invalid) as refusal:
        load(file)
    assert str(refusal.value) == message
    assert not Tournament.objects.exists()
    assert not Entry.objects.exists()


def test_a_second_open_bout_is_refused_once_it_is_decided() -> None:
    file = document(entries=8)
    result = {"weight_class": "125", "bout": 1, "winner": "125-1", "kind": "forfeit"}
    file["results"] = [result, result]
    with pytest.raises(Invalid, match=r"results\[1\]: bout 1 \(QF-1\) is decided"):
        load(file)


def test_what_is_no_json_and_what_breaks_the_schema_is_refused_by_path() -> None:
    with pytest.raises(Invalid, match="This is no JSON"):
        read_document(b"{")
    file = document(entries=8)
    file["entries"][2]["colour"] = "blue"
    with pytest.raises(Invalid, match=r"entries\[2\].*colour"):
        check_document(file)


def test_an_unknown_setting_is_refused_by_name() -> None:
    with pytest.raises(Exception, match=r"team_points\.bye\b"):
        load(document(entries=8, settings={"team_points.bye": "none"}))


def test_the_commands_load_and_dump(tmp_path: Path) -> None:
    path = tmp_path / "file.json"
    path.write_text(json.dumps(document(entries=8)))
    out = io.StringIO()
    call_command("load_tournament", str(path), stdout=out)
    assert out.getvalue() == "/t/spring/\n"
    out = io.StringIO()
    call_command("dump_tournament", "spring", stdout=out)
    assert len(json.loads(out.getvalue())["bouts"]) == 14
    with pytest.raises(CommandError, match="There is already a tournament at the address “spring”"):
        call_command("load_tournament", str(path))


def test_a_word_that_no_section_knows_is_refused_when_it_is_set() -> None:
    with pytest.raises(Exception, match=r"team_points\.byes.*wins-next"):
        load(document(entries=8, settings={"team_points.byes": "sometimes"}))
    assert not Tournament.objects.exists()


def test_a_dump_comes_back_when_bouts_followed_a_withdrawal() -> None:
    """Who left was forfeited to; the others went on, and one was thrown out later."""
    tournament = load(document(entries=8))
    withdraw(call=CALL, entry=Entry.objects.get(key="125-8"), kind="medical")
    for number in (2, 3, 4, 5):
        wrestle(numbered(tournament).get(number=number), 0)
    withdraw(call=CALL, entry=Entry.objects.get(key="125-4"), kind="injury")
    sent_off = Outcome(Kind.DISQUALIFICATION, side(1), misconduct=True)
    wrestle(numbered(tournament).get(number=6), 0, sent_off)
    final = Bout.objects.get(round="1st")
    wrestle(final, 0)
    first = json.loads(json.dumps(dump(tournament)))
    assert any(line["adjustments"] == "-3" for line in first["team_points"])
    assert reloaded(first) == first


def test_numbers_of_bouts_that_lapsed_come_back() -> None:
    tournament = load(document(entries=8))
    for number in (1, 2):
        wrestle(numbered(tournament).get(number=number), 0, Outcome(Kind.DOUBLE_FORFEIT, None))
    assert Bout.objects.filter(status=Bout.Status.VACANT).exclude(number=None).exists()
    first = json.loads(json.dumps(dump(tournament)))
    assert reloaded(first) == first


@pytest.mark.parametrize(
    ("section", "items", "message"),
    [
        (
            "withdrawals",
            [{"entry": "125-1", "kind": "injury", "after": "R9-1"}],
            r"withdrawals\[0\].after: “R9-1” is no bout of weight 125",
        ),
        (
            "bouts",
            [
                {"weight_class": "125", "round": "QF", "position": at, "number": 2, "sides": SIDES}
                for at in (1, 2)
            ],
            r"bouts\[1\].number: There are two bouts 2",
        ),
    ],
)
def test_a_bout_that_is_not_or_is_twice_is_refused(
    section: str, items: list[dict[str, Any]], message: str
) -> None:
    with pytest.raises(Invalid, match=message):
        load(document(entries=8) | {section: items})
    assert not Tournament.objects.exists()


def test_a_number_of_places_without_points_is_refused() -> None:
    file = document(entries=8)
    file["weight_classes"][0]["places"] = 7
    with pytest.raises(
        Invalid, match=r"weight_classes\[0\].places: .* no team points for 7 places"
    ):
        load(file)


def test_crossings_are_told_and_others_are_refused() -> None:
    tournament = played(("125",), 16, 0.0)
    file = json.loads(json.dumps(dump(tournament)))
    assert file["brackets"][0]["crossings"] == [[3, 4, 1, 2], [2, 1]]
    file["brackets"][0]["crossings"][1] = [1, 2]
    with pytest.raises(Invalid, match=r"brackets\[0\].crossings: By the rule book .*\[2, 1\]\]"):
        reloaded(file)
