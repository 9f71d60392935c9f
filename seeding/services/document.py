"""The season and the committee's moves of a tournament file, written into the tables."""

from datetime import date

from seeding.core.identity import bout_identity
from seeding.entries.models import Wrestler
from seeding.entries.services.document import Document, Ground, look_up
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call
from seeding.models import PriorBout, SeedOrder
from seeding.queries import first_lot_seed
from seeding.services.committee_file import load_committee, load_own_teams
from seeding.services.put_in_file import load_put_in


def load_seeding(call: Call, ground: Ground, document: Document) -> None:
    """`prior_bouts`, `own_teams`, and what `weight_classes` say about their seeding."""
    _prior_bouts(ground, document)
    load_own_teams(ground, document)
    for at, item in enumerate(document["weight_classes"]):
        if "seeding" in item:
            _order(call, ground, item, f"weight_classes[{at}].seeding")


def _prior_bouts(ground: Ground, document: Document) -> None:
    people = {key: row.wrestler for key, row in ground.entries.items()} | ground.wrestlers
    organisation = ground.tournament.organisation_id
    rows = {}
    for at, item in enumerate(document.get("prior_bouts", ())):
        where = f"prior_bouts[{at}]"
        winner = look_up(people, item["winner"], f"{where}.winner")
        loser = look_up(people, item["loser"], f"{where}.loser")
        mark = identity_of(item, winner, loser, where)
        rows[mark] = PriorBout(
            organisation_id=organisation,
            identity=mark,
            date=date.fromisoformat(item["date"]),
            weight=item["weight"],
            winner=winner,
            loser=loser,
            kind=item["kind"],
            score=item.get("score"),
            time=item.get("time", ""),
            event=item.get("event", ""),
            level=item.get("level", ""),
            winner_division=item.get("winner_division", ""),
            loser_division=item.get("loser_division", ""),
        )
    PriorBout.objects.bulk_create(rows.values(), batch_size=200, ignore_conflicts=True)


def identity_of(item: Document, winner: Wrestler, loser: Wrestler, where: str) -> str:
    """The bout's identity in the organisation; a bout against oneself is refused."""
    if winner.pk == loser.pk:
        raise Invalid([Problem(where, "winner and loser are the same wrestler")])
    when = date.fromisoformat(item["date"])
    return bout_identity(when, winner.uid, loser.uid, item["weight"], item.get("event", ""))


def _order(call: Call, ground: Ground, item: Document, where: str) -> None:
    kept = item["seeding"]
    weight = ground.weights[item["id"]]
    order = SeedOrder.objects.create(
        weight_class=weight,
        lot_seed=kept.get("lot_seed") or first_lot_seed(weight),
    )
    load_committee(call, ground, order, kept, where)
    load_put_in(ground, weight, kept, where)
