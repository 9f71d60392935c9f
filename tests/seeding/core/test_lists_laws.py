"""Laws of seeding over random seasons, for every list in the tree and settings that none has."""

import random
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from seeding.core.criteria import Missing
from seeding.core.order import Proposal, propose
from seeding.core.reasons import Reason, Step
from seeding.core.rules import SeedingRules
from seeding.core.season import Season
from seeding.core.tables import Ranked
from seeding.rulebooks import lists, rules_of_list
from tests.seeding.core.seasons import (
    OTHERS,
    WRESTLERS,
    dated_seasons,
    list_rules,
    list_section,
    renamed,
    shuffled,
)

NEBRASKA, IDAHO = "nebraska-2008", "idaho-5a-2011"
POINTS = {"circle_criteria": ["record against common opponents", "overall record"]}
BOOKS = {name: rules_of_list(name) for name in lists()} | {
    "weakest link": list_rules(IDAHO, circles="weakest-link"),
    "weakest link, restart": list_rules(IDAHO, circles="weakest-link", restart=True),
    "next criterion, restart": list_rules(IDAHO, circles="next-criterion", restart=True),
    "group": list_rules(IDAHO, circles="group", **POINTS),
    "fewest violations": list_rules(IDAHO, circles="fewest-violations"),
    "fewest violations, restart": list_rules(IDAHO, circles="fewest-violations", restart=True),
    "committee": list_rules(IDAHO, circles="committee"),
    "committee, restart": list_rules(IDAHO, circles="committee", restart=True),
    "vote, restart": list_rules("north-carolina-conference", restart=True),
    "ties": list_rules(NEBRASKA, ties=["head-to-head", "points"]),
}


def _apart() -> dict[str, object]:
    """South Dakota's list with more stages than it has."""
    section = list_section("south-dakota")
    stages = [
        {
            "stage": "groups",
            "name": "district place",
            "event": "district",
            "places_at": "any-weight",
            "groups": [[1], [2, 3]],
        },
        *section["stages"],
        {"stage": "swap", "group": 0, "name": "swap", "bouts": "any-weight", "rule": "majority"},
        {"stage": "team-mates-apart", "apart": "half", "count": 4},
    ]
    record = {"name": "record", "criterion": "wins", "bouts": "any-weight", "missing": "worse"}
    held = {"stage": "filter", "at_least": 2, "rest": "unseeded", "criterion": record}
    behind = {"stage": "filter", "at_least": 1, "rest": "behind", "criterion": record}
    return section | {"stages": [held, stages[0], behind, *stages[1:]]}


def _unordered() -> dict[str, object]:
    section = list_section("new-jersey-region-2015")
    return section | {"stages": section["stages"][:2]}


BOOKS |= {
    "many stages": SeedingRules.from_section(_apart()),
    "stages that leave a rest": SeedingRules.from_section(_unordered()),
}
every_list = pytest.mark.parametrize("lines", list(BOOKS.values()), ids=list(BOOKS))
law = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))


def told(proposal: Proposal) -> list[str]:
    words = [reason.say() for reason in proposal.reasons]
    words += [flag.sentence.say() for flag in proposal.flags]
    return words + [one.settled.say() for one in proposal.circles]


@every_list
@law
@given(dated_seasons(), st.permutations(WRESTLERS), st.randoms(use_true_random=False))
def test_no_order_of_input_matters(
    lines: SeedingRules, known: Season, field: list[str], chance: random.Random
) -> None:
    first = propose(WRESTLERS, known, lines, "7")
    again = propose(field, shuffled(known, chance), lines, "7")
    assert again.order == first.order
    assert again.totals == first.totals
    assert again.reasons == first.reasons
    assert again.flags == first.flags
    assert (again.drawn, again.open) == (first.drawn, first.open)
    assert again.circles == first.circles
    assert told(again) == told(first)


@every_list
@law
@given(dated_seasons())
def test_everybody_has_one_place_and_a_reason(lines: SeedingRules, known: Season) -> None:
    proposal = propose(WRESTLERS, known, lines, "7")
    assert sorted(proposal.order) == sorted(WRESTLERS)
    assert proposal.count <= len(WRESTLERS)
    assert [(r.above, r.below) for r in proposal.reasons] == list(pairwise(proposal.order))
    for group in (*proposal.drawn, *proposal.open):
        assert len(set(group)) == len(group) > 1
        assert set(group) <= set(WRESTLERS)


def every_reason(proposal: Proposal) -> Iterator[Reason]:
    for at, above in enumerate(proposal.order):
        for below in proposal.order[at + 1 :]:
            yield proposal.reason(above, below)


def people(reason: Reason) -> set[str]:
    return {one for sentence in reason.sentences for one in sentence.wrestlers[1::2]}


@every_list
@law
@given(dated_seasons())
def test_a_reason_names_only_what_the_season_knows(lines: SeedingRules, known: Season) -> None:
    proposal = propose(WRESTLERS, known, lines, "7")
    for reason in every_reason(proposal):
        assert reason.say()
        assert "{" not in reason.say()
        assert people(reason) <= {*WRESTLERS, *OTHERS}
        assert set(reason.bouts) <= set(known.bouts)
        by_lot = {reason.above, reason.below}
        groups = proposal.drawn if reason.step is Step.LOT else proposal.open
        if reason.step in (Step.LOT, Step.OPEN):
            assert any(by_lot <= set(group) for group in groups)


def parted(lines: SeedingRules) -> SeedingRules:
    """The list with a ranking of everybody at the end, so that no lot is needed."""
    last = Ranked("everybody", Missing.WORSE, "everybody")
    return replace(lines, ties=(*lines.ties, last))


@every_list
@law
@given(dated_seasons(), st.permutations(WRESTLERS), st.permutations(WRESTLERS))
def test_other_ids_change_nothing_but_lots(
    lines: SeedingRules, known: Season, new: list[str], ranking: list[str]
) -> None:
    names = dict(zip(WRESTLERS, new, strict=True)) | {one: one for one in OTHERS}
    everybody = {one: at for at, one in enumerate(ranking, 1)}
    season = replace(known, rankings=dict(known.rankings) | {"everybody": everybody})
    first = propose(WRESTLERS, season, parted(lines), "7")
    again = propose(WRESTLERS, renamed(season, names), parted(lines), "7")
    assert again.count == first.count
    if first.drawn or first.open:
        return
    assert again.order == tuple(names[one] for one in first.order)
    assert dict(again.totals) == {names[one]: sums for one, sums in first.totals.items()}
    assert not again.drawn
    assert not again.open
    around = [sorted(names[one] for one in part.circle.wrestlers) for part in first.circles]
    assert sorted(around) == sorted(list(part.circle.wrestlers) for part in again.circles)
