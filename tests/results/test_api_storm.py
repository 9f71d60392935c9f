"""No request brings the API down: every operation, owner and stranger, in a storm of junk."""

import os
from random import Random, SystemRandom
from typing import Any

import pytest
from django.db import transaction

from brackets.models import Bout
from seeding.entries.models import Role, Tournament
from tests.results.championship import document, load, wrestle
from tests.results.interface import Api, user
from tests.results.storm import Storm

pytestmark = pytest.mark.django_db
COUNT = int(os.environ.get("STORM_COUNT", "400"))
SEED = int(os.environ.get("STORM_SEED", "0")) or SystemRandom().randrange(2**32)


def file() -> dict[str, Any]:
    made = document(("125", "141"), 6)
    made["tournament"]["publish"] = {"entries": True, "draw": True}
    made["brackets"] = [{"weight_class": "125"}]
    return made


@pytest.fixture
def tournament() -> Tournament:
    made = load(file())
    for number in (1, 2):
        wrestle(Bout.objects.get(number=number), 0)
    return made


def known(tournament: Tournament) -> dict[str, list[str]]:
    """What the tournament really has, by the name of a parameter or field."""
    return {
        "entry": ["125-1", "125-2", "141-1"],
        "into": ["t1", "t2"],
        "label": ["125", "149", "HWT"],
        "rulebook": ["college-2025", "high-school-2025"],
        "points": ["1", "-1.5", "0"],
        "time": ["1:05", "7:00"],
        "organisation": ["home", "away"],
        "mat": ["1", "2"],
        "slug": [tournament.slug],
        "key": ["125-1", "141-2", "open"],
        "weight": ["125", "141"],
        "team": ["t1", "t2"],
        "bout": ["1", "2", "3", "125.QF-1"],
        "username": ["owner", "stranger"],
        "uid": [tournament.entries.first().wrestler.uid],  # type: ignore[union-attr]
        "name": ["college-2025"],
        "division": ["open"],
        "move": ["1"],
        "adjustment": ["1"],
    }


def callers(tournament: Tournament) -> list[Api]:
    """An owner twice as often as a stranger and nobody."""
    owner = user("owner")
    Role.objects.create(tournament=tournament, user=owner, name="owner")
    return [Api(owner), Api(owner), Api(user("stranger", organisation="away")), Api()]


def test_no_request_is_answered_by_a_fault(tournament: Tournament) -> None:
    people = callers(tournament)
    chance = Random(SEED)
    faults: list[Any] = []

    def send(method: str, path: str, body: Any, match: str) -> Any:
        with transaction.atomic():
            who = chance.choice(people)
            answer = who.ask(method, path.removeprefix("/api/v1"), body, match=match)
            if answer.status_code >= 500:
                faults.append((method, path, body, answer.content))
            if chance.random() < 0.9:
                transaction.set_rollback(True)
        return answer

    storm = Storm(chance, known(tournament), file(), send)
    storm.blow(COUNT)
    assert not faults, f"STORM_SEED={SEED}"
    assert {200, 201, 400, 403, 404, 409} <= set(storm.statuses), f"STORM_SEED={SEED}"
