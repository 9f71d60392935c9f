"""What would follow from changing a fact, before it is changed."""

import hashlib
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from brackets.core.graph import BoutKey
from brackets.core.replay import Choice, Replay, replay
from brackets.core.rulings import (
    Rulings,
    adrift,
    in_two,
    out_of_turn,
    placed_twice,
)
from brackets.core.standing import EMPTY, BoutState, Standing, Status, Vacancy
from brackets.models import Bout, Drawn
from brackets.queries import bracket
from results.core.outcomes import Outcome
from results.core.points import Part
from results.core.rulings import write_ruling
from results.models import Result
from results.queries.consequences import (
    Affected,
    Changed,
    Choices,
    Clash,
    Idle,
    Moved,
    Pair,
    Preview,
    Shared,
)
from results.queries.facts import Facts, facts, sides_of
from results.queries.figures import plain
from results.queries.standing import parts_of, standing_of
from seeding.entries.models import Entry, Team
from seeding.journal.core.chain import canonical


def preview(bout: Bout, outcome: Outcome | None, choices: Choices | None = None) -> Preview:
    """What follows from replacing the result of a bout, or undoing it (`outcome` None)."""
    known = facts(bout.drawn)
    outcomes = dict(known.outcomes)
    if outcome:
        outcomes[bout.key] = outcome
    else:
        outcomes.pop(bout.key, None)
    sides = {**known.sides, bout.key: sides_of(bout)}
    changed = replace(known, outcomes=outcomes, sides=sides)
    return compare(bout.drawn, known, changed, choices)


def without_withdrawal(known: Facts, entry: str) -> Facts:
    """The facts as if the entry had not withdrawn."""
    return replace(known, left=tuple(one for one in known.left if one.entry != entry))


def compare(drawn: Drawn, known: Facts, changed: Facts, choices: Choices | None = None) -> Preview:
    """What differs between the weight as it is and the weight with other facts."""
    before = standing_of(drawn, known)
    again = replayed(drawn, before, changed, choices)
    kept = changed.outcomes.keys() - set(again.lost) - set(again.void)
    left = _only(changed, kept, (*changed.rulings, *again.made))
    idle = kept - again.chosen.keys()
    needless = {key: one for key, one in (choices or {}).items() if key in idle}
    return _told(_Compared(drawn, before, known, again, left, needless))


def replayed(
    drawn: Drawn, before: Standing, changed: Facts, choices: Choices | None = None
) -> Replay:
    """The weight with other facts, as far as the results that it has hold then."""
    return replay(
        bracket(drawn),
        {key: before.bouts[key].sides for key in changed.outcomes},
        lambda kept, rulings: standing_of(drawn, _only(changed, kept, rulings)),
        changed.rulings,
        choices,
    )


def _only(changed: Facts, kept: Collection[BoutKey], rulings: Rulings) -> Facts:
    left = {key: value for key, value in changed.outcomes.items() if key in kept}
    return replace(changed, outcomes=left, rulings=rulings)


@dataclass(frozen=True, slots=True)
class _Compared:
    drawn: Drawn
    before: Standing
    known: Facts
    again: Replay
    left: Facts
    idle: Choices


def _told(of: _Compared) -> Preview:
    drawn, after = of.drawn, of.again.standing
    rows = {
        row.key: row
        for row in Bout.objects.filter(drawn=drawn).select_related(
            "drawn__weight_class__tournament", "top__wrestler", "bottom__wrestler"
        )
    }
    entries = {
        row.key: row
        for row in Entry.objects.filter(weight_class_id=drawn.weight_class_id).select_related(
            "wrestler", "team"
        )
    }
    built, worth = bracket(drawn), ((of.before, of.known), (after, of.left))
    turned, lost = out_of_turn(built, of.before), adrift(built, of.before)
    early = {one: keys for one, keys in out_of_turn(built, after).items() if one not in turned}
    found = Preview(
        changed=tuple(_changed(rows, entries, of.before, after)),
        affected=tuple(_affected(of.again, rows, entries)),
        idle=tuple(Idle(row, of.idle[key]) for key, row in rows.items() if key in of.idle),
        places=tuple(_places(entries, of.before, after)),
        teams=tuple(_teams(*(_sums(entries, parts_of(drawn, *one)) for one in worth))),
        clashes=_clashes(rows, entries, in_two(built, after)),
        shared=tuple(
            Shared(place, tuple(entries[one] for one in group))
            for place, group in placed_twice(after, of.left.rulings).items()
        ),
        early=_clashes(rows, entries, early),
        adrift=tuple(entries[one] for one in adrift(built, after) if one not in lost),
        made=of.again.made,
        mark="",
    )
    return replace(found, mark=_mark(found))


