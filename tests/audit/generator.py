"""A random tournament, wrestled and dumped, from a seed and a number alone."""

import json
import time
import traceback
from collections import Counter
from dataclasses import dataclass, field
from functools import partial
from random import Random
from typing import Any

from django.db import transaction

from results.serializers.document import dump
from seeding.entries.models import Tournament
from seeding.journal.core.errors import Refusal
from tests.audit.case import Case, case
from tests.audit.checker import check
from tests.audit.day import Day, wrestle_beside
from tests.audit.events import Event


@dataclass(frozen=True, slots=True)
class Played:
    """A tournament as it ended.

    `happened`: what happened in it; `rounds`: how many left before each of it; `trouble`: why it
    failed, line by line, empty where all is well.
    """

    case: Case
    document: dict[str, Any]
    happened: Counter[Event]
    rounds: Counter[str]
    trouble: tuple[str, ...]
    seconds: float


@dataclass
class _Looks:
    """Dumps of a tournament under way, each held against the checker until one differs.

    `every`: one before each wave of bouts; else one in all, at a time left to chance.
    """

    chance: Random
    every: bool
    document: dict[str, Any] = field(default_factory=dict)
    trouble: tuple[str, ...] = ()

    def perhaps(self, tournament: Tournament) -> None:
        """Look, if it is time to."""
        if self.every or (not self.document and self.chance.random() < 0.2):
            self.look(tournament)

    def look(self, tournament: Tournament) -> None:
        """Dump the tournament and judge it."""
        if not self.trouble:
            self.document = json.loads(json.dumps(dump(tournament)))
            self.trouble = tuple(check(self.document))


def played(seed: int, number: int, *, every: bool = False) -> Played:
    """The tournament of a number, judged at its end and once before; the database is as before.

    `every`: judged before each of its waves.

    The document is that of its end, or the first that is not as it should be.
    """
    made, began = case(seed, number), time.monotonic()
    day: Day | None = None
    looks = _Looks(Random(f"{seed}/{number}/look"), every)
    try:
        with transaction.atomic():
            day = Day.of(made)
            day.wrestle(partial(looks.perhaps, day.hall.tournament))
            wrestle_beside(day.hall.tournament, day.chance)
            looks.look(day.hall.tournament)
            transaction.set_rollback(True)
        trouble = looks.trouble
    except Refusal as refusal:
        trouble = (f"refused: {refusal.code}: {refusal}", *traceback.format_exc().splitlines())
    except Exception as error:  # noqa: BLE001  whatever breaks the engine is what is looked for
        trouble = (f"broken: {error!r}", *traceback.format_exc().splitlines())
    return Played(
        case=made,
        document=looks.document,
        happened=day.happened if day else Counter(),
        rounds=day.rounds if day else Counter(),
        trouble=trouble,
        seconds=time.monotonic() - began,
    )
