"""The list that ordered a weight, and what people put in for it, in words: room and minutes."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from seeding.entries.core.rulebook import upgrade
from seeding.entries.models import Division, WeightClass
from seeding.queries.order import Order, rules_of

SHAPES = {
    "pair-points": gettext_lazy("points from every pair"),
    "weighted-pairs": gettext_lazy("weighted criteria in every pair"),
    "ladder": gettext_lazy("a ladder: the first criterion that decides, from the top again"),
    "additive": gettext_lazy("points added up for each wrestler"),
    "ballot": gettext_lazy("ballots"),
    "pipeline": gettext_lazy("stages, one after the other"),
}
TOTALS = {
    "pair-points": gettext_lazy(
        "Every two are compared, and the better of the two gets a point. More points stand higher."
    ),
    "weighted-pairs": gettext_lazy(
        "Every two are compared by all criteria, and each gives its share of the pair to the "
        "better. “Pairs won” counts opponents over whom somebody has the larger share, a level "
        "pair as half; “sum of weights” adds his shares of all pairs up. More stands higher."
    ),
    "ladder": gettext_lazy(
        "Nothing is added up: the one over whom nobody holds the criteria comes next, then the "
        "same is asked of those who are left."
    ),
    "additive": gettext_lazy(
        "The points are the parts below added up, of each wrestler alone, whoever else is entered. "
        "More points stand higher."
    ),
    "ballot": gettext_lazy(
        "The number is made of the ranks that the voters gave him; voters leave their own "
        "wrestlers out. Less stands higher."
    ),
    "pipeline": gettext_lazy(
        "Nothing is added up over the whole list: each stage changes the order that the stages "
        "before have left."
    ),
}
"""What the numbers beside the order mean."""
PARTS = ("criteria", "terms", "stages")
"""Where a list has what it looks at, whatever its way."""
COUNTED = {
    "win": gettext_lazy("wins of a record"),
    "loss": gettext_lazy("losses of a record"),
    "head_to_head": gettext_lazy("head-to-head"),
    "common_opponents": gettext_lazy("common opponents"),
}


@dataclass(frozen=True, slots=True)
class ListUsed:
    """The list of a weight: its shape, its criteria with their settings, which results count.

    `book`: the rule book whose own list it is; empty where the division uses another. `totals`:
    what the numbers beside the order mean. `bouts`: how many bouts of the season were looked at,
    `first` and `last` their days.
    """

    book: str
    name: str
    source: str
    shape: str
    totals: str
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
    section: Mapping[str, Any] = upgrade(weight.division.snapshot)["seeding"]
    days = [bout.date for bout in order.proposal.season.bouts]
    return ListUsed(
        book=_book(weight.division),
        name=rules.name,
        source=rules.source,
        shape=str(SHAPES[rules.shape_name]),
        totals=str(TOTALS[rules.shape_name]),
        settings=tuple(_settings(section)),
        criteria=tuple(_criteria(section)),
        counted=tuple(_counted(section)),
        bouts=len(days),
        first=min(days).isoformat() if days else "",
        last=max(days).isoformat() if days else "",
    )


def _book(division: Division) -> str:
    """The rule book's name, where its own list is the one in use."""
    if "seeding" in division.settings:
        return ""
    return str(upgrade(division.snapshot)["book"].get("name", division.rulebook))


def _settings(section: Mapping[str, Any]) -> Iterator[str]:
    shown = {"list", "shape", "source", "counting", *PARTS}
    for key, value in section.items():
        if key not in shown:
            yield f"{_plain(key)}: {_said(value)}"


def _criteria(section: Mapping[str, Any]) -> Iterator[str]:
    for part in PARTS:
        for item in section.get(part, ()):
            yield _one(item)


def _one(item: Mapping[str, Any]) -> str:
    """A criterion by its name, a stage by what it does; then the settings as the list has them."""
    known = "name" if "name" in item else "stage"
    settings = "; ".join(
        f"{_plain(key)}: {groups_said(value) if key == GROUPS else _said(value)}"
        for key, value in sorted(item.items(), key=lambda pair: pair[0] != "weight")
        if key not in (known, "criterion")
    )
    return f"{item[known]} ({settings})" if settings else str(item[known])


def _counted(section: Mapping[str, Any]) -> Iterator[str]:
    for key, kinds in section.get("counting", {}).items():
        yield f"{COUNTED.get(key, _plain(key))}: {_said(kinds)}"


GROUPS = "groups"


def groups_said(groups: Iterable[Iterable[int]]) -> str:
    """Groups of places, best first: "2 = 3" is one group of equals, "4, then 5" are two."""
    told = (" = ".join(str(at) if at else _("took part") for at in group) for group in groups)
    return _(", then ").join(told)


def _said(value: object) -> str:
    """A setting of any depth in words."""
    if isinstance(value, Mapping):
        if "name" in value or "stage" in value:
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
