"""Team-mates kept apart: what is published about it, and the cases that the laws leave out."""

from collections import Counter
from collections.abc import Mapping
from typing import Any

import pytest
from scipy.stats import chi2

from brackets.core.apart.criteria import KeepApart
from brackets.core.apart.result import Draw
from brackets.core.apart.separated import DRAW_VERSION, separated_draw
from brackets.core.draw import Entrant
from brackets.core.errors import SeedTwice
from brackets.core.lines import line_order
from brackets.core.rules import Apart, BracketRules
from brackets.core.slots import slots
from seeding.core.lot import Lot
from tests.brackets.core.books import published, rules
from tests.brackets.core.fields import TEAM, entrants, meetings, team_pairs

USED = rules(round_robin_up_to=0)
BY_LOT = rules(round_robin_up_to=0, advancing_byes="by-lot")
PIGTAILS_BY_LOT = rules(round_robin_up_to=0, advancing_byes="by-lot", pigtails_up_to=4)


def drawn(field: list[Entrant], seed: str = "1912", keep: KeepApart = TEAM) -> Draw:
    return separated_draw(field, USED, Lot(seed, "draw/125"), keep)


def with_one_team(given: Mapping[str, Any]) -> list[Entrant]:
    """Eight seeds where there are any; the team has these, and so many unseeded."""
    seeds = 8 if given["seeds"] else 0
    field = []
    for number in range(1, given["entrants"] + 1):
        of_team = number in given["seeds"] or seeds < number <= seeds + given["unseeded"]
        seed = number if number <= seeds else None
        field.append(Entrant(f"e{number:02}", seed, "one" if of_team else f"t{number}"))
    return field


def first_rounds(found: Draw, field: list[Entrant]) -> list[str]:
    """Where team-mates can meet first, by the graph of the bracket."""
    first = meetings(found.lines, USED)
    return [first[frozenset(pair)] for pair in team_pairs(field)]


@pytest.mark.parametrize("case", published("draw.json"), ids=lambda case: case["id"])
def test_the_earliest_meetings_of_a_team(case: dict[str, Any]) -> None:
    field = with_one_team(case["given"])
    for seed in range(5):
        found = drawn(field, str(seed))
        rounds = first_rounds(found, field)
        assert Counter(rounds) == case["expect"]
        assert found.certified
        assert found.version == DRAW_VERSION == 2


def test_a_draw_is_the_recorded_one() -> None:
    """Fixed for good: a change here is another version of the draw."""
    field = entrants("AAABBBCCDDEE-", [0, 3, 6, 8])
    found = drawn(field)
    assert found.lines == (
        *("e000", None, "e007", "e005", "e012", "e001", "e010", "e008"),
        *("e006", None, "e009", "e004", "e011", "e002", None, "e003"),
    )
    assert found.patterns == 1728
    # Of three of a team two are in one half: a pair of A and a pair of B.
    assert found.record == {
        "kept": [{"criterion": "team", "pairs": [0, 0, 0, 2], "bound": [0, 0, 0, 2]}],
        "patterns": "1728",
    }


def test_nothing_to_keep_apart_leaves_every_order_possible() -> None:
    found = drawn(entrants("AABBCC"), keep=KeepApart(()))
    assert found.patterns == 720
    assert found.kept == ()
    assert found.certified


def test_team_mates_who_are_all_seeded_cost_what_they_cost() -> None:
    found = drawn(entrants("AAAA", [0, 1, 2, 3]))
    assert found.kept[0].pairs == (0, 0, 2)
    assert found.certified
    assert found.patterns == 1


@pytest.mark.parametrize("used", [rules(round_robin_up_to=5), rules(two_pools=[6])])
def test_a_small_field_is_drawn_in_order_of_seeds(used: BracketRules) -> None:
    field = entrants("AABBAC"[: 6 if used.two_pools else 4], range(6))
    found = separated_draw(field, used, Lot("1", "draw"), TEAM)
    assert found.lines == tuple(one.id for one in field)
    # Of A (1, 2, 5) and B (3, 4) only 1 and 5 are in one pool.
    assert [one.pairs for one in found.kept] == ([(1, 3)] if used.two_pools else [])
    assert found.certified


