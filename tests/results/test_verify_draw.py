"""Drawing again from a tournament file alone."""

import copy
import json
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from brackets.core.draw import in_order
from brackets.core.rules import Apart
from brackets.models import Drawn
from brackets.queries.basis import basis_of, field_of
from brackets.queries.draw_file import DrawFile
from brackets.serializers.verification import Fault, Outcome, verify
from brackets.services import commit_draw
from results.serializers.document import check_document, dump
from results.services import draw_every, merge_teams
from results.services.draw import draw_weight
from seeding.core.lot import Lot
from seeding.entries.models import Entry, Team, Tournament, WeightClass
from seeding.models import Berth, Region
from seeding.services.qualifying import Numbers, set_plan
from tests.results.apart import event, met
from tests.results.championship import CALL, document, load

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]
ALL = {"bracket.keep_apart": ["team", "region", "met"], "bracket.advancing_byes": "by-lot"}


@pytest.fixture
def drawn() -> Tournament:
    """A committed event that looks at teams, regions and earlier meetings, byes by lot."""
    file = event(ALL)
    file["prior_bouts"] = [
        met("120-5", "120-6"),
        met("120-7", "120-9"),
        met("120-10", "120-11", "forfeit"),
        met("120-12", "120-13", date="2024-01-10"),
    ]
    made = load(file)
    set_plan(call=CALL, tournament=made, numbers=Numbers(4, 0, 0, None))
    region = Region.objects.create(tournament=made, letter="A", name="North")
    for entry in Entry.objects.filter(key__in=["120-5", "120-8", "126-3"]):
        Berth.objects.create(
            entry=entry, how=Berth.How.PLACE, region=region, place=entry.pk % 9 + 1
        )
    commit_draw(call=CALL, tournament=made)
    draw_every(call=CALL, tournament=made)
    return made


def file_of(tournament: Tournament) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(json.dumps(dump(tournament)))
    return found


def faults(file: dict[str, Any]) -> set[Fault]:
    check_document(file)
    found = verify(file)
    return {*found.faults, *(fault for one in found.weights for fault in one.faults)}


def test_what_was_drawn_is_drawn_again(drawn: Tournament) -> None:
    found = verify(file_of(drawn))
    assert found.holds
    assert [one.outcome for one in found.weights] == [Outcome.SAME, Outcome.SAME]
    assert all(row.parting["kept"][0]["criterion"] == "team" for row in Drawn.objects.all())


def test_pools_that_were_drawn_in_the_first_way_are_drawn_so_again() -> None:
    """Version 1 kept nobody apart in two pools, and had no record of it."""
    made = load(event({"bracket.two_pools": [7]}, seeded=2, entries=7))
    draw_every(call=CALL, tournament=made)
    file = file_of(made)
    assert not faults(file)
    for item in file["brackets"]:
        told = item["draw"]
        assert (told["draw_version"], told["kept"][0]["pairs"]) == (2, [0, 3])
        told["draw_version"] = 1
    assert faults(file) >= {Fault.RECORD}
    for item in file["brackets"]:
        here = DrawFile(file)
        basis = here.basis(item["weight_class"])
        lot = Lot(item["draw"]["seed"], f"draw/{item['weight_class']}")
        item["lines"] = list(in_order(basis.entrants, lot))
        item["draw"] |= {"kept": [], "patterns": "0"}
    assert not faults(file)


def test_the_file_tells_the_field_as_the_tables_do(drawn: Tournament) -> None:
    for key in ("120", "126"):
        weight = WeightClass.objects.get(key=key)
        assert DrawFile(dump(drawn)).basis(key) == basis_of(weight, field_of(weight))
    rows = {row["entry"]: row for row in Drawn.objects.get(weight_class__key="120").basis["rows"]}
    assert rows["120-5"]["met"] == ["120-6"]
    assert rows["120-10"]["met"] == []  # a forfeit
    assert rows["120-12"]["met"] == []  # another season
    assert (rows["120-5"]["region"], rows["120-6"]["region"]) == ("A", "")


