"""The pipeline: filter, groups, orders inside them, swaps, floors, team-mates apart."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest

from seeding.core.lot import Lot
from seeding.core.order import Proposal, propose
from seeding.core.reasons import Step
from seeding.core.rules import SeedingRules
from seeding.core.season import Season
from tests.seeding.core.seasons import WEIGHT, bout, list_section, met, season

Stage = Mapping[str, Any]
NAMES = {"A": "Ann", "B": "Bea", "C": "Cat", "D": "Dot", "E": "Eve", "J": "Joy"}
ANY = {"bouts": "any-weight"}
RANK = {"name": "rank", "criterion": "ranking", "ranking": "coaches", "missing": "worse"}
WINS = {"name": "wins", "criterion": "wins", "missing": "worse", **ANY}
RECORD = {
    "name": "record",
    "criterion": "win-percentage",
    "minimum_bouts": 1,
    "equal": "nobody",
    "missing": "worse",
    **ANY,
}
LADDER = {"shape": "ladder", "restart": False, "circles": "committee", "circle_criteria": []}


def by_rank(group: int = 0, ties: tuple[str, ...] = ()) -> Stage:
    return {"stage": "order", "group": group, "ties": [*ties], **LADDER, "criteria": [RANK]}


def swap(group: int = 0) -> Stage:
    return {"stage": "swap", "group": group, "name": "meeting", "rule": "majority", **ANY}


def placers(stage: str, *groups: list[int], **keys: object) -> Stage:
    table = {"name": "district place", "event": "district", "places_at": "any-weight"}
    return {"stage": stage, **table, "groups": [*groups], **keys}


def held(rest: str, least: object = "0.5", criterion: Stage = RECORD) -> Stage:
    return {"stage": "filter", "at_least": least, "rest": rest, "criterion": criterion}


def apart(part: str, count: int = 8) -> Stage:
    return {"stage": "team-mates-apart", "apart": part, "count": count}


def run(known: Season, *stages: Stage, field: str = "ABCD", **changed: object) -> Proposal:
    section = list_section("south-dakota") | {"count": 16, "final": "lot", "ties": []}
    lines = SeedingRules.from_section(section | changed | {"stages": [*stages]})
    return propose(field, known, lines, "1912")


def ranked(order: str, *bouts: str, **more: Any) -> Season:
    table = {one: at for at, one in enumerate(order, 1)}
    return season(*met(bouts), rankings={"coaches": table}, **more)


def order(proposal: Proposal) -> str:
    return "".join(proposal.order)


@pytest.mark.parametrize(("rest", "count"), [("behind", 4), ("unseeded", 2)])
def test_a_filter_holds_back(rest: str, count: int) -> None:
    """B is 1-2, C has no bout: neither has a record of .500."""
    known = ranked("BCAD", "AB", "DB", "BX")
    proposal = run(known, held(rest), by_rank())
    assert order(proposal) == "ADBC"
    assert proposal.count == count
    assert list(proposal.seeds) == list("ADBC")[:count]
    reason = proposal.reason("D", "B")
    assert (reason.step, reason.criterion) == (Step.STAGE, "record")
    assert reason.say(NAMES) == (
        "The list asks for at least .500 in record: Dot has 1.000 (1-0), Bea has .333 (1-2)."
    )


def test_a_filter_says_who_has_nothing() -> None:
    reason = run(ranked("CA", "AX"), held("unseeded"), by_rank(), field="AC").reasons[0]
    assert reason.say(NAMES) == (
        "The list asks for at least .500 in record: Ann has 1.000 (1-0), Cat has none, no bouts."
    )


def test_whom_one_filter_leaves_unseeded_a_later_one_does_not_seed() -> None:
    """C has one win, D none; only A and B have two. Whoever is unseeded comes after all others."""
    known = ranked("DCAB", "AX", "AY", "BX", "BY", "CX")
    proposal = run(
        known, held("unseeded", 1, WINS), held("behind", 2, WINS), by_rank(), field="ABCD"
    )
    assert order(proposal) == "ABCD"
    assert proposal.count == 3


def test_a_filter_after_an_order_keeps_it_inside() -> None:
    proposal = run(ranked("ABCD", "BX", "DX"), by_rank(), held("behind", 1, WINS))
    assert order(proposal) == "BDAC"
    assert proposal.reason("B", "D").criterion == "rank"
    assert proposal.reason("B", "A").criterion == "wins"


def test_groups_come_one_behind_the_other() -> None:
    known = ranked("DCBA", places={"district": {"A": 1, "B": 3, "C": 2}})
    proposal = run(known, placers("groups", [1], [2, 3]), by_rank(2), by_rank(), field="ABCDE")
    assert order(proposal) == "ACBDE"
    assert proposal.reason("A", "C").criterion == "district place"
    assert proposal.reason("A", "C").say(NAMES) == (
        "Ann is ahead in district place (district): 1st against 2nd."
    )
    assert proposal.reason("C", "B").criterion == "rank"
    assert proposal.reason("D", "E").say(NAMES) == ("Dot is ahead in rank: 1 against not ranked.")


def test_what_no_stage_orders_goes_by_ties_and_lot() -> None:
    """Of the rest A has a win; B and C have nothing at all."""
    known = ranked("", "AX", places={"district": {"D": 1}})
    ties = [{"name": "wins", "criterion": "wins", "bouts": "any-weight", "missing": "worse"}]
    proposal = run(known, placers("groups", [1]), ties=ties)
    assert order(proposal)[:2] == "DA"
    assert order(proposal)[2:] == "".join(Lot("1912", f"seeding/{WEIGHT}/3-4").shuffled("BC"))
    assert proposal.drawn == (("B", "C"),)
    assert proposal.reason("A", "B").say(NAMES) == (
        "No stage of the list parts Ann and Bea. "
        "Among those level, wins puts Ann above Bea: pairs won 2 against .5. "
        "Ann is ahead in wins: 1 against 0."
    )
    last = proposal.reason("B", "C")
    assert last.step is Step.LOT
    assert last.say().startswith("No stage of the list parts ")
    assert "so the lot did (seed 1912)" in last.say()


def test_a_group_that_only_people_can_part_is_open() -> None:
    proposal = run(ranked("A"), by_rank(), final="committee")
    assert proposal.open == (("B", "C", "D"),)
    assert not proposal.drawn
    assert proposal.reasons[-1].step is Step.OPEN


def test_ties_inside_a_stage_are_its_own() -> None:
    """B and C are not ranked; the stage's second list looks at their wins."""
    ties = {**by_rank(), "ties": [WINS]}
    proposal = run(ranked("A", "CX"), ties, field="ABC")
    assert order(proposal) == "ACB"
    assert proposal.reason("C", "B").criterion == "wins"


