"""Placement points by how many places are wrestled for."""

from decimal import Decimal

import pytest

from brackets.core.rulings import PlaceRuling
from results.core.points import Item, Scorer
from tests.results.core.wrestled import Weight, better_seed, rules


def placement(weight: Weight, *entries: str) -> list[int]:
    return [int(weight.points(entry, Item.PLACEMENT)) for entry in entries]


def test_the_places_of_non_scorers_lapse_or_pass() -> None:
    champion_does_not_score = {"1": Scorer("team 1", False), "4": Scorer("team 4", False)}
    for switch, wanted in (
        ("lapse", [0, 12, 10, 0, 7, 6, 4, 3]),
        ("pass", [0, 16, 12, 0, 10, 9, 7, 6]),
    ):
        used = rules(points__non_scorers=switch)
        weight = Weight(33, used, scorers=champion_does_not_score).wrestle(better_seed)
        assert placement(weight, *"12345678") == wanted
        assert weight.parts("1") == []


def test_four_and_six_places() -> None:
    # Published: NCAA Wrestling Rules Book, Rule 4, tournament scoring chart.
    six = Weight(16, rules(), places=6).wrestle(better_seed)
    assert placement(six, *"12345678") == [12, 10, 9, 7, 6, 4, 0, 0]
    four = Weight(16, rules(), places=4).wrestle(better_seed)
    assert placement(four, *"12345678") == [10, 7, 4, 2, 0, 0, 0, 0]


def test_two_and_three_places() -> None:
    # No source found: the first of four places.
    two = Weight(16, rules(), places=2).wrestle(better_seed, until={"1st"})
    assert placement(two, *"1234") == [7, 7, 0, 0]
    two.wrestle(better_seed)
    assert placement(two, *"1234") == [10, 7, 0, 0]
    three = Weight(16, rules(), places=3).wrestle(better_seed)
    assert placement(three, *"1234") == [10, 7, 4, 0]


@pytest.mark.parametrize("places", [12, 16])
def test_places_behind_the_eighth_score_nothing(places: int) -> None:
    """No source found: as eight places, also while it runs: who has the 12th place for certain
    has no points yet, and no part of a ledger is without points."""
    weight, eight = Weight(32, rules(), places=places), Weight(32, rules(), places=8)
    everybody = [str(seed) for seed in weight.seeds]
    for code in ("R2", "QF", "C3", "SF", "C4", "C5", "C6"):
        weight.wrestle(better_seed, until={code})
        eight.wrestle(better_seed, until={code})
        assert placement(weight, *everybody) == placement(eight, *everybody)
    weight.wrestle(better_seed)
    field = everybody[:places]
    assert sorted(weight.place(entry) or 0 for entry in field) == list(range(1, places + 1))
    assert placement(weight, *field) == [16, 12, 10, 9, 7, 6, 4, 3] + [0] * (places - 8)
    assert all(part.points for part in weight.ledger())


@pytest.mark.parametrize("places", [2, 3, 12, 16])
def test_a_non_scorer_passes_points_to_the_first_without_any(places: int) -> None:
    """Who is 9th of 12 has the points of 8th; nobody comes in from behind the last place."""
    used = rules(points__non_scorers="pass")
    weight = Weight(32, used, places, {"1": Scorer("team 1", False)}).wrestle(better_seed)
    wanted = {2: [10, 0], 3: [10, 7, 0]}.get(places, [16, 12, 10, 9, 7, 6, 4, 3, 0, 0])
    assert placement(weight, *map(str, range(2, len(wanted) + 2))) == wanted


@pytest.mark.parametrize(("shared", "each"), [("mean", "1.5"), ("each", "3")])
def test_a_shared_eighth_place_takes_in_a_ninth_without_points(shared: str, each: str) -> None:
    used = rules(points__shared_places=shared)
    weight = Weight(16, used, places=12).wrestle(better_seed)
    both = dict.fromkeys(weight.standing().places[8] + weight.standing().places[9], 8)
    weight.rulings = (PlaceRuling(both, shared=True),)
    assert [weight.points(entry, Item.PLACEMENT) for entry in both] == [Decimal(each)] * 2


def test_fewer_entrants_than_places() -> None:
    # Everybody has a place from the start; the wins that better it are named.
    weight = Weight(6, rules())
    assert placement(weight, *"123456") == [6, 6, 6, 6, 6, 6]
    weight.wrestle(better_seed)
    assert placement(weight, *"123456") == [16, 12, 10, 9, 7, 6]
    found = [f"{part.bout} {part.points}" for part in weight.parts("1", Item.PLACEMENT)]
    assert found == ["None 6", "SF-1 6", "1st-1 4"]
