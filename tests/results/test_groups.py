"""Divisions without fixed weights: weighed, grouped, drawn, changed until the first result."""

from dataclasses import replace
from decimal import Decimal

import pytest

from brackets.models import Bout, Drawn, TakenBack
from brackets.services import commit_draw, number_bouts
from results.core.errors import GroupWrestled
from results.queries.regroup import Change, regrouped
from results.serializers.document import dump
from results.services import draw_every, draw_weight, regroup
from results.services.load import load_tournament
from seeding.entries.core.errors import (
    GroupedByPage,
    NotGrouped,
    NothingToGroup,
    StillUsed,
    StillWaiting,
)
from seeding.entries.core.groups import Limit
from seeding.entries.models import Division, Entry, GroupReason, Measured, Tournament, WeightClass
from seeding.entries.queries.groups import groups, members, proposed, waiting_of
from seeding.entries.services import add_entry, edit_entry, form_groups, measure, start_groups
from seeding.entries.services.entry import Person
from seeding.entries.services.groups import Figures
from seeding.journal.core.errors import Invalid, KeyReused, NotFound, Stale
from seeding.services import adopt_order
from tests.results.championship import CALL, document, load, wrestle
from tests.results.young import WEIGHED, grouped, weigh, young

pytestmark = pytest.mark.django_db


@pytest.fixture
def tournament() -> Tournament:
    return load(document(entries=2) | {"brackets": []})


@pytest.fixture
def division(tournament: Tournament) -> Division:
    return grouped(tournament)


def at(key: str) -> WeightClass:
    return WeightClass.objects.select_related("division", "tournament").get(key=key)


def inside(key: str) -> set[str]:
    return set(Entry.objects.filter(weight_class__key=key).values_list("key", flat=True))


def group_of(*numbers: int) -> set[str]:
    return {f"young-{number}" for number in numbers}


def test_those_of_nearly_the_same_weight_come_together(division: Division) -> None:
    assert [one.weight.label for one in groups(division)] == ["Group 1", "Group 2"]
    assert inside("group-1") == group_of(1, 2, 3, 4)
    assert inside("group-2") == group_of(5, 6, 7, 8)
    assert inside("young-waiting") == group_of(9)
    assert not [limit for one in groups(division) for limit in one.broken]


def test_who_is_weighed_is_weighed_in(division: Division) -> None:
    entry = Entry.objects.get(key="young-1")
    assert entry.weigh_in == "made"
    measure(call=CALL, division=division, figures={"young-1": Figures(None, 8, 1)})
    entry.refresh_from_db()
    assert entry.weigh_in == "not yet"


def test_a_preview_changes_nothing_and_names_what_is_done(tournament: Tournament) -> None:
    division = young(tournament)
    weigh(division)
    seen = proposed(division)
    assert inside("young-waiting") == group_of(*range(1, 10))
    measure(call=CALL, division=division, figures={"young-1": Figures(Decimal(90), 8, 1)})
    with pytest.raises(Stale):
        form_groups(call=CALL, division=division, shown=seen.digest)
    again = proposed(division)
    form_groups(call=CALL, division=division, shown=again.digest)
    made = [{one.entry.key for one in group} for group in again.groups]
    assert made == [inside(one.weight.key) for one in groups(division)]


def test_who_comes_late_makes_a_further_group_or_joins_one(division: Division) -> None:
    team = division.tournament.teams.get(key="t1")
    waiting = waiting_of(division)
    add_entry(call=CALL, weight=waiting, team=team, person=Person("Late", "Comer"))
    late = Entry.objects.get(wrestler__family="Comer").key
    with pytest.raises(NothingToGroup):
        form_groups(call=CALL, division=division)
    measure(call=CALL, division=division, figures={late: Figures(Decimal(96), 9, 2)})
    form_groups(call=CALL, division=division)
    assert inside("group-3") == {late, "young-9"}


def test_two_who_weigh_the_same_wrestler_do_not_overwrite_each_other(division: Division) -> None:
    seen = Figures(Decimal(61), 8, 1, seen=1)
    measure(call=CALL, division=division, figures={"young-1": seen})
    with pytest.raises(Stale):
        measure(call=CALL, division=division, figures={"young-1": seen})
    assert Measured.objects.get(entry__key="young-1").weight == 61