def test_a_swap_moves_one_step() -> None:
    """D beat A, who stands three above him: nothing. D beat C, who stands directly above."""
    proposal = run(ranked("ABCD", "DA", "DC"), by_rank(), swap())
    assert order(proposal) == "ABDC"
    reason = proposal.reason("D", "C")
    assert (reason.step, reason.criterion) == (Step.STAGE, "meeting")
    assert reason.say(NAMES) == (
        "Dot stood one place below Cat, and they changed places. "
        "Dot beat Cat (decision 5-3, Harbour Open, 2024-11-02)."
    )
    assert proposal.reason("B", "D").criterion == "rank"


def test_each_is_moved_once() -> None:
    """B beat A and changes with her; C beat A too, but A has moved."""
    assert order(run(ranked("ABC", "BA", "CA"), by_rank(), swap(), field="ABC")) == "BAC"


def test_a_swap_stays_in_its_group() -> None:
    known = ranked("ABCD", "CB", "DC", places={"district": {"A": 1, "B": 1}})
    stages = (placers("groups", [1]), by_rank(1), by_rank(2))
    assert order(run(known, *stages, swap())) == "ABDC"
    assert order(run(known, *stages, swap(1))) == "ABCD"
    assert order(run(known, *stages, swap(2))) == "ABDC"


def test_a_circle_moves_nobody() -> None:
    """Association page: a region of New Jersey, 2015; the three bouts are thrown out."""
    proposal = run(ranked("ABCD", "BA", "CB", "AC", "DC"), by_rank(), swap())
    assert order(proposal) == "ABDC"
    (found,) = proposal.circles
    assert found.circle.wrestlers == ("A", "B", "C")
    assert found.settled.say() == (
        "The meetings of the circle are thrown out: none of them moves anybody."
    )
    assert proposal.reason("A", "B").criterion == "rank"


FLOOR = placers("floor", [1], place=3)


