"""A random tournament, wrestled and dumped, from a seed and a number alone."""

import json
import time
import traceback
from collections import Counter
from dataclasses import dataclass
from typing import Any

from django.db import transaction

from results.serializers.document import dump
from seeding.journal.core.errors import Refusal
from tests.audit.case import Case, case
from tests.audit.checker import check
from tests.audit.day import Day, wrestle_beside
from tests.audit.events import Event


@dataclass(frozen=True, slots=True)
class Played:
    """A tournament as it ended.

    `happened`: what happened in it; `rounds`: those that somebody left before; `trouble`: why it
    failed, line by line, empty where all is well.
    """

    case: Case
    document: dict[str, Any]
    happened: Counter[Event]
    rounds: Counter[str]
    trouble: tuple[str, ...]
    seconds: float


def played(seed: int, number: int) -> Played:
    """The tournament of a number, judged; the database is as before."""
    made, began = case(seed, number), time.monotonic()
    day: Day | None = None
    document: dict[str, Any] = {}
    try:
        with transaction.atomic():
            day = Day.of(made)
            day.wrestle()
            wrestle_beside(day.hall.tournament, day.chance)
            document = json.loads(json.dumps(dump(day.hall.tournament)))
            transaction.set_rollback(True)
        trouble = tuple(check(document))
    except Refusal as refusal:
        trouble = (f"refused: {refusal.code}: {refusal}", *traceback.format_exc().splitlines())
    except Exception as error:  # noqa: BLE001  whatever breaks the engine is what is looked for
        trouble = (f"broken: {error!r}", *traceback.format_exc().splitlines())
    return Played(
        case=made,
        document=document,
        happened=day.happened if day else Counter(),
        rounds=day.rounds if day else Counter(),
        trouble=trouble,
        seconds=time.monotonic() - began,
    )
