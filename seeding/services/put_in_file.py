"""What no bout tells, read from a tournament file into the tables."""

from seeding.core.criteria import InputKind
from seeding.core.put_in import Table
from seeding.entries.models import Entry, WeightClass
from seeding.entries.services.document import Document, Ground, look_up
from seeding.journal.core.errors import Invalid, Problem
from seeding.models import Ballot, BallotRank, Noted


def load_put_in(ground: Ground, weight: WeightClass, kept: Document, where: str) -> None:
    """`inputs` and `ballots` of a weight's seeding."""
    _inputs(ground, weight, kept, where)
    voters: set[str] = set()
    for at, item in enumerate(kept.get("ballots", ())):
        here = f"{where}.ballots[{at}]"
        if item["voter"] in voters:
            raise Invalid([Problem(f"{here}.voter", "has a ballot of this weight already")])
        voters.add(item["voter"])
        _ballot(ground, weight, item, here)


def _inputs(ground: Ground, weight: WeightClass, kept: Document, where: str) -> None:
    rows: dict[tuple[int, str, str, str], Noted] = {}
    for at, item in enumerate(kept.get("inputs", ())):
        here = f"{where}.inputs[{at}]"
        entry = _entry(ground, weight, item["entry"], f"{here}.entry")
        at_weight = item.get("weight", "")
        key = (entry.pk, item["kind"], item["table"], at_weight)
        if fault := Table(InputKind(item["kind"]), item["table"]).fault(item["value"], at_weight):
            raise Invalid([Problem(here, fault)])
        if key in rows:
            raise Invalid([Problem(here, "says a second thing of the same table and wrestler")])
        rows[key] = Noted(
            entry=entry,
            kind=item["kind"],
            table=item["table"],
            value=item["value"],
            weight=at_weight,
        )
    Noted.objects.bulk_create(rows.values())


def _ballot(ground: Ground, weight: WeightClass, item: Document, where: str) -> None:
    team = look_up(ground.teams, item["team"], f"{where}.team") if "team" in item else None
    row = Ballot.objects.create(weight_class=weight, voter=item["voter"], team=team)
    ranks: dict[int, BallotRank] = {}
    for at, one in enumerate(item["ranks"]):
        here = f"{where}.ranks[{at}].entry"
        entry = _entry(ground, weight, one["entry"], here)
        if entry.pk in ranks:
            raise Invalid([Problem(here, "is ranked twice in this ballot")])
        ranks[entry.pk] = BallotRank(ballot=row, entry=entry, rank=one["rank"])
    BallotRank.objects.bulk_create(ranks.values())


def _entry(ground: Ground, weight: WeightClass, key: str, where: str) -> Entry:
    entry: Entry = look_up(ground.entries, key, where)
    if entry.weight_class_id != weight.pk:
        raise Invalid([Problem(where, f"“{key}” is not an entry of this weight")])
    return entry
