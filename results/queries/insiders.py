"""Everyone entered as those with a role see them: names in full, own ids, every seed."""

from results.queries.leavers import is_out
from results.queries.people import People, Person
from seeding.entries.core.names import initial
from seeding.entries.models import Entry, Tournament


def insiders(tournament: Tournament) -> People:
    """One query."""
    rows = Entry.objects.filter(tournament=tournament)
    found = [
        _person(row, out=bool(row.out))
        for row in rows.select_related("wrestler", "team", "weight_class")
        .annotate(out=is_out(tournament))
        .order_by("weight_class__position", "pk")
    ]
    return People({one.entry: one for one in found}, {one.key: one for one in found})


def _person(row: Entry, *, out: bool) -> Person:
    who = row.wrestler
    name = f"{who.given} {who.family}".strip()
    return Person(
        entry=row.pk,
        key=row.key,
        weight=row.weight_class,
        handle=who.uid,
        name=name,
        brief=name,
        forms=(name, f"{initial(who.given)} {who.family}".strip(), who.family or name),
        seed=row.seed,
        team=row.team,
        scoring=row.scoring,
        scratched=row.status != Entry.Status.ENTERED,
        out=out,
    )
