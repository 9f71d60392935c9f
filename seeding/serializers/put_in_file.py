"""What no bout tells, as parts of a tournament file."""

from typing import Any

from seeding.entries.models import WeightClass
from seeding.models import Ballot, Noted
from seeding.queries.put_in import ballots_of

Item = dict[str, Any]


def put_in_section(weight: WeightClass) -> Item:
    """`inputs` and `ballots` of a weight; each absent where there are none.

    The coaches' rank and the qualifying place stand with the entries.
    """
    noted = Noted.objects.filter(entry__weight_class=weight).select_related("entry")
    inputs = [_input(row) for row in noted.order_by("entry__pk", "kind", "table", "weight")]
    ballots = [_ballot(row) for row in ballots_of(weight)]
    return {name: rows for name, rows in (("inputs", inputs), ("ballots", ballots)) if rows}


def _input(row: Noted) -> Item:
    item: Item = {
        "entry": row.entry.key,
        "kind": row.kind,
        "table": row.table,
        "value": row.value,
    }
    if row.weight:
        item["weight"] = row.weight
    return item


def _ballot(row: Ballot) -> Item:
    ranks = row.ranks.select_related("entry").order_by("rank", "pk")
    item: Item = {
        "voter": row.voter,
        "ranks": [{"entry": one.entry.key, "rank": one.rank} for one in ranks],
    }
    if row.team:
        item["team"] = row.team.key
    return item
