"""The invented championship: repeatable, plausible, and fit for a tournament file."""

import hashlib
import json
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from brackets.core.graph import BoutKey
from deploy.scenario import small
from deploy.scenario.chance import Chance
from deploy.scenario.field import SIZES, WEIGHTS
from deploy.scenario.names import TEAMS, TONGUES, people
from deploy.scenario.tournament import SEED, OpenBout, Scenario, scenario
from results.core.outcomes import Kind, Outcome, check
from results.core.rules import ResultRules
from seeding.core.intake import read_season
from seeding.entries.core.intake import plan_roster
from seeding.entries.core.pairing import Known
from seeding.entries.core.roster import Asked
from seeding.entries.core.table import read_table
from seeding.entries.rulebooks import book
from tests.deploy.scenario.hall import Hall

ROOT = Path(__file__).resolve().parents[3]
RULES = ResultRules.from_section(book("college-2025")["results"])
SEEDS = [SEED, "another", "a third"]


@cache
def made(seed: str) -> Scenario:
    return scenario(seed)


@cache
def document(seed: str) -> dict[str, Any]:
    return made(seed).document()


@cache
def whole_day(seed: str) -> tuple[Hall, tuple[tuple[OpenBout, Outcome], ...]]:
    """The day wrestled to its end, and all of it in the order in which it was."""
    hall, told = Hall(document(seed)), []
    for bout, outcome in made(seed).day(hall.open_bouts, last=10**6):
        hall.enter(bout, outcome)
        told.append((bout, outcome))
    return hall, tuple(told)


def entered(weight: str) -> list[dict[str, Any]]:
    entries = document(SEED)["entries"]
    return [one for one in entries if one["weight_class"] == weight and one["status"] == "entered"]


def test_the_same_seed_gives_the_same_document_byte_for_byte() -> None:
    text = json.dumps(scenario().document(), ensure_ascii=False)
    assert text == json.dumps(document(SEED), ensure_ascii=False)
    assert text != json.dumps(document("another"), ensure_ascii=False)
    digest = hashlib.sha256(text.encode()).hexdigest()
    assert digest[:16] == "e4cbd4f5d0570763", "the demo has changed: intended?"


@pytest.mark.parametrize("seed", SEEDS)
def test_the_document_is_a_tournament_file(seed: str) -> None:
    schema = json.loads((ROOT / "results/tournament_file.schema.json").read_text("utf-8"))
    assert list(Draft202012Validator(schema).iter_errors(document(seed))) == []


def test_the_fields_have_their_sizes_and_no_team_two_scorers_in_a_weight() -> None:
    assert [len(entered(weight)) for weight in WEIGHTS] == list(SIZES)
    for weight in WEIGHTS:
        scorers = [one["team"] for one in entered(weight) if one["scoring"]]
        assert len(scorers) == len(set(scorers))
        seeds = sorted(one["seed"] for one in entered(weight) if "seed" in one)
        assert seeds == list(range(1, len(seeds) + 1))
        assert sorted(one["rank"] for one in entered(weight)) == list(
            range(1, len(entered(weight)) + 1)
        )


def test_every_special_case_is_there() -> None:
    entries = document(SEED)["entries"]
    published = Counter(one["publish"] for one in entries)
    assert (published["initials"], published["hidden"]) == (1, 1)
    assert [one["weighed_in"] for one in entries if one["status"] == "scratched"] == ["missed"]
    assert any(not one["scoring"] for one in entries)
    assert [team["members"] for team in document(SEED)["teams"] if "members" in team] == [
        ["Thornby", "Ashlow"]
    ]


def test_ids_and_persons_are_unique_and_everything_named_exists() -> None:
    made_up = document(SEED)
    people_here = [*made_up["entries"], *made_up["wrestlers"]]
    ids = {one["id"] for one in people_here}
    names = {(one["given"], one["family"]) for one in people_here}
    assert len(ids) == len(names) == len(people_here)
    assert {one["team"] for one in made_up["entries"]} == {team["id"] for team in made_up["teams"]}
    for bout in made_up["prior_bouts"]:
        assert {bout["winner"], bout["loser"]} <= ids


def test_a_season_has_about_1500_bouts_and_no_bout_twice() -> None:
    bouts = document(SEED)["prior_bouts"]
    assert 1400 <= len(bouts) <= 1600
    same = {
        (one["date"], one["weight"], one["event"], *sorted((one["winner"], one["loser"])))
        for one in bouts
    }
    assert len(same) == len(bouts)
    assert [one["date"] for one in bouts] == sorted(one["date"] for one in bouts)
    assert max(one["date"] for one in bouts) < document(SEED)["tournament"]["starts_on"]


def test_everybody_has_wrestled_and_nobody_twice_in_two_duals_of_a_day() -> None:
    bouts = document(SEED)["prior_bouts"]
    met = Counter(key for one in bouts for key in (one["winner"], one["loser"]))
    assert min(met[one["id"]] for one in document(SEED)["entries"] if one["id"] != "e999") >= 3
    duals = [one for one in bouts if " v " in one["event"]]
    days = Counter((one["date"], one[side]) for one in duals for side in ("winner", "loser"))
    assert set(days.values()) == {1}


