"""The weigh-in of a tournament, and who comes late."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.db.models import F

from seeding.entries.core.errors import EnteredElsewhere, GroupedByPage, TakenName
from seeding.entries.models import Entry, Team, Tournament, WeightClass, Wrestler
from seeding.entries.permissions import Right, require
from seeding.entries.queries.groups import is_group
from seeding.entries.services.entry import Person, admit, find_wrestler
from seeding.entries.services.team import open_team
from seeding.journal.core.errors import Invalid, NotFound, Problem, Stale
from seeding.journal.services import Call, Deed, act


@dataclass(frozen=True, slots=True)
class Weighed:
    """What the weigh-in of an entry came to; never a figure.

    `weight`: with "wrong weight" the one that he made, if it is known. `seen`: the version of the
    entry before the person's eyes, None where that is not checked.
    """

    state: str
    weight: WeightClass | None = None
    seen: int | None = None


@act
def record_weigh_in(*, call: Call, tournament: Tournament, items: Mapping[str, Weighed]) -> Deed:
    """Record the weigh-in of many entries, by their keys; what follows from it is another act.

    Licensed medical staff and the local code decide whether anyone may wrestle.
    """
    require(call, tournament.pk, Right.DIRECT)
    rows = {row.key: row for row in Entry.objects.filter(tournament=tournament, key__in=items)}
    if problems := [one for key, said in items.items() for one in _problems(key, said, rows)]:
        raise Invalid(problems)
    for key, said in items.items():
        found = Entry.objects.filter(pk=rows[key].pk)
        if said.seen is not None:
            found = found.filter(version=said.seen)
        told = {"weigh_in": said.state, "weighed_as": said.weight, "version": F("version") + 1}
        if not found.update(**told):
            raise Stale(what=f"The weigh-in of {rows[key].wrestler.name}")
    subject = {"entries": sorted(rows[key].pk for key in items)}
    return Deed(tournament.log_id, "weigh-in.recorded", subject)


def _problems(key: str, said: Weighed, rows: Mapping[str, Entry]) -> list[Problem]:
    if key not in rows:
        raise NotFound(what="entry", name=key)
    found = []
    if said.state not in Entry.WeighIn.values:
        words = f"Choose one of: {', '.join(Entry.WeighIn.values)}."
        found.append(Problem(f"{key}.state", words))
    if said.weight and said.state != Entry.WeighIn.WRONG:
        words = "Name another weight only where the weight is wrong."
        found.append(Problem(f"{key}.weight", words))
    elif said.weight and said.weight.pk == rows[key].weight_class_id:
        found.append(Problem(f"{key}.weight", "That is his own weight: he made it."))
    return found


def bring_in(
    weight: WeightClass, team: Team, person: Person, details: Mapping[str, object] | None = None
) -> Entry:
    """The entry of somebody who comes late, without a seed, inside a greater act.

    A scratched entry of his at the weight is his again. Whether the weight is drawn is for the
    caller to look at. Refuses who is in the field already, here or at another weight, and a group
    formed after weigh-in, which changes on its own page.
    """
    open_team(team)
    if is_group(weight):
        raise GroupedByPage(weight=weight.label)
    if not person.family.strip():
        raise Invalid([Problem("family", "A family name is needed.")])
    wrestler = _known(weight.tournament, team, person)
    _one_weight(weight, wrestler)
    old = Entry.objects.filter(weight_class=weight, wrestler=wrestler).first()
    if old is None:
        return admit(weight, team, wrestler, details or {}, "")
    if old.status != Entry.Status.SCRATCHED:
        raise TakenName(what=f"wrestler at {weight.label}", name=wrestler.name)
    told = {"status": Entry.Status.ENTERED, "seed": None, "team": team, **(details or {})}
    Entry.objects.filter(pk=old.pk).update(version=F("version") + 1, **told)
    old.refresh_from_db()
    return old


def _known(tournament: Tournament, team: Team, person: Person) -> Wrestler:
    """A team's wrestler of that name in this tournament, else as everywhere."""
    given, family = person.given.strip(), person.family.strip()
    here = Wrestler.objects.filter(
        entries__tournament=tournament, entries__team=team, given=given, family=family
    )
    if person.home:
        here = here.filter(home=person.home)
    return here.first() or find_wrestler(tournament, person, team.name)


def _one_weight(weight: WeightClass, wrestler: Wrestler) -> None:
    """One weight per wrestler and meet; published: NFHS 1-4-4."""
    rows = Entry.objects.filter(
        wrestler=wrestler,
        weight_class__division=weight.division_id,
        status=Entry.Status.ENTERED,
    )
    other = rows.exclude(weight_class=weight).select_related("weight_class").first()
    if other:
        raise EnteredElsewhere(name=wrestler.name, weight=other.weight_class.label)
