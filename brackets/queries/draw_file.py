"""What the weights of a tournament file are drawn from, by the file alone."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import Any

from brackets.core.apart.basis import Basis, Row, with_meetings
from brackets.core.rules import Apart, BracketRules
from brackets.queries.basis import UNWRESTLED
from seeding.core.qualifying import WILD_CARD, Fill
from seeding.core.rules import SeedingRules
from seeding.core.scratches import Scratched
from seeding.entries.core.upgrades import Snapshot
from seeding.entries.rulebooks import readable, with_settings
from seeding.queries.season import WINDOW

Item = Mapping[str, Any]


class DrawFile:
    """A tournament file as its draws read it: `tournament`, `divisions`, `weight_classes`,
    `entries`, `prior_bouts`, `qualifying`.
    """

    def __init__(self, document: Item) -> None:
        self.document = document
        self.divisions = {item["id"]: _snapshot(item) for item in document["divisions"]}
        self.weights: Mapping[str, Item] = {item["id"]: item for item in document["weight_classes"]}
        self.entries: Mapping[str, Item] = {item["id"]: item for item in document["entries"]}
        berths = document.get("qualifying", {}).get("berths", ())
        self.berths: Mapping[str, Item] = {item["entry"]: item for item in berths}

    def _snapshot(self, weight: str) -> Snapshot:
        return self.divisions[self.weights[weight]["division"]]

    def rules(self, weight: str) -> BracketRules:
        """The section [bracket] of a weight's rule book."""
        return BracketRules.from_section(self._snapshot(weight)["bracket"])

    def fill(self, weight: str) -> Fill:
        """How the rule book of a weight fills its lines."""
        return self._seeding(weight).fill

    def _seeding(self, weight: str) -> SeedingRules:
        return SeedingRules.from_section(self._snapshot(weight)["seeding"])

    def basis(self, weight: str) -> Basis:
        """What the weight would be drawn from as the file stands."""
        here = [item for item in self.entries.values() if item["weight_class"] == weight]
        rows = [self._row(item) for item in here if _entered(item)]
        if Apart.MET in self.rules(weight).keep_apart:
            met = self._met([self.entries[row.entry] for row in rows])
            rows = with_meetings(rows, list(met))
        return Basis.of(weight, rows, self._holes(weight, here))

    def _row(self, item: Item) -> Row:
        berth = self.berths.get(item["id"], {})
        return Row(
            entry=item["id"],
            seed=item.get("seed"),
            team=item["team"],
            region=berth.get("region") or "",
            spot=_spot(self._root(item["id"])),
        )

    def _root(self, entry: str) -> Item:
        """The berth whose spot an entry holds: of an alternate, that of whom he came for."""
        found, seen = self.berths.get(entry, {}), {entry}
        while (other := str(found.get("stepped_in_for", ""))) in self.berths.keys() - seen:
            seen.add(other)
            found = self.berths[other]
        return found

    def _holes(self, weight: str, here: Iterable[Item]) -> set[int]:
        if self._seeding(weight).scratched is not Scratched.HOLE:
            return set()
        seeded = [item for item in here if item.get("seed")]
        held = {item["seed"] for item in seeded if _entered(item)}
        return {item["seed"] for item in seeded if item.get("status") == "scratched"} - held

    def _met(self, field: Iterable[Item]) -> Iterator[tuple[str, str]]:
        people = {entry: item.get("wrestler") or entry for entry, item in self.entries.items()}
        keys = {people[item["id"]]: item["id"] for item in field}
        starts = date.fromisoformat(self.document["tournament"]["starts_on"])
        for bout in self.document.get("prior_bouts", ()):
            pair = [keys.get(people.get(bout[side], bout[side])) for side in ("winner", "loser")]
            within = starts - WINDOW <= date.fromisoformat(bout["date"]) < starts
            if pair[0] and pair[1] and within and bout["kind"] not in UNWRESTLED:
                yield pair[0], pair[1]


def _snapshot(item: Item) -> Snapshot:
    kept = item.get("snapshot")
    return readable(kept) if kept else with_settings(item["rulebook"], item.get("settings", {}))


def _entered(item: Item) -> bool:
    return bool(item.get("status", "entered") == "entered")


def _spot(berth: Item) -> str:
    if berth.get("how") == "place" and berth.get("region") and berth.get("place"):
        return f"{berth['region']}{berth['place']}"
    if berth.get("how") == "wild card" and berth.get("order"):
        return f"{WILD_CARD}{berth['order']}"
    return ""
