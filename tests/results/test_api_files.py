"""Tournament files that keep to the schema and still cannot be: refused by path, never a fault."""

import copy
from collections.abc import Callable
from typing import Any

import pytest

from seeding.entries.models import Tournament
from tests.results.championship import document
from tests.results.interface import Api, user

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]
Change = Callable[[dict[str, Any]], Any]


def file() -> dict[str, Any]:
    made = document(entries=4)
    made["prior_bouts"] = [
        {"date": "2026-01-10", "weight": "125", "winner": "125-1", "loser": "125-2", "kind": "fall"}
    ]
    made["results"] = [
        {"weight_class": "125", "bout": 1, "winner": None, "kind": "double forfeit"},
    ]
    return made


def again(section: str, **other: Any) -> Change:
    """The first item of a section once more, with something else about it."""
    return lambda made: made[section].append({**made[section][0], **other})


FAULTS: list[tuple[Change, str]] = [
    (lambda made: made["tournament"].update(starts_on="2026-02-30"), "tournament.starts_on"),
    (lambda made: made["prior_bouts"][0].update(date="2026-02-30"), "prior_bouts[0].date"),
    (again("divisions"), "divisions[1].id"),
    (again("teams", id="other"), "teams[4].name"),
    (again("teams", name="Other"), "teams[4].id"),
    (again("weight_classes"), "weight_classes[1].id"),
    (again("entries", seed=None, family="Other"), "entries[4].id"),
    (again("entries", id="other", seed=5), "entries[4].family"),
    (again("entries", id="other", family="Other"), "entries[4].seed"),
    (lambda made: made["entries"][0].update(seed=2**40), "entries[0].seed"),
    (lambda made: made["teams"][0].update(merged_into="t1"), "teams[0].merged_into"),
    (
        lambda made: made.update(withdrawals=[{"entry": "125-1", "kind": "injury"}] * 2),
        "withdrawals[1].entry",
    ),
    (lambda made: made.update(brackets=[{"weight_class": "125"}] * 2), "brackets[1].weight_class"),
    (
        lambda made: made["results"][0].update(occurred_at="2026-02-30T10:00:00Z"),
        "results[0].occurred_at",
    ),
    (
        lambda made: made["results"][0].update(occurred_at="2026-03-19T10:00:00"),
        "results[0].occurred_at",
    ),
]


@pytest.mark.parametrize(("change", "where"), FAULTS, ids=[where for _, where in FAULTS])
def test_a_file_that_cannot_be_is_refused_by_path(change: Change, where: str) -> None:
    made = copy.deepcopy(file())
    change(made)
    answer = Api(user("someone")).ask("post", "/tournament-files/", {"document": made})
    assert answer.status_code == 400
    assert where in [one["attr"] for one in answer.json()["errors"]]
    assert not Tournament.objects.exists()


def test_a_clash_that_only_the_database_sees_is_a_refusal_too() -> None:
    """Two ids for one wrestler of the organisation, once under a name that he has no more."""
    someone = Api(user("someone"))
    first = file()
    first["entries"][0]["wrestler"] = "w1"
    someone.act("post", "/tournament-files/", {"document": first})
    second = file()
    second["tournament"]["slug"] = "second"
    second["entries"][0] |= {"family": "Renamed", "wrestler": "w1"}
    second["entries"].append({**first["entries"][0], "id": "again", "seed": 9, "wrestler": "w2"})
    answer = someone.ask("post", "/tournament-files/", {"document": second})
    assert (answer.status_code, answer.json()["errors"][0]["code"]) == (409, "clash")
    assert Tournament.objects.count() == 1


def test_the_schema_of_the_file_is_published() -> None:
    assert Api().get("/tournament-files/schema/")["title"] == "Tournament file, version 1"


def test_an_organisation_has_to_be_named_by_who_belongs_to_none() -> None:
    nobody = user("nobody")
    nobody.organisation = None
    nobody.save()
    answer = Api(nobody).ask("post", "/tournament-files/", {"document": file()})
    assert answer.json()["errors"][0]["attr"] == "organisation"
    named = {"document": file(), "organisation": "home"}
    assert Api(nobody).ask("post", "/tournament-files/", named).status_code == 403