@pytest.mark.parametrize(
    ("places", "expected"),
    [
        ({}, "ABCDEF"),
        ({"B": 1}, "ABCDEF"),
        ({"E": 1}, "ABECDF"),
        ({"F": 1, "E": 1}, "AEFBCD"),
        ({"F": 1, "B": 1}, "ABFCDE"),
        ({"C": 1, "F": 1}, "ACFBDE"),
        ({"A": 1, "B": 1, "C": 1, "F": 1}, "ABCDEF"),
        ({"D": 1, "E": 1, "F": 1, "B": 1}, "BDEACF"),
        ({"F": 2}, "ABCDEF"),
    ],
)
def test_a_floor_lifts_the_first_group(places: dict[str, int], expected: str) -> None:
    proposal = run(ranked("ABCDEF", places={"district": places}), by_rank(), FLOOR, field="ABCDEF")
    assert order(proposal) == expected


def test_a_floor_says_whom_it_lifts() -> None:
    known = ranked("ABCDE", places={"district": {"E": 1}})
    proposal = run(known, by_rank(), FLOOR, field="ABCDE")
    assert proposal.reason("E", "C").say(NAMES) == (
        "By the list Eve stands at place 3 or better. "
        "Eve is ahead in district place (district): 1st against no place."
    )
    assert proposal.reason("B", "E").criterion == "rank"


def homes(known: Season, *teams: str) -> Season:
    return replace(known, homes={one: team for team in teams for one in team})


@pytest.mark.parametrize(
    ("part", "teams", "expected"),
    [
        # In halves stand 1 4 5 8 and 2 3 6 7.
        ("half", ["AD"], "ABCFEDGH"),
        ("half", ["AB"], "ABCDEFGH"),
        ("half", ["BC"], "ABDCEFGH"),
        # In quarters stand 1 8, 2 7, 3 6, 4 5: two of a half may be of one team.
        ("quarter", ["AD"], "ABCDEFGH"),
        ("quarter", ["DE"], "ABCDFEGH"),
        ("quarter", ["AH"], "ABCDEFGH"),
    ],
)
def test_team_mates_start_apart(part: str, teams: list[str], expected: str) -> None:
    known = homes(ranked("ABCDEFGH"), *teams)
    proposal = run(known, by_rank(), apart(part), field="ABCDEFGH")
    assert order(proposal) == expected


def test_team_mates_below_the_count_stay() -> None:
    known = homes(ranked("ABCDEF"), "AD")
    assert order(run(known, by_rank(), apart("half", 3), field="ABCDEF")) == "ABCDEF"
    assert order(run(known, by_rank(), apart("half", 5), field="ABCDEF")) == "ABCDEF"
    assert order(run(known, by_rank(), apart("half", 6), field="ABCDEF")) == "ABCFED"


def test_the_reason_of_team_mates_is_true_of_all_whom_it_moved() -> None:
    """D changes with G; E and F stand between them and were not changed with anybody."""
    known = homes(ranked("ABCDEFGH"), "ADE")
    proposal = run(known, by_rank(), apart("half"), field="ABCDEFGH")
    above, below = next(
        (r.above, r.below) for r in proposal.reasons if r.criterion == "team-mates apart"
    )
    reason = proposal.reason(above, below)
    assert reason.step is Step.STAGE
    assert reason.say() == (
        "Places were changed so that team-mates start in different halves; "
        f"since then {above} stands above {below}."
    )


def test_a_lot_inside_a_group_knows_its_places() -> None:
    known = ranked("", places={"district": {"D": 1}})
    proposal = run(known, placers("groups", [1]), by_rank(), field="ABCD")
    assert order(proposal)[1:] == "".join(Lot("1912", f"seeding/{WEIGHT}/2-4").shuffled("ABC"))


def test_an_order_of_pair_points_inside_a_stage_has_its_circles() -> None:
    stage = {
        "stage": "order",
        "group": 0,
        "ties": ["rank"],
        "shape": "pair-points",
        "undecided": "half",
        "order_by": ["points"],
        "circles": "half",
        "criteria": [
            {"name": "meeting", "criterion": "head-to-head", "rule": "majority", **ANY},
            RANK,
        ],
    }
    proposal = run(ranked("CAB", "AB", "BC", "CA"), stage, field="ABC")
    assert order(proposal) == "CAB"
    assert len(proposal.circles) == 1
    assert proposal.reason("A", "B").bouts == ()
    assert "A beat B" in proposal.reason("A", "B").say()


def test_nobody_entered() -> None:
    assert (
        run(season(bout("A", "B")), by_rank(), swap(), FLOOR, apart("half"), field="").order == ()
    )
