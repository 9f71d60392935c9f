"""Lists in snapshots of the first schema: read as today's, and changed only by what was added."""

import json
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest

from seeding.core.rules import OwnWrestlers, SeedingRules
from seeding.core.ties import Final
from seeding.entries.core.rulebook import restore
from seeding.entries.core.upgrades import more_of_seeding
from tests.seeding.core.seasons import ROOT, section

OLD = restore((ROOT / "fixtures" / "snapshots_schema_1.json").read_text("utf-8"))
every_book = pytest.mark.parametrize("book", sorted(OLD))


def copy(book: str) -> dict[str, Any]:
    value: dict[str, Any] = json.loads(json.dumps(OLD[book]))
    return value


@every_book
def test_an_old_snapshot_is_of_the_first_schema(book: str) -> None:
    assert OLD[book]["schema"] == 1
    with pytest.raises(Exception, match="seeding"):
        SeedingRules.from_section(OLD[book]["seeding"])


@every_book
def test_it_is_read_when_upgraded(book: str) -> None:
    new = more_of_seeding(copy(book))
    rules = SeedingRules.from_section(new["seeding"])
    assert rules.name == OLD[book]["book"]["name"]
    assert rules.source == "the rule book"
    assert rules.count_at("133") == OLD[book]["seeding"]["count"]
    assert rules.final is Final.LOT


@every_book
def test_it_says_what_the_book_says_today(book: str) -> None:
    """But for the name, and what members may say of their own wrestlers, which was not limited."""
    new = SeedingRules.from_section(more_of_seeding(copy(book))["seeding"])
    today = SeedingRules.from_section(section(book))
    committee = replace(new.committee, own_wrestlers=today.committee.own_wrestlers)
    assert new.committee.own_wrestlers is OwnWrestlers.SAY
    assert replace(new, name=today.name, source=today.source, committee=committee) == today


def added(old: object, new: object) -> object:
    """Whether all that `old` says stands in `new`."""
    if isinstance(old, Mapping) and isinstance(new, Mapping):
        return all(key in new and added(value, new[key]) for key, value in old.items())
    if isinstance(old, list) and isinstance(new, list):
        return len(old) == len(new) and all(map(added, old, new))
    return old == new


@every_book
def test_nothing_is_taken_away(book: str) -> None:
    """What a quality win is over moved into a table of its own."""
    old, new = copy(book), more_of_seeding(copy(book))
    for line in old["seeding"]["criteria"]:
        if line["criterion"] == "quality-wins":
            line["over"] = {"of": line["over"]}
    assert added(old, new)


@every_book
def test_the_old_one_stays_as_it_was(book: str) -> None:
    old = copy(book)
    more_of_seeding(old)
    assert old == OLD[book]


def test_what_was_set_already_is_kept() -> None:
    old = copy("high-school-2025")
    old["seeding"]["counting"]["days"] = 90
    old["seeding"]["final"] = "vote"
    new = more_of_seeding(old)["seeding"]
    assert new["counting"]["days"] == 90
    assert new["final"] == "vote"


@pytest.mark.parametrize(
    ("line", "over"),
    [
        ({"over": "field"}, {"of": "field"}),
        (
            {"over": "ranked", "ranking": "coaches", "top": 8},
            {"of": "ranked", "ranking": "coaches", "top": 8},
        ),
        (
            {"over": "winning", "percentage": "0.5", "minimum_bouts": 5},
            {"of": "winning", "percentage": "0.5", "minimum_bouts": 5},
        ),
    ],
)
def test_every_quality_of_wins(line: dict[str, object], over: dict[str, object]) -> None:
    """As a criterion of the list and as one of the second list."""
    kept = {"name": "good wins", "bouts": "any-weight", "repeats": "every-bout"}
    whole = {**kept, "criterion": "quality-wins", **line}
    old = copy("high-school-2025")
    old["seeding"]["criteria"].append(whole)
    old["seeding"]["ties"] = ["head-to-head", {**whole, "name": "more good wins"}]
    new = more_of_seeding(old)["seeding"]
    assert new["criteria"][-1] == {**kept, "criterion": "quality-wins", "over": over}
    assert new["ties"][1]["over"] == over
    assert [one.name for one in SeedingRules.from_section(new).ties] == [
        "head-to-head",
        "more good wins",
    ]