Turned = Mapping[str, tuple[BoutKey, ...]]


def _clashes(
    rows: Mapping[BoutKey, Bout], entries: Mapping[str, Entry], found: Turned
) -> tuple[Clash, ...]:
    return tuple(
        Clash(entries[one], tuple(rows[key] for key in keys)) for one, keys in found.items()
    )


def _mark(seen: Preview) -> str:
    content = [
        [
            [one.bout.pk, one.bout.version, one.choice or "", *_keys(one.after)]
            for one in seen.affected
        ],
        [[one.bout.pk, *_keys(one.before), *_keys(one.after)] for one in seen.changed],
        [[one.what.pk, one.before, one.after] for one in (*seen.places, *seen.teams)],
        [write_ruling(one) for one in seen.made],
    ]
    return hashlib.sha256(canonical(content).encode()).hexdigest()[:16]


def _keys(pair: Pair) -> list[str]:
    return [one.value if isinstance(one, Vacancy) else one.key for one in pair]


def _changed(
    rows: Mapping[BoutKey, Bout], entries: Mapping[str, Entry], before: Standing, after: Standing
) -> Iterator[Changed]:
    for key, state in after.bouts.items():
        pairs = _pair(before.bouts[key], entries), _pair(state, entries)
        if rows[key].number and pairs[0] != pairs[1]:
            yield Changed(rows[key], *pairs)


def _pair(state: BoutState, entries: Mapping[str, Entry]) -> Pair:
    if state.status is Status.SPARED:
        return EMPTY, EMPTY
    top, bottom = (entries[one] if isinstance(one, str) else one for one in state.sides)
    return top, bottom


def _affected(
    again: Replay, rows: Mapping[BoutKey, Bout], entries: Mapping[str, Entry]
) -> Iterator[Affected]:
    choices: dict[BoutKey, Choice | None] = {**again.chosen, **dict.fromkeys(again.lost)}
    pks = [rows[key].pk for key in choices]
    results = {row.bout_id: row for row in Result.objects.filter(bout__in=pks)}
    for key, row in rows.items():
        if key in choices and row.pk in results:
            yield Affected(row, results[row.pk], choices[key], _pair(again.without(key), entries))


def _places(entries: Mapping[str, Entry], before: Standing, after: Standing) -> Iterator[Moved]:
    old, new = _by_entry(before), _by_entry(after)
    for key, entry in entries.items():
        if old.get(key) != new.get(key):
            yield Moved(entry, old.get(key, "-"), new.get(key, "-"))


def _by_entry(standing: Standing) -> dict[str, str]:
    return {entry: str(place) for place, found in standing.places.items() for entry in found}


def _sums(entries: Mapping[str, Entry], parts: Iterable[Part]) -> Mapping[int, Decimal]:
    sums: dict[int, Decimal] = {}
    for part in parts:
        team = entries[part.entry].team_id
        sums[team] = sums.get(team, Decimal(0)) + part.points
    return sums


def _teams(old: Mapping[int, Decimal], new: Mapping[int, Decimal]) -> Iterator[Moved]:
    changed = [pk for pk in {*old, *new} if old.get(pk, Decimal(0)) != new.get(pk, Decimal(0))]
    for pk, team in sorted(Team.objects.in_bulk(changed).items()):
        yield Moved(team, plain(old.get(pk, Decimal(0))), plain(new.get(pk, Decimal(0))))