def test_the_same_key_weighs_once(division: Division) -> None:
    call = replace(CALL, key="once")
    figures = {"young-1": Figures(Decimal(61), 8, 1)}
    first = measure(call=call, division=division, figures=figures)
    assert measure(call=call, division=division, figures=figures) == first
    with pytest.raises(KeyReused):
        measure(call=call, division=division, figures={"young-1": Figures(Decimal(62), 8, 1)})


@pytest.mark.parametrize(
    "figures", [Figures(Decimal(0), 8, 1), Figures(None, 99, 1), Figures(None, 8, -1)]
)
def test_figures_that_cannot_be_are_refused(division: Division, figures: Figures) -> None:
    with pytest.raises(Invalid):
        measure(call=CALL, division=division, figures={"young-1": figures})


def test_only_entries_of_the_division_are_weighed(division: Division) -> None:
    with pytest.raises(NotFound):
        measure(call=CALL, division=division, figures={"125-1": Figures(Decimal(61), 8, 1)})


def test_a_division_with_weights_keeps_them(tournament: Tournament) -> None:
    fixed = tournament.divisions.get(key="open")
    with pytest.raises(StillUsed):
        start_groups(call=CALL, division=fixed)
    with pytest.raises(NotGrouped):
        form_groups(call=CALL, division=fixed)


def test_starting_twice_changes_nothing(division: Division) -> None:
    start_groups(call=CALL, division=division)
    assert WeightClass.objects.filter(division=division).count() == 3


def test_those_who_wait_are_not_drawn(division: Division) -> None:
    with pytest.raises(StillWaiting):
        draw_weight(call=CALL, weight=waiting_of(division))
    draw_every(call=CALL, tournament=division.tournament)
    drawn = Drawn.objects.values_list("weight_class__key", flat=True)
    assert set(drawn) == {"125", "group-1", "group-2"}


def test_nobody_comes_into_a_group_past_its_page(division: Division) -> None:
    team = division.tournament.teams.get(key="t1")
    with pytest.raises(GroupedByPage):
        add_entry(call=CALL, weight=at("group-1"), team=team, person=Person("New", "Comer"))
    entry = Entry.objects.get(key="young-9")
    with pytest.raises(GroupedByPage):
        edit_entry(call=CALL, entry=entry, details={"weight_class": at("group-1")})


def test_merging_needs_a_reason_where_limits_break(division: Division) -> None:
    everybody = sorted(group_of(5, 6, 7, 8))
    into, gone = at("group-1"), at("group-2")
    seen = regrouped(Change(division, gone, tuple(everybody), into))
    assert {one.limit for one in seen.sides[1].broken} == {Limit.MANY, Limit.WEIGHT}
    with pytest.raises(Invalid, match="limit"):
        regroup(call=CALL, group=gone, entries=everybody, target=into)
    act = regroup(call=CALL, group=gone, entries=everybody, target=into, reason="asked for")
    assert act.verb == "groups.merged"
    assert inside("group-1") == group_of(*range(1, 9))
    assert not WeightClass.objects.filter(key="group-2").exists()
    assert GroupReason.objects.get().reason == "asked for"


def test_splitting_makes_the_next_group(division: Division) -> None:
    act = regroup(call=CALL, group=at("group-2"), entries=["young-5", "young-6"], target=None)
    assert act.verb == "group.split"
    assert inside("group-2") == group_of(7, 8)
    assert inside("group-3") == group_of(5, 6)


def test_moving_to_a_group_and_back_to_those_who_wait(division: Division) -> None:
    act = regroup(
        call=CALL,
        group=waiting_of(division),
        entries=["young-9"],
        target=at("group-2"),
        reason="nobody else is near",
    )
    assert act.verb == "group.moved"
    assert inside("group-2") == group_of(5, 6, 7, 8, 9)
    regroup(call=CALL, group=at("group-2"), entries=["young-9"], target=waiting_of(division))
    assert inside("young-waiting") == group_of(9)


