"""A tournament with every gate open, half wrestled, for the tests of public pages."""

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from django.test import Client

from brackets.queries import numbered
from results.core.outcomes import Kind, Outcome
from results.queries.gates import Gates
from results.queries.people import People
from results.services.teams import adjust
from seeding.entries.models import Entry, Team, Tournament
from seeding.entries.queries import tournament as tournament_of
from tests.results.championship import CALL, document, load, wrestle

SIZES = {"106": 17, "113": 6, "120": 4}
GATES = ("entries", "seeds", "draw", "results", "team_points")
LEVELS = ("full", "full", "initials", "hidden")
MOVING = re.compile(
    r"As of [\d:]+, act \d+|data-seq=\"\d+\"|\?after=\d+|<p class=\"fresh\".*?</p>", re.DOTALL
)


def file(gates: Iterable[str] = GATES) -> dict[str, Any]:
    """Weights of 17, 6 and 4; every third name is shown by initials, every fourth is hidden."""
    made = document(tuple(SIZES), max(SIZES.values()))
    made["tournament"]["publish"] = dict.fromkeys(gates, True)
    made["entries"] = [
        item | _name(item["seed"], item["weight_class"])
        for item in made["entries"]
        if item["seed"] <= SIZES[item["weight_class"]]
    ]
    return made


def _name(seed: int, weight: str) -> dict[str, Any]:
    level = LEVELS[seed % 4]
    return {
        "given": f"{level.title()}given",
        "family": f"{level.title()}family {chr(64 + seed)}{weight}",
        "publish": level,
        "weighed_in": ("made", "missed", "not yet")[seed % 3],
    }


def published(gates: Iterable[str] = GATES, share: float = 0.5) -> Tournament:
    """The tournament with a share of its bouts decided, and one point taken from a team."""
    made = load(file(gates))
    decide(made, share)
    division = made.divisions.get()
    team = Team.objects.get(tournament=made, key="t1")
    adjust(call=CALL, division=division, team=team, points=Decimal(-1), reason="Late to the mat")
    return tournament_of(made.slug)


def decide(tournament: Tournament, share: float) -> None:
    """Wrestle the first bouts by number; the top side wins by fall, in the fifth nobody does."""
    numbers = list(numbered(tournament).values_list("number", flat=True))
    for number in numbers[: int(len(numbers) * share)]:
        bout = numbered(tournament).get(number=number)
        if bout.status == "ready":
            nobody = Outcome(Kind.DOUBLE_FORFEIT, None)
            wrestle(bout, 0, nobody if number == 5 else Outcome(Kind.FALL, 0, time=148))


def addresses(tournament: Tournament) -> list[str]:
    """Every kind of public page, with all gates open; teams and wrestlers of every level."""
    home = f"/t/{tournament.slug}/"
    opened = Gates(entries=True, seeds=True, draw=True, results=True, points=True)
    small = tournament.weights.get(key="113").pk
    handles = {one.handle for one in People.of(tournament, opened).where(weight=small)}
    return [
        "/",
        home,
        *(f"{home}weights/{key}/" for key in SIZES),
        f"{home}draw/",
        f"{home}bouts/",
        f"{home}bouts/?mat=1",
        f"{home}points/",
        *(f"{home}teams/t{number}/" for number in range(1, 5)),
        *(f"{home}wrestlers/{handle}/" for handle in sorted(handles)),
    ]


def told(pages: Iterable[str]) -> dict[str, tuple[int, str]]:
    """Status and text of some pages, without what says how fresh they are."""
    client = Client()
    found = {}
    for page in pages:
        answer = client.get(page)
        found[page] = answer.status_code, MOVING.sub("", answer.content.decode())
    return found


def shut(tournament: Tournament, *gates: str) -> None:
    """Close some gates."""
    closed = {f"shows_{gate}": False for gate in gates}
    Tournament.objects.filter(pk=tournament.pk).update(**closed)


def rename(rows: Iterable[Entry]) -> None:
    """Give every wrestler of these entries another name."""
    for row in rows:
        row.wrestler.given, row.wrestler.family = f"Else{row.pk}", f"Other{row.pk}"
        row.wrestler.save()
