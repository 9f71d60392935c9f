"""What would follow from changing a fact, before it is changed."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from brackets.core.replay import replay
from brackets.core.standing import Standing
from brackets.models import Bout, Drawn
from brackets.queries import bracket
from brackets.queries import rules_of as bracket_rules
from results.core.outcomes import Outcome
from results.queries.facts import Facts, facts, sides_of
from results.queries.standing import parts_of, pool_order, standing_of
from seeding.entries.models import Entry, Team


@dataclass(frozen=True, slots=True)
class Moved:
    """Something that changes: a wrestler's place or a team's points in this weight."""

    what: Entry | Team
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Preview:
    """The consequences of changing one fact.

    `changed`: later bouts whose sides change; `wrestled`: those of them that have a result, which
    stand in the way; `places` and `teams`: what moves in this weight.
    """

    changed: tuple[Bout, ...]
    wrestled: tuple[Bout, ...]
    places: tuple[Moved, ...]
    teams: tuple[Moved, ...]


def preview(bout: Bout, outcome: Outcome | None) -> Preview:
    """What follows from replacing the result of a bout, or undoing it (`outcome` None)."""
    known = facts(bout.drawn)
    outcomes = dict(known.outcomes)
    if outcome:
        outcomes[bout.key] = outcome
    else:
        outcomes.pop(bout.key, None)
    sides = {**known.sides, bout.key: sides_of(bout)}
    return compare(bout.drawn, known, replace(known, outcomes=outcomes, sides=sides))


def without_withdrawal(known: Facts, entry: str) -> Facts:
    """The facts as if the entry had not withdrawn."""
    return replace(known, left=tuple(one for one in known.left if one.entry != entry))


def compare(drawn: Drawn, known: Facts, changed: Facts) -> Preview:
    """What differs between the weight as it is and the weight with other facts."""
    before = standing_of(drawn, known)
    met = {key: state.sides for key, state in before.bouts.items()}
    again = replay(
        bracket(drawn),
        changed.verdicts,
        met,
        bracket_rules(drawn.weight_class.division),
        out=changed.out,
        vacating=changed.vacating,
        pool_order=pool_order(drawn, changed),
    )
    after = again.standing
    rows = {
        row.key: row
        for row in Bout.objects.filter(drawn=drawn).select_related("drawn__weight_class")
    }
    moved = [key for key in after.bouts if after.bouts[key].sides != met[key]]
    left = replace(
        changed,
        outcomes={key: value for key, value in changed.outcomes.items() if key not in again.lost},
    )
    return Preview(
        changed=tuple(rows[key] for key in moved if rows[key].number),
        wrestled=tuple(rows[key] for key in again.lost),
        places=tuple(_places(drawn, before, after)),
        teams=tuple(_teams(_sums(drawn, before, known), _sums(drawn, after, left))),
    )


def _places(drawn: Drawn, before: Standing, after: Standing) -> Iterator[Moved]:
    old, new = _by_entry(before), _by_entry(after)
    moved = [entry for entry in {*old, *new} if old.get(entry) != new.get(entry)]
    rows = Entry.objects.filter(weight_class_id=drawn.weight_class_id, key__in=moved)
    for entry in rows.select_related("wrestler", "team"):
        yield Moved(entry, old.get(entry.key, "-"), new.get(entry.key, "-"))


def _by_entry(standing: Standing) -> dict[str, str]:
    return {entry: str(place) for place, found in standing.places.items() for entry in found}


def _sums(drawn: Drawn, standing: Standing, known: Facts) -> Mapping[int, Decimal]:
    teams = dict(
        Entry.objects.filter(weight_class_id=drawn.weight_class_id).values_list("key", "team_id")
    )
    sums: dict[int, Decimal] = {}
    for part in parts_of(drawn, standing, known):
        team = teams[part.entry]
        sums[team] = sums.get(team, Decimal(0)) + part.points
    return sums


def _teams(old: Mapping[int, Decimal], new: Mapping[int, Decimal]) -> Iterator[Moved]:
    changed = [pk for pk in {*old, *new} if old.get(pk, Decimal(0)) != new.get(pk, Decimal(0))]
    for pk, team in sorted(Team.objects.in_bulk(changed).items()):
        yield Moved(team, str(old.get(pk, Decimal(0))), str(new.get(pk, Decimal(0))))
