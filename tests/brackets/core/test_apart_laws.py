"""Laws of the draw in which some are kept apart, for any field."""

from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from brackets.core.apart.criteria import KeepApart, pairs
from brackets.core.apart.separated import separated_draw
from brackets.core.draw import ranked
from brackets.core.formats import build, shape
from brackets.core.graph import Format
from brackets.core.rules import Apart, BracketRules
from brackets.core.slots import slots
from seeding.core.lot import Lot
from tests.brackets.core.books import drawn as drawn_plainly
from tests.brackets.core.books import rules
from tests.brackets.core.fields import (
    chances,
    codes,
    cost,
    random_field,
    setting,
    team_pairs,
)

CRITERIA = st.permutations(list(Apart)).flatmap(
    lambda order: st.integers(0, 3).map(lambda n: KeepApart(tuple(order[:n])))
)


def books() -> st.SearchStrategy[BracketRules]:
    return st.builds(
        lambda byes, pigtails: rules(
            round_robin_up_to=0, advancing_byes=byes, pigtails_up_to=pigtails
        ),
        st.sampled_from(["best-seeds", "by-lot"]),
        st.sampled_from([0, 1, 4]),
    )


def random_cost_beats(chance: Random, ready_lot: str, used: BracketRules) -> None:
    field = random_field(chance, most=40, fewest=2)
    ready = setting(field, used, lot=ready_lot)
    drawn = separated_draw(field, used, Lot(ready_lot, "draw"), KeepApart())
    held = {slot.held for slot in ready.slots.slots}
    others = [one.id for one in field if one.id not in held]
    for _ in range(200):
        chance.shuffle(others)
        lines = ready.slots.line_up(dict(zip(ready.slots.free, others, strict=True)))
        first = {one: number for number, line in enumerate(lines) for one in _held(line)}
        found = [0] * len(codes(lines))
        for one, other in team_pairs(field):
            if (level := (first[one] ^ first[other]).bit_length()) < len(found):
                found[level] += 1
        assert drawn.kept[0].pairs <= tuple(found)


def _held(line: str | tuple[str, str] | None) -> tuple[str, ...]:
    if isinstance(line, tuple):
        return line
    return () if line is None else (line,)


@settings(max_examples=25)
@given(chances(), st.text(max_size=4), books())
def test_no_draw_by_chance_is_better(chance: Random, lot: str, used: BracketRules) -> None:
    random_cost_beats(chance, lot, used)


@settings(max_examples=40)
@given(chances(), books(), CRITERIA, st.integers(0, 3))
def test_what_is_told_is_what_the_bracket_says(
    chance: Random, used: BracketRules, keep: KeepApart, scratched: int
) -> None:
    field = random_field(chance, fewest=4)
    seeds = {one.seed for one in field if one.seed}
    holes = [seed for seed in range(1, 18) if seed not in seeds][:scratched] if seeds else []
    drawn = separated_draw(field, used, Lot("1912", "draw"), keep, holes)
    assert sorted(build(drawn.lines, used, 8).entries()) == sorted(one.id for one in field)
    assert len(drawn.kept) == len(keep.criteria)
    for kept in drawn.kept:
        sought = pairs(field, kept.criterion)
        assert kept.pairs == cost(drawn.lines, used, sought)
    for rank, kept in enumerate(drawn.kept):
        if all(before.certified for before in drawn.kept[:rank]):
            assert kept.bound <= kept.pairs
    if keep.criteria and keep.criteria[0] is not Apart.MET:
        assert drawn.kept[0].certified


@settings(max_examples=40)
@given(chances(), books(), CRITERIA)
def test_seeds_and_byes_stand_as_without_separation(
    chance: Random, used: BracketRules, keep: KeepApart
) -> None:
    field = random_field(chance, fewest=2)
    drawn = separated_draw(field, used, Lot("1912", "draw"), keep)
    plain = drawn_plainly(field, used, Lot("1912", "draw"))
    seeded = {one.id for one in field if one.seed}
    for line, before in zip(drawn.lines, plain, strict=True):
        assert len(_held(line)) == len(_held(before))
        assert seeded & set(_held(line)) == seeded & set(_held(before))


@settings(max_examples=30)
@given(chances(), CRITERIA, st.text(max_size=4), st.data())
def test_the_same_field_in_another_order_is_drawn_alike(
    chance: Random, keep: KeepApart, lot: str, data: st.DataObject
) -> None:
    field = random_field(chance, most=24, fewest=2)
    other = data.draw(st.permutations(field))
    drawn = [separated_draw(one, rules(), Lot(lot, "draw"), keep) for one in (field, other)]
    assert drawn[0] == drawn[1]


@given(st.integers(2, 136), st.integers(0, 140), st.integers(0, 2**32), books())
def test_slots_by_lot(entries: int, seeds: int, seed: int, used: BracketRules) -> None:
    """Every free entrant has a slot, byes are as thin as they can be, no bout has two pigtails."""
    if entries > 128:
        used = rules(round_robin_up_to=0, advancing_byes="by-lot", pigtails_up_to=8)
    chance = Random(seed)
    size = min(entries, 128 + used.pigtails_up_to)
    field = random_field(chance, most=size, fewest=size)
    order = ranked(field)
    found = slots(order.seeded, len(order.others), used, Lot(str(seeds), "draw"))
    assert shape(size, used).format is Format.ELIMINATION
    assert found.lines == shape(size, used).lines
    assert len(found.free) == len(order.others)
    on = [0] * found.lines
    for slot in found.slots:
        on[slot.line] += 1
    bouts = [sorted(pair) for pair in zip(on[::2], on[1::2], strict=True)]
    assert [2, 2] not in bouts
    assert [0, 2] not in bouts
    if size >= found.lines // 2:
        assert [0, 0] not in bouts