def test_a_scratched_seed_makes_no_pool_of_a_bracket() -> None:
    used = rules(two_pools=[7])
    field = [one for one in entrants("ABCDEFG", [0, 1]) if one.seed != 2]
    found = separated_draw(field, used, Lot("1", "draw"), TEAM, holes=[2])
    assert len(found.lines) == 8


def test_a_scratched_seed_leaves_a_bye() -> None:
    field = [one for one in entrants("ABCDEFGHAB", [0, 1, 2, 3, 4]) if one.seed != 3]
    found = separated_draw(field, rules(pigtails_up_to=0), Lot("1", "draw"), TEAM, holes=[3])
    assert [found.lines[i] for i, rank in enumerate(line_order(16, USED)) if rank == 3] == [None]


def test_a_seed_twice() -> None:
    with pytest.raises(SeedTwice):
        drawn([Entrant("a", 1, "A"), Entrant("b", 1, "B"), Entrant("c", 2, "")])


def test_regions_and_earlier_bouts_come_after_teams() -> None:
    """Two teams of two regions: the second regions' pairs part in their half as well."""
    regions = {"A": "north", "B": "north", "C": "south", "D": "south"}
    field = [
        Entrant(
            one.id,
            None,
            one.team,
            regions[one.team],
            frozenset({"e000"} if one.team == "D" else ()),
        )
        for one in entrants("AABBCCDD")
    ]
    found = drawn(field, keep=KeepApart((Apart.TEAM, Apart.REGION, Apart.MET)))
    team, region, met = found.kept
    assert (team.pairs, region.pairs) == ((0, 0, 0), (0, 0, 4))
    assert team.certified
    assert region.certified
    assert met.bound == (0, 0, 0)
    assert sum(met.pairs) == 1
    assert not found.certified


def test_a_pair_of_seeds_who_met_is_no_gap() -> None:
    field = [
        Entrant("a", 1, "", met=frozenset({"c", "stranger", "a"})),
        *(Entrant("b", 2, ""), Entrant("c", 4, ""), Entrant("d", 3, "", met=frozenset({"e"}))),
        *(Entrant("e", None, ""), Entrant("f", None, ""), Entrant("g", None, "")),
    ]
    found = drawn(field, keep=KeepApart((Apart.MET,)))
    assert found.certified
    first = meetings(found.lines, USED)
    assert [first[frozenset(pair)] for pair in ("ac", "de")] == ["SF", "1st"]


def test_byes_by_lot_come_to_every_bout_alike() -> None:
    seeded, times = ("a", "b", "c", "d"), 2000
    bouts: Counter[int] = Counter()
    for seed in range(times):
        found = slots(seeded, 8, BY_LOT, Lot(str(seed), "draw"))
        there = {slot.line for slot in found.slots}
        bouts.update(line // 2 for line in range(16) if line not in there)
    mean = times * 4 / 8
    assert sorted(bouts) == list(range(8))
    statistic = sum((n - mean) ** 2 / mean for n in bouts.values())
    assert statistic < chi2.ppf(0.999, 7)


def test_a_bye_by_scratch_is_not_doubled() -> None:
    for seed in range(20):
        found = slots(("a", None, "c", "d"), 7, BY_LOT, Lot(str(seed), "draw"))
        byes = set(range(found.lines)) - {slot.line for slot in found.slots}
        assert len({line // 2 for line in byes}) == len(byes) == 6


def test_pigtails_by_lot_stand_anywhere_but_on_a_seed() -> None:
    places = set()
    for seed in range(60):
        found = slots(("a", "b", "c", "d"), 6, PIGTAILS_BY_LOT, Lot(str(seed), "draw"))
        shared = [slot.line for slot in found.slots if slot.half]
        assert len({line // 2 for line in shared}) == len(shared) == 2
        places.update(shared)
    seeds = {line for line, rank in enumerate(line_order(8, PIGTAILS_BY_LOT)) if rank <= 4}
    assert places == set(range(8)) - seeds


def test_pigtails_that_find_no_bout_stand_by_rank() -> None:
    found = slots(tuple("abcdefgh"), 2, PIGTAILS_BY_LOT, Lot("1", "draw"))
    assert [slot.rank for slot in found.free] == [9, 10]
    assert [slot.line for slot in found.free] == [1, 6]