def swap(file: dict[str, Any]) -> None:
    lines = file["brackets"][0]["lines"]
    taken = [at for at, one in enumerate(lines) if one]
    lines[taken[1]], lines[taken[-1]] = lines[taken[-1]], lines[taken[1]]


def other_seed(file: dict[str, Any]) -> None:
    file["brackets"][0]["draw"]["seed"] = "mine"


def move_entry(file: dict[str, Any]) -> None:
    file["entries"][6]["team"] = "t9"


def other_weight(file: dict[str, Any]) -> None:
    file["entries"][1]["weight_class"] = "126"


def unseed(file: dict[str, Any]) -> None:
    file["entries"][0]["seed"] = 5


def forget(file: dict[str, Any]) -> None:
    file["prior_bouts"].clear()


def embellish(file: dict[str, Any]) -> None:
    file["brackets"][1]["draw"]["kept"][0]["pairs"][0] += 1


def other_commitment(file: dict[str, Any]) -> None:
    file["draw_commitment"]["digest"] = "0" * 64


def other_everywhere(file: dict[str, Any]) -> None:
    other_commitment(file)
    for item in file["brackets"]:
        item["draw"]["commitment"] = "0" * 64


def later(file: dict[str, Any]) -> None:
    file["draw_commitment"]["at"] = "2027-01-01T00:00:00Z"


def second(file: dict[str, Any]) -> None:
    file["brackets"][0]["draw"]["number"] = 2


def without_record(file: dict[str, Any]) -> None:
    del file["brackets"][0]["draw"]


def unknown_way(file: dict[str, Any]) -> None:
    file["brackets"][0]["draw"]["draw_version"] = 9


def settings(file: dict[str, Any]) -> None:
    file["divisions"][0]["snapshot"]["bracket"]["keep_apart"] = []


@pytest.mark.parametrize(
    ("tamper", "wanted"),
    [
        (swap, {Fault.LINES}),
        (other_seed, {Fault.LINES, Fault.FIELD, Fault.SEED}),
        (move_entry, {Fault.FIELD}),
        (other_weight, {Fault.FIELD, Fault.LINES}),
        (unseed, {Fault.FIELD}),
        (forget, {Fault.FIELD}),
        (embellish, {Fault.RECORD}),
        (other_commitment, {Fault.OTHER, Fault.COMMITMENT}),
        (other_everywhere, {Fault.COMMITMENT}),
        (later, {Fault.LATE}),
        (second, {Fault.SEED, Fault.NUMBER}),
        (without_record, {Fault.OTHER, Fault.SEED}),
        (unknown_way, {Fault.VERSION, Fault.LINES}),
        (settings, {Fault.LINES, Fault.RECORD}),
    ],
)
def test_a_tampered_file_is_found_out(drawn: Tournament, tamper: Any, wanted: set[Fault]) -> None:
    file = file_of(drawn)
    tamper(file)
    assert wanted <= faults(file)
    assert not verify(file).holds


def test_what_changes_after_the_draw_is_told_apart(drawn: Tournament) -> None:
    """Teams merged, an entry scratched and another come late, a bout told, two lines swapped."""
    merge_teams(call=CALL, team=Team.objects.get(key="t1"), into=Team.objects.get(key="t2"))
    Entry.objects.filter(key="120-14").update(status="scratched")
    late = Entry.objects.get(key="126-14")
    Entry.objects.filter(pk=late.pk).update(weight_class=WeightClass.objects.get(key="120"))
    row = Drawn.objects.get(weight_class__key="120")
    row.lines = [*row.lines[2:], *row.lines[:2]]
    row.save()
    file = file_of(drawn)
    check_document(file)
    item = file["brackets"][0]
    assert item["drawn_lines"] != item["lines"]
    told = {one["entry"]: one for one in item["draw"]["as_drawn"]["entries"]}
    assert told["126-14"] == {"entry": "126-14", "entered": False}
    assert told["120-14"]["team"] == "t3"
    found = verify(file)
    assert found.holds
    assert [one.changed for one in found.weights] == [True, False]


