"""The invented championship as a tournament file without results, and how its bouts end."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from brackets.core.graph import BoutKey
from deploy.scenario.bouts import LENGTH, wrestled
from deploy.scenario.chance import Chance
from deploy.scenario.field import WEIGHTS, Person, field
from deploy.scenario.names import TEAMS
from deploy.scenario.season import Met, season
from results.core.outcomes import Kind, Outcome, Side

SEED = "longwater"
SLUG = "longwater-open"
MATS = 6
Item = dict[str, Any]


@dataclass(frozen=True, slots=True)
class OpenBout:
    """A bout that can be wrestled now: weight, key, number, and the ids of top and bottom."""

    weight: str
    key: BoutKey
    number: int
    sides: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Scenario:
    """The whole invention for one seed."""

    seed: str
    everybody: tuple[Person, ...]
    bouts: tuple[Met, ...]

    def document(self) -> Item:
        """The tournament file: everything before the first whistle, without brackets or results."""
        entries = [one for one in self.everybody if not one.outsider]
        return {
            "format": "tournament-file",
            "version": 1,
            "tournament": _TOURNAMENT,
            "divisions": [{"id": "open", "name": "Open", "rulebook": "college-2025"}],
            "teams": [_team(at) for at in range(len(TEAMS))],
            "weight_classes": [_weight(self.seed, weight) for weight in WEIGHTS],
            "entries": [_entry(one) for one in entries],
            "wrestlers": [_wrestler(one) for one in self.everybody if one.outsider],
            "prior_bouts": [_prior(met) for met in self.bouts],
            "adjustments": [{"team": "rus", "points": "-1", "reason": "unsportsmanlike conduct"}],
        }

    def outcome(self, weight: str, key: BoutKey, sides: tuple[str, str]) -> Outcome:
        """How this bout ends: always the same for the same seed, bout and sides."""
        strengths = {one.id: one.strength for one in self.everybody}
        hurt = self.hurt
        chance = Chance(self.seed, f"bout/{weight}/{key}/{sides[0]}/{sides[1]}")
        if hurt in sides:
            winner: Side = 1 if sides[0] == hurt else 0
            if key.round == "R1":
                return Outcome(Kind.INJURY, winner, time=chance.between(60, LENGTH))
            return Outcome(Kind.MEDICAL, winner)
        return wrestled(chance, strengths[sides[0]], strengths[sides[1]])

    @property
    def hurt(self) -> str:
        """Who is hurt in his first bout and has to give up the next."""
        return next(one.id for one in self.everybody if (one.weight, one.seed) == ("174", 17))

    def day(
        self, open_bouts: Callable[[], Iterable[OpenBout]], last: int
    ) -> Iterator[tuple[OpenBout, Outcome]]:
        """The day up to bout number `last`, in running order.

        Asks for the open bouts anew whenever those it knows are done; whoever takes a result from
        here enters it before taking the next.
        """
        while ready := _up_to(open_bouts(), last):
            for bout in ready:
                yield bout, self.outcome(bout.weight, bout.key, bout.sides)


def scenario(seed: str = SEED) -> Scenario:
    """The invention for a seed; the demo is that of `SEED`."""
    everybody = field(seed)
    return Scenario(seed, everybody, season(seed, everybody))


def _up_to(bouts: Iterable[OpenBout], last: int) -> Sequence[OpenBout]:
    return sorted((one for one in bouts if one.number <= last), key=lambda one: one.number)


_TOURNAMENT: Item = {
    "slug": SLUG,
    "name": "Longwater Open Championships",
    "starts_on": "2025-03-15",
    "time_zone": "America/Chicago",
    "mats": [str(mat) for mat in range(1, MATS + 1)],
    "publish": {
        "entries": True,
        "seeds": True,
        "draw": True,
        "results": True,
        "team_points": True,
    },
}


def _team(at: int) -> Item:
    team = TEAMS[at]
    item: Item = {"id": team.key, "name": team.name, "short": team.short}
    return item | {"members": list(team.members)} if team.members else item


def _weight(seed: str, weight: str) -> Item:
    seeding = {"lot_seed": f"{seed} {weight}"}
    return {"id": weight, "division": "open", "label": weight, "places": 8, "seeding": seeding}


def _entry(one: Person) -> Item:
    item: Item = {
        "id": one.id,
        "weight_class": one.weight,
        "team": next(team.key for team in TEAMS if team.name == one.team),
        "given": one.given,
        "family": one.family,
        "publish": one.publish,
        "scoring": one.scoring,
        "status": "scratched" if one.scratched else "entered",
        "weighed_in": "missed" if one.scratched else "made",
    }
    known = {"seed": one.seed, "rank": one.rank, "qualifying_place": one.qualifying_place}
    return item | {key: value for key, value in known.items() if value is not None}


def _wrestler(one: Person) -> Item:
    return {"id": one.id, "given": one.given, "family": one.family, "team": one.team}


def _prior(met: Met) -> Item:
    item: Item = {
        "date": met.date.isoformat(),
        "weight": met.weight,
        "winner": met.winner,
        "loser": met.loser,
        "kind": met.outcome.kind.value,
        "event": met.event,
    }
    return item | {"score": list(met.outcome.score)} if met.outcome.score else item
