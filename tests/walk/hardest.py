"""The files of the demo's hardest weight: who is entered, the season behind it, what was put in.

The hardest of the invented championship is 157: of its 33 so many have beaten somebody above them
that 24 hang together in circles.
"""

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from deploy.scenario.tournament import Scenario, scenario
from results.core.outcomes import notation
from seeding.entries.core.escaped import write_csv

WEIGHT = "157"


def files(folder: Path) -> dict[str, Path]:
    """Roster, season and put-in as CSV files."""
    made = scenario()
    known = {one["id"]: one for one in people(made)}
    entered = {one["id"] for one in entries(made)}
    tables = {
        "roster": write_csv(("Given name", "Family name", "Weight", "Team"), roster(made)),
        "season": write_csv(
            ("Date", "Weight", "Winner", "Winner team", "Loser", "Loser team", "Result", "Event"),
            season(made, known, entered),
        ),
        "ranks": write_csv(("Weight", "Wrestler", "Table", "Kind", "Value"), put_in(entries(made))),
    }
    for name, data in tables.items():
        (folder / f"{name}.csv").write_bytes(data)
    return {name: folder / f"{name}.csv" for name in tables}


def entries(made: Scenario) -> list[dict[str, Any]]:
    """The entries of the weight that are not scratched."""
    return [
        one
        for one in made.document()["entries"]
        if one["weight_class"] == WEIGHT and one["status"] == "entered"
    ]


def people(made: Scenario) -> Iterator[dict[str, Any]]:
    """Everybody of the season, with the name of the team."""
    teams = {team["id"]: team["name"] for team in made.document()["teams"]}
    for one in made.document()["entries"]:
        yield one | {"team": teams[one["team"]]}
    yield from made.document()["wrestlers"]


def name(one: dict[str, Any]) -> str:
    return f"{one['family']}, {one['given']}"


def roster(made: Scenario) -> Iterator[tuple[str, ...]]:
    teams = {team["id"]: team["name"] for team in made.document()["teams"]}
    for one in entries(made):
        yield one["given"], one["family"], WEIGHT, teams[one["team"]]


def season(
    made: Scenario, known: dict[str, dict[str, Any]], entered: set[str]
) -> Iterator[tuple[str, ...]]:
    """The bouts of those entered, and of those whom they met."""
    near = {
        uid for met in made.bouts for uid in (met.winner, met.loser)
        if entered & {met.winner, met.loser}
    }  # fmt: skip
    for met in made.bouts:
        if near & {met.winner, met.loser}:
            winner, loser = known[met.winner], known[met.loser]
            sides = (name(winner), winner["team"], name(loser), loser["team"])
            day, how = met.date.isoformat(), notation(met.outcome)
            yield (day, met.weight, *sides, how, met.event)


def put_in(rows: Iterable[dict[str, Any]]) -> Iterator[tuple[str, ...]]:
    """Coaches' ranks and places at the qualifying event."""
    for one in rows:
        tables = (("coaches", "rank", "rank"), ("qualifying event", "place", "qualifying_place"))
        for table, kind, field in tables:
            if one.get(field):
                yield WEIGHT, name(one), table, kind, str(one[field])