def test_a_season_told_later_changes_nothing(drawn: Tournament) -> None:
    file = file_of(drawn)
    file["brackets"][0]["draw"]["as_drawn"] = {"entries": [], "holes": [9]}
    assert Fault.FIELD in faults(file)


def test_team_mates_are_kept_apart(drawn: Tournament) -> None:
    """Fourteen of four teams on sixteen lines: nobody meets one of his at once, and it is proven
    that no draw does better; where the byes fall by lot, they say how much that is."""
    for row in Drawn.objects.all():
        teams = dict(Entry.objects.values_list("key", "team__key"))
        for at in range(0, 16, 2):
            pair = [teams[one] for one in row.drawn_lines[at : at + 2] if one]
            assert len(set(pair)) == len(pair)
        kept = row.parting["kept"][0]
        assert kept["criterion"] == Apart.TEAM
        assert kept["pairs"] == kept["bound"]


def test_lines_of_a_file_are_given_not_drawn() -> None:
    lines = [f"125-{seed}" for seed in (1, 8, 5, 4, 3, 6, 7, 2)]
    file = document(entries=8) | {"brackets": [{"weight_class": "125", "lines": lines}]}
    found = verify(file_of(load(file)))
    assert [one.outcome for one in found.weights] == [Outcome.GIVEN]
    assert found.holds


def test_by_region_without_any_lot() -> None:
    spots = ["A1", "B4", "B2", "A3", "B1", "A4", "A2", "B3"]
    settings = {"seeding.fill": "regions", "seeding.region_lines.8": spots}
    file = document(entries=8, settings=settings, rulebook="high-school-2025") | {"brackets": []}
    made = load(file)
    set_plan(call=CALL, tournament=made, numbers=Numbers(4, 0, 0, None))
    for letter in "AB":
        Region.objects.create(tournament=made, letter=letter, name=letter)
    for at, entry in enumerate(Entry.objects.order_by("pk")):
        region = Region.objects.get(letter="AB"[at % 2])
        how = Berth.How.PLACE
        Berth.objects.create(entry=entry, how=how, region=region, place=at // 2 + 1)
    row = WeightClass.objects.select_related("division", "tournament").get()
    draw_weight(call=CALL, weight=row)
    file = file_of(made)
    assert verify(file).holds
    berths = file["qualifying"]["berths"]
    berths[0]["place"], berths[2]["place"] = berths[2]["place"], berths[0]["place"]
    assert {Fault.FIELD, Fault.LINES} <= faults(file)


def run(path: Path, capsys: pytest.CaptureFixture[str]) -> str:
    call_command("verify_draw", str(path))
    return capsys.readouterr().out


def test_the_command_reads_the_file_alone(
    drawn: Tournament, tmp_path: Path, capsys: pytest.CaptureFixture[str], django_db_blocker: Any
) -> None:
    file = file_of(drawn)
    good, bad = tmp_path / "good.json", tmp_path / "bad.json"
    good.write_text(json.dumps(file), "utf-8")
    tampered = copy.deepcopy(file)
    swap(tampered)
    bad.write_text(json.dumps(tampered), "utf-8")
    with django_db_blocker.block():
        heads, first, *_ = run(good, capsys).splitlines()
        assert heads.split()[:2] == ["weight", "lines"]
        seed = file["brackets"][0]["draw"]["seed"]
        assert first.split() == ["120", "16", "same", seed, "yes", first.split()[-1]]
        with pytest.raises(CommandError, match="Something differs"):
            run(bad, capsys)
        assert "DIFFERENT" in capsys.readouterr().out
        with pytest.raises(CommandError, match=r"nowhere.json cannot be read"):
            run(tmp_path / "nowhere.json", capsys)
        good.write_text('{"format": "x"}', "utf-8")
        with pytest.raises(CommandError, match="What is wrong"):
            run(good, capsys)