def test_a_drawn_group_is_drawn_back_and_others_stand(division: Division) -> None:
    draw_every(call=CALL, tournament=division.tournament)
    regroup(call=CALL, group=at("group-1"), entries=["young-4"], target=waiting_of(division))
    drawn = Drawn.objects.values_list("weight_class__key", flat=True)
    assert set(drawn) == {"125", "group-2"}
    assert not at("group-1").locked
    draw_weight(call=CALL, weight=at("group-1"))


def test_a_group_that_has_begun_stands(division: Division) -> None:
    draw_every(call=CALL, tournament=division.tournament)
    number_bouts(call=CALL, tournament=division.tournament)
    wrestle(Bout.objects.filter(drawn__weight_class__key="group-2", status="ready")[0], 0)
    before = Entry.objects.get(key="young-4").version
    for group, leaves, target in (
        ("group-1", "young-4", "group-2"),
        ("group-2", "young-5", "young-waiting"),
    ):
        with pytest.raises(GroupWrestled):
            regroup(call=CALL, group=at(group), entries=[leaves], target=at(target), reason="why")
    assert Entry.objects.get(key="young-4").version == before
    regroup(call=CALL, group=at("group-1"), entries=["young-4"], target=at("young-waiting"))


def test_seeds_of_a_changed_group_lapse(division: Division) -> None:
    group = at("group-1")
    adopt_order(call=CALL, weight=group)
    assert Entry.objects.filter(weight_class=group).exclude(seed=None).exists()
    regroup(call=CALL, group=group, entries=["young-4"], target=waiting_of(division))
    assert not Entry.objects.filter(key__startswith="young").exclude(seed=None).exists()
    draw_weight(call=CALL, weight=group)


def test_a_group_with_a_seeding_on_record_stays_empty_when_merged(division: Division) -> None:
    adopt_order(call=CALL, weight=at("group-2"))
    everybody = sorted(group_of(5, 6, 7, 8))
    regroup(
        call=CALL, group=at("group-2"), entries=everybody, target=at("group-1"), reason="so few"
    )
    assert not inside("group-2")


def test_the_reason_for_a_committed_draw_says_nothing_of_ours(division: Division) -> None:
    commit_draw(call=CALL, tournament=division.tournament)
    draw_every(call=CALL, tournament=division.tournament)
    regroup(
        call=CALL,
        group=waiting_of(division),
        entries=["young-9"],
        target=at("group-2"),
        reason="he weighs 97.73",
    )
    assert TakenBack.objects.get().reason == "The groups were changed."


@pytest.mark.parametrize(
    ("leaves", "target"),
    [
        ([], "group-2"),
        (["young-5"], "group-2"),
        (["young-1"], "group-1"),
        (["young-1"], "125"),
        (["young-1", "young-2", "young-3", "young-4"], None),
    ],
)
def test_what_cannot_be_meant_is_refused(
    division: Division, leaves: list[str], target: str | None
) -> None:
    to = at(target) if target else None
    with pytest.raises(Invalid):
        regroup(call=CALL, group=at("group-1"), entries=leaves, target=to, reason="why")


def test_a_scratched_wrestler_is_in_no_group(tournament: Tournament) -> None:
    division = young(tournament)
    weigh(division)
    Entry.objects.filter(key="young-1").update(status="scratched")
    form_groups(call=CALL, division=division)
    found = {one.entry.key for group in members(division).values() for one in group}
    assert found == group_of(*range(2, len(WEIGHED) + 1))
    assert "young-1" in inside("young-waiting")


def test_groups_travel_in_a_tournament_file_without_figures(division: Division) -> None:
    file = dump(division.tournament)
    file["tournament"]["slug"] = "copy"
    load_tournament(call=CALL, organisation=division.tournament.organisation, document=file)
    copy = Division.objects.get(tournament__slug="copy", key="young")
    assert waiting_of(copy).label == "To be grouped"
    assert [one.weight.label for one in groups(copy)] == ["Group 1", "Group 2"]
    assert not Measured.objects.filter(entry__tournament__slug="copy").exists()
