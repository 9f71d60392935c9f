"""Two small CSV files for somebody's own first tournament: a roster, and the season behind it.

`python -m deploy.scenario.small` writes them to `fixtures/demo/` anew.
"""

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from deploy.scenario.chance import Chance
from deploy.scenario.field import Person
from deploy.scenario.names import TEAMS, people
from deploy.scenario.season import Met, open_event
from results.core.outcomes import notation
from seeding.entries.core.escaped import write_csv

SEED = "first tournament"
FIELDS = {"133": 7, "149": 5}
EVENTS = (("Harbor Duals", date(2024, 12, 7)), ("Winter Open", date(2025, 1, 18)))


def files(seed: str = SEED) -> Mapping[str, bytes]:
    """The content of each file, by its name."""
    roster = _roster(seed)
    bouts = [
        met
        for event, day in EVENTS
        for weight in FIELDS
        for met in open_event(seed, event, day, [one for one in roster if one.weight == weight])
    ]
    return {"roster.csv": _roster_csv(roster), "season.csv": _season_csv(roster, bouts)}


def _roster(seed: str) -> list[Person]:
    chance = Chance(seed, "roster")
    places = [
        (team.name, weight)
        for weight, size in FIELDS.items()
        for team in chance.shuffled(TEAMS[: max(FIELDS.values())])[:size]
    ]
    names = people(chance, len(places))
    return [
        Person(f"s{at}", given, family, team, weight, chance.normal())
        for at, ((team, weight), (given, family)) in enumerate(zip(places, names, strict=True))
    ]


def _roster_csv(roster: list[Person]) -> bytes:
    shorts = {team.name: team.short for team in TEAMS}
    headings = ("First name", "Last name", "Weight class", "School", "Code", "Publish")
    rows = [
        (one.given, one.family, one.weight, one.team, shorts[one.team], publish)
        for one, publish in zip(roster, ("initials", *["full"] * len(roster)), strict=False)
    ]
    return write_csv(headings, rows)


def _season_csv(roster: list[Person], bouts: list[Met]) -> bytes:
    known = {one.id: one for one in roster}
    headings = ("Date", "Weight", "Winner", "Winner team", "Loser", "Loser team", "Result", "Event")
    rows = []
    for met in bouts:
        winner, loser = known[met.winner], known[met.loser]
        result = notation(met.outcome)
        rows.append(
            (
                met.date.isoformat(),
                met.weight,
                f"{winner.family}, {winner.given}",
                winner.team,
                f"{loser.family}, {loser.given}",
                loser.team,
                result,
                met.event,
            )
        )
    return write_csv(headings, rows)


if __name__ == "__main__":
    folder = Path(__file__).resolve().parents[2] / "fixtures" / "demo"
    folder.mkdir(parents=True, exist_ok=True)
    for name, data in files().items():
        (folder / name).write_bytes(data)
