"""What a draw is made from, so that anybody can make it again."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from hashlib import sha256
from typing import Any, Self

from brackets.core.apart.criteria import KeepApart
from brackets.core.apart.result import Draw
from brackets.core.apart.separated import DRAW_VERSION, separated_draw
from brackets.core.draw import Entrant, draw_by_region
from brackets.core.rules import BracketRules
from seeding.core.lot import Lot
from seeding.core.qualifying import SPOT, WILD_CARD, Fill, Held, LinesByRegion, Spot
from seeding.journal.core.chain import canonical

Item = Mapping[str, Any]


@dataclass(frozen=True, slots=True, order=True)
class Row:
    """One who takes part. `team`, `region`: names, empty where he has none; `spot` such as "A1".

    `met`: entries of the weight whom he met before, in order; empty where that is not looked at.
    """

    entry: str
    seed: int | None
    team: str
    region: str = ""
    spot: str = ""
    met: tuple[str, ...] = ()

    @classmethod
    def read(cls, item: Item) -> Self:
        """The row that `plain` wrote."""
        return cls(
            entry=item["entry"],
            seed=item.get("seed"),
            team=item.get("team", ""),
            region=item.get("region", ""),
            spot=item.get("spot", ""),
            met=tuple(item.get("met", ())),
        )

    def plain(self) -> dict[str, Any]:
        """The row as JSON holds it."""
        return {
            "entry": self.entry,
            "seed": self.seed,
            "team": self.team,
            "region": self.region,
            "spot": self.spot,
            "met": list(self.met),
        }

    @property
    def held(self) -> Held | None:
        """The line of the field that he holds by place, if he does."""
        found = SPOT.fullmatch(self.spot)
        if not found:
            return None
        region = "" if found[1] == WILD_CARD else found[1]
        return Held(self.entry, Spot(region, int(found[2])))


@dataclass(frozen=True, slots=True)
class Basis:
    """The field of a weight as a draw knows it. `holes`: seeds whose holders were scratched."""

    weight: str
    rows: tuple[Row, ...]
    holes: tuple[int, ...] = ()

    @classmethod
    def of(cls, weight: str, rows: Iterable[Row], holes: Iterable[int] = ()) -> Self:
        """The basis, the same whatever order the rows come in."""
        return cls(weight, tuple(sorted(rows, key=lambda row: row.entry)), tuple(sorted(holes)))

    @classmethod
    def read(cls, weight: str, item: Item) -> Self:
        """The basis that `plain` wrote."""
        return cls.of(weight, map(Row.read, item["rows"]), item["holes"])

    def plain(self) -> dict[str, Any]:
        """The basis as JSON holds it."""
        return {"rows": [row.plain() for row in self.rows], "holes": list(self.holes)}

    @property
    def entrants(self) -> list[Entrant]:
        """The field as the draw takes it."""
        return [
            Entrant(row.entry, row.seed, row.team, row.region, frozenset(row.met))
            for row in self.rows
        ]

    def mark(self, lot_seed: str) -> str:
        """SHA-256 of the canonical JSON of the basis, its weight and the lot's seed."""
        text = canonical({**self.plain(), "weight": self.weight, "seed": lot_seed})
        return sha256(text.encode()).hexdigest()

    def changes_since(self, now: "Basis") -> dict[str, Any]:
        """What has to be laid over the basis of now to have this one again; {} where nothing.

        `entries`: rows as they were; who is in the field only now has `entered` false.
        """
        old = {row.entry: row for row in self.rows}
        new = {row.entry: row for row in now.rows}
        rows = [row.plain() for row in self.rows if new.get(row.entry) != row]
        rows += [{"entry": entry, "entered": False} for entry in new if entry not in old]
        found: dict[str, Any] = {"entries": rows} if rows else {}
        return found if self.holes == now.holes else found | {"holes": list(self.holes)}

    def overlaid(self, changes: Item) -> "Basis":
        """The basis as it was, by what `changes_since` tells."""
        rows = {row.entry: row for row in self.rows}
        for item in changes.get("entries", ()):
            if item.get("entered", True):
                rows[item["entry"]] = Row.read(item)
            else:
                rows.pop(item["entry"], None)
        return Basis.of(self.weight, rows.values(), changes.get("holes", self.holes))


def drawn(
    basis: Basis, rules: BracketRules, fill: Fill, lot_seed: str, version: int = DRAW_VERSION
) -> Draw:
    """The draw of a basis: by region and place where the rule book fills lines so, else by seed
    and the lot of `lot_seed` with the purpose "draw/<weight>".

    `version`: the way of drawing. Who holds no spot is left out of a draw by region. Refuses what
    the draws refuse.
    """
    if isinstance(fill, LinesByRegion):
        held = [row.held for row in basis.rows]
        lines = draw_by_region([one for one in held if one], fill, rules)
        return Draw(lines, kept=(), patterns=0, version=version)
    lot, keep = Lot(lot_seed, f"draw/{basis.weight}"), KeepApart(rules.keep_apart)
    return separated_draw(basis.entrants, rules, lot, keep, basis.holes, version=version)


def with_meetings(rows: Iterable[Row], met: Collection[tuple[str, str]]) -> list[Row]:
    """The rows with whom each met, out of pairs of entries; others than the rows' are left out."""
    listed = list(rows)
    here = {row.entry for row in listed}
    found: dict[str, set[str]] = {entry: set() for entry in here}
    for one, other in met:
        if one != other and {one, other} <= here:
            found[one].add(other)
            found[other].add(one)
    return [replace(row, met=tuple(sorted(found[row.entry]))) for row in listed]