def test_names_are_of_many_origins() -> None:
    names = " ".join(one["given"] + one["family"] for one in document(SEED)["entries"])
    assert any(letter in names for letter in "łøñčőğ")
    families = {family for tongue in TONGUES for family in tongue.family}
    assert len(families) == sum(len(tongue.family) for tongue in TONGUES)
    assert len({team.short for team in TEAMS}) == len(TEAMS) == 24
    with_three = Counter(family for _, family in people(Chance("x", "names"), 400))
    assert max(with_three.values()) <= 3


@pytest.mark.parametrize("seed", SEEDS)
def test_a_whole_day_can_be_wrestled_and_every_outcome_is_allowed(seed: str) -> None:
    hall, told = whole_day(seed)
    assert list(hall.open_bouts()) == []
    for _, outcome in told:
        check(outcome, RULES, complete=True)
    for weight, standing in hall.standings.items():
        assert weight == "285" or len(standing.places) == 8  # the pool's order is not known here
    kinds = Counter(outcome.kind for _, outcome in told)
    assert kinds[Kind.MEDICAL] >= 1
    assert kinds[Kind.INJURY] >= 1


def test_the_season_and_the_day_agree_with_the_rule_book() -> None:
    for met in made(SEED).bouts:
        check(met.outcome, RULES, complete=False)


def test_bouts_end_as_often_in_each_way_as_published() -> None:
    """Association page: 657 falls and 194 technical falls in about 6,400 championship bouts;
    upsets about 16.5 % in a first round of 16 seeds and 21.5 % in the second."""
    told = [one for seed in SEEDS for one in whole_day(seed)[1]]
    kinds = Counter(outcome.kind for _, outcome in told)
    assert kinds[Kind.FALL] / len(told) == pytest.approx(657 / 6400, abs=0.03)
    assert kinds[Kind.TECHNICAL_FALL] / len(told) == pytest.approx(194 / 6400, abs=0.015)
    assert 0.55 < kinds[Kind.DECISION] / len(told) < 0.75
    upsets = Counter(
        (bout.key.round, _upset(seed, bout, outcome))
        for seed in SEEDS
        for bout, outcome in whole_day(seed)[1]
        if bout.weight in ("125", "133", "157", "174") and bout.key.round in ("R1", "R2")
    )
    for code, share in (("R1", 0.165), ("R2", 0.215)):
        all_of_them = upsets[code, True] + upsets[code, False]
        assert upsets[code, True] / all_of_them == pytest.approx(share, abs=0.08)


def _upset(seed: str, bout: OpenBout, outcome: Outcome) -> bool:
    seeds = {one["id"]: one.get("seed", 99) for one in document(seed)["entries"]}
    assert outcome.winner is not None
    return bool(seeds[bout.sides[outcome.winner]] > seeds[bout.sides[1 - outcome.winner]])


def test_an_outcome_hangs_on_its_bout_alone() -> None:
    _, told = whole_day(SEED)
    for bout, outcome in reversed(told[:60]):
        assert made(SEED).outcome(bout.weight, bout.key, bout.sides) == outcome


def test_the_hurt_wrestler_gives_up_his_next_bout() -> None:
    one = made(SEED)
    assert one.outcome("174", BoutKey("R1", 2), ("e1", one.hurt)).kind is Kind.INJURY
    gives_up = one.outcome("174", BoutKey("C1", 1), (one.hurt, "e1"))
    assert (gives_up.kind, gives_up.winner) == (Kind.MEDICAL, 1)


def test_half_a_day_stops_at_its_bout_and_leaves_open_ones() -> None:
    hall = Hall(document(SEED))
    numbers = []
    for bout, outcome in made(SEED).day(hall.open_bouts, last=270):
        hall.enter(bout, outcome)
        numbers.append(bout.number)
    assert max(numbers) <= 270
    assert len(numbers) == len(set(numbers))
    later = {bout.number for bout in hall.open_bouts()}
    assert later
    assert min(later) > 270
    rounds = {bout.key.round for bout in hall.open_bouts()}
    assert {"C2", "SF"} <= rounds


def test_the_small_files_are_the_committed_ones() -> None:
    for name, data in small.files().items():
        committed = (ROOT / "fixtures/demo" / name).read_bytes()
        assert committed == data, f"run `python -m deploy.scenario.small` to write {name} anew"


def test_the_small_roster_goes_in_without_a_problem() -> None:
    data = small.files()["roster.csv"]
    plan = plan_roster(read_table(data, "roster.csv"), Known(Asked(("133", "149"))), strict=False)
    assert (plan.problems, plan.warnings) == ((), ())
    assert Counter(row.weight for row in plan.adds) == {"133": 7, "149": 5}
    assert len(plan.new_teams) == 7


def test_the_small_season_goes_in_and_names_the_roster_alone() -> None:
    data = small.files()
    season = read_season(read_table(data["season.csv"], "season.csv"), ("133", "149"))
    assert (season.problems, season.warnings, season.repeated) == ((), (), ())
    roster = plan_roster(
        read_table(data["roster.csv"], "r.csv"), Known(Asked(("133", "149"))), strict=False
    )
    entered_here = {(row.given, row.family, row.team) for row in roster.adds}
    met = {
        (one.given, one.family, one.team) for row in season.rows for one in (row.winner, row.loser)
    }
    assert met == entered_here
