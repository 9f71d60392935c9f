"""Points: terms, shortfall, bands, tables by place; added up as a shape and as a criterion."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings

from seeding.core.criteria import Missing
from seeding.core.order import Proposal, propose
from seeding.core.pairs import NONE, ONE
from seeding.core.points import Additive, Band, Bands, PlacePoints, PlaceTable, Points, Take, term
from seeding.core.reasons import Step
from seeding.core.records import Equal, WinPercentage, Wins
from seeding.core.rules import SeedingRules
from seeding.core.season import At, Placing, Season
from tests.seeding.core.seasons import (
    LEDGER,
    WEIGHT,
    WRESTLERS,
    bout,
    list_rules,
    list_section,
    met,
    season,
    seasons,
)

NAMES = {"A": "Ann", "B": "Bea"}
PERCENT = WinPercentage("percentage", Missing.NOBODY, LEDGER, 1, Equal.NOBODY)
WINS = Wins("wins", Missing.WORSE, LEDGER)
STATE = PlaceTable("state", (Fraction(10), Fraction(6), Fraction(3)), Fraction(1), Fraction(2))
DISTRICT = PlaceTable("district", (Fraction(9),), Fraction(0), Fraction(1, 2))


def places(take: Take, at: At = At.ANY_WEIGHT) -> PlacePoints:
    return PlacePoints("places", Missing.NOBODY, (STATE, DISTRICT), at, take)


def placed(**of: int) -> Season:
    return season(places={event: {"A": place} for event, place in of.items()})


@pytest.mark.parametrize(
    ("known", "highest", "every"),
    [
        (placed(), None, None),
        (placed(state=1), 20, 20),
        (placed(state=3), 6, 6),
        (placed(state=4), 2, 2),
        (placed(state=0), 2, 2),
        (placed(district=1), Fraction(9, 2), Fraction(9, 2)),
        (placed(district=2), None, None),
        (placed(state=1, district=1), 20, Fraction(49, 2)),
        (placed(state=0, district=1), Fraction(9, 2), Fraction(13, 2)),
    ],
)
def test_places_by_table(known: Season, highest: Fraction | None, every: Fraction | None) -> None:
    assert places(Take.HIGHEST).measure("A", known).value == highest
    assert places(Take.SUM).measure("A", known).value == every


def test_places_name_their_event() -> None:
    known = placed(state=2, district=1)
    assert places(Take.HIGHEST).measure("A", known).text == "2nd, state"
    assert places(Take.SUM).measure("A", known).text == "2nd, state; 1st, district"
    assert places(Take.SUM).measure("B", known).text == "no place"


def test_places_at_weights() -> None:
    known = Season(
        WEIGHT,
        (),
        placings=(Placing("state", "A", 1, "141"), Placing("state", "A", 3, WEIGHT)),
        weights=("125", WEIGHT, "141"),
    )
    found = {at: places(Take.HIGHEST, at).measure("A", known).value for at in At}
    assert found == {At.THIS_WEIGHT: 6, At.ADJACENT: 20, At.OTHER: 20, At.ANY_WEIGHT: 20}


BANDS = (Band(Fraction(5), Fraction(1, 2)), Band(Fraction(10), Fraction(1)))


@pytest.mark.parametrize(
    ("bands", "won", "expected"),
    [
        (BANDS, 0, NONE),
        (BANDS, 1, Fraction(1, 2)),
        (BANDS, 5, Fraction(1, 2)),
        (BANDS, 6, ONE),
        (BANDS, 10, ONE),
        (BANDS, 11, NONE),
        ((*BANDS, Band(None, Fraction(3))), 11, Fraction(3)),
    ],
)
def test_bands_of_a_difference(bands: tuple[Band, ...], won: int, expected: Fraction) -> None:
    known = season(*(bout("A", f"a{at}") for at in range(won)))
    found = Bands("wins", WINS, Fraction(1), bands)
    assert found.points("A", "B", known) == (expected, NONE)
    assert found.points("B", "A", known) == (NONE, expected)


def test_bands_need_a_number_of_both() -> None:
    known = season(bout("A", "X"))
    assert Bands("percent", PERCENT, Fraction(100), BANDS).points("A", "B", known) == (NONE, NONE)


def test_points_as_a_criterion() -> None:
    both = Points(
        "points",
        (
            term("places", places(Take.HIGHEST), Fraction(1)),
            Bands("wins", WINS, Fraction(1), BANDS),
        ),
    )
    known = season(*met(["AX", "BX", "BY"]), places={"state": {"A": 3}})
    verdict = both.compare("A", "B", known)
    assert verdict.better == "A"
    assert verdict.sentence.say(NAMES) == (
        "Ann is ahead of Bea in points: 6 against .5 (places 6 to 0; wins 0 to .5)."
    )
    assert both.compare("B", "A", known).sentence == verdict.sentence
    level = both.compare("C", "D", known)
    assert level.better is None
    assert level.sentence.say() == (
        "C and D are level in points: 0 each (places 0 to 0; wins 0 to 0)."
    )


def additive(known: Season, *terms: Mapping[str, Any], field: str = "AB") -> Proposal:
    section = list_section("pennsylvania-district") | {"terms": [*terms]}
    return propose(field, known, SeedingRules.from_section(section), "1912")


RECORD = {
    **dict.fromkeys(("name", "criterion"), "win-percentage"),
    "bouts": "any-weight",
    "minimum_bouts": 1,
    "equal": "nobody",
    "missing": "nobody",
}


def short(full: int, each: object) -> dict[str, Any]:
    rest = {"factor": 100, "full_bouts": full, "each": each, "of": RECORD}
    return {"name": "record", "term": "shortfall", **rest}


def linear(factor: object) -> dict[str, Any]:
    return {"name": "record", "term": "linear", "factor": factor, "of": RECORD}


@pytest.mark.parametrize(
    ("one", "expected"),
    [
        (linear(100), "100"),
        (linear(-2), "-2"),
        (linear("0.5"), ".5"),
        (short(10, 8), "28"),
        (short(1, 8), "100"),
        (short(10, 20), "-80"),
        (short(2, "0.5"), "99.5"),
    ],
)
def test_terms(one: Mapping[str, Any], expected: str) -> None:
    ((total,),) = additive(season(bout("A", "X")), one, field="A").totals.values()
    assert str(total) == expected


def test_who_has_no_bouts_is_short_of_all_of_them() -> None:
    """Below nothing: the sum is written as what it is."""
    proposal = additive(season(bout("A", "X")), short(10, 8))
    assert {name: str(total) for name, (total,) in proposal.totals.items()} == {
        "A": "28",
        "B": "-80",
    }
    assert proposal.reasons[0].say(NAMES) == (
        "Ann stands above Bea with points 28 against -80. "
        "Ann is ahead in record: 28 (1.000 (1-0), less 72 for missing bouts) against -80 "
        "(none, no bouts, less 80 for missing bouts)."
    )


def test_the_term_of_the_largest_difference_is_named() -> None:
    known = season(*met(["AX", "YB", "BX"]), places={"state last season": {"B": 8}})
    proposal = propose("AB", known, list_rules("pennsylvania-district"), "1912")
    assert proposal.order == ("B", "A")
    reason = proposal.reasons[0]
    assert (reason.step, reason.criterion) == (Step.TOTALS, "prestige")
    assert [verdict.better for verdict in reason.verdicts] == ["A", "B"]


def test_two_terms_may_outweigh_the_largest() -> None:
    proposal = additive(season(*met(["AX", "AY", "BZ"])), linear(1), short(2, 1) | {"name": "two"})
    assert proposal.order == ("A", "B")
    assert proposal.reasons[0].criterion == "two"


@settings(max_examples=30, deadline=None)
@given(seasons())
def test_the_sum_is_that_of_the_terms(known: Season) -> None:
    rules = list_rules("pennsylvania-district")
    proposal = propose(WRESTLERS, known, rules, "1")
    shape = rules.shape
    assert isinstance(shape, Additive)
    for one, (total,) in proposal.totals.items():
        values = [part.measure(one, proposal.season).value for part in shape.terms]
        assert total.value == sum(value for value in values if value is not None)
    sums = [proposal.totals[one][0].value for one in proposal.order]
    assert sums == sorted(sums, reverse=True)
