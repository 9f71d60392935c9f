"""The list that ordered a weight, and what people put in for it, in words for the minutes."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from seeding.entries.core.rulebook import upgrade
from seeding.entries.models import WeightClass
from seeding.queries.order import Order, rules_of

SHAPES = {
    "pair-points": gettext_lazy("points from every pair"),
    "weighted-pairs": gettext_lazy("weighted criteria in every pair"),
    "ladder": gettext_lazy("a ladder: the first criterion that decides, from the top again"),
    "additive": gettext_lazy("points added up for each wrestler"),
    "ballot": gettext_lazy("ballots"),
    "pipeline": gettext_lazy("stages, one after the other"),
}
COUNTED = {
    "win": gettext_lazy("wins of a record"),
    "loss": gettext_lazy("losses of a record"),
    "head_to_head": gettext_lazy("head-to-head"),
    "common_opponents": gettext_lazy("common opponents"),
}


@dataclass(frozen=True, slots=True)
class ListUsed:
    """The rule book's list: its shape, its criteria with their settings, which results count.

    `bouts`: how many bouts of the season were looked at, `first` and `last` their days.
    """

    book: str
    name: str
    source: str
    shape: str
    settings: tuple[str, ...]
    criteria: tuple[str, ...]
    counted: tuple[str, ...]
    bouts: int
    first: str
    last: str


@dataclass(frozen=True, slots=True)
class PutIn:
    """What no bout tells: one sentence for each ranking, table of places and ballot."""

    rankings: tuple[str, ...]
    places: tuple[str, ...]
    ballots: tuple[str, ...]


def list_used(weight: WeightClass, order: Order) -> ListUsed:
    """The list of the weight's division, as its snapshot has it."""
    rules = rules_of(weight.division)
    snapshot = upgrade(weight.division.snapshot)
    section: Mapping[str, Any] = snapshot["seeding"]
    days = [bout.date for bout in order.proposal.season.bouts]
    return ListUsed(
        book=str(snapshot["book"].get("name", weight.division.rulebook)),
        name=rules.name,
        source=rules.source,
        shape=str(SHAPES.get(rules.shape_name, rules.shape_name)),
        settings=tuple(_settings(section)),
        criteria=tuple(_criteria(section)),
        counted=tuple(_counted(section)),
        bouts=len(days),
        first=min(days).isoformat() if days else "",
        last=max(days).isoformat() if days else "",
    )


def _settings(section: Mapping[str, Any]) -> Iterator[str]:
    shown = {"list", "shape", "source", "criteria", "counting"}
    for key, value in section.items():
        if key not in shown:
            yield f"{_plain(key)}: {_said(value)}"


def _criteria(section: Mapping[str, Any]) -> Iterator[str]:
    for item in section.get("criteria", ()):
        yield _one(item)


def _one(item: Mapping[str, Any]) -> str:
    """A criterion by its name, then its settings as the rule book has them."""
    settings = "; ".join(
        f"{_plain(key)}: {_said(value)}"
        for key, value in item.items()
        if key not in ("name", "criterion")
    )
    return f"{item.get('name', '')} ({settings})" if settings else str(item.get("name", ""))


def _counted(section: Mapping[str, Any]) -> Iterator[str]:
    for key, kinds in section.get("counting", {}).items():
        yield f"{COUNTED.get(key, _plain(key))}: {_said(kinds)}"


def _said(value: object) -> str:
    """A setting of any depth in words."""
    if isinstance(value, Mapping):
        if "name" in value:
            return _one(value)
        return ", ".join(f"{_plain(str(key))} {_said(item)}" for key, item in value.items())
    if isinstance(value, list | tuple):
        return ", ".join(_said(item) for item in value) or _("none")
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    return str(value)


def _plain(key: str) -> str:
    return key.replace("_", " ").replace("-", " ")


def put_in(weight: WeightClass, order: Order) -> PutIn:
    """Rankings, places at earlier events and ballots, as far as they name entrants."""
    return PutIn(
        rankings=tuple(_rankings(order)),
        places=tuple(_places(order)),
        ballots=tuple(_ballots(order)),
    )


def _rankings(order: Order) -> Iterator[str]:
    for name, ranks in sorted(order.proposal.season.rankings.items()):
        own = sorted((rank, uid) for uid, rank in ranks.items() if uid in order.entries)
        if own:
            yield f"{name}: " + ", ".join(f"{rank} {order.names[uid]}" for rank, uid in own)


def _places(order: Order) -> Iterator[str]:
    found: dict[str, list[str]] = {}
    rows = sorted(order.proposal.season.placings, key=lambda row: (row.place == 0, row.place))
    for row in rows:
        if row.wrestler in order.entries:
            place = str(row.place) if row.place else _("took part:")
            at = f" ({row.weight})" if row.weight != order.proposal.season.weight else ""
            found.setdefault(row.event, []).append(f"{place} {order.names[row.wrestler]}{at}")
    for event, lines in sorted(found.items()):
        yield f"{event}: " + ", ".join(lines)


def _ballots(order: Order) -> Iterator[str]:
    for ballot in order.proposal.season.ballots:
        ranks = sorted((rank, uid) for uid, rank in ballot.ranks.items() if uid in order.entries)
        said = ", ".join(f"{rank} {order.names[uid]}" for rank, uid in ranks)
        own = ", ".join(order.names[uid] for uid in order.order if uid in ballot.own)
        left = _("; left out, his own: %(own)s") % {"own": own} if own else ""
        yield f"{ballot.voter}: {said}{left}"
