"""The draw with team-mates kept apart: proven best, and how long it takes, field by field."""

import gc
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count
from random import Random
from statistics import median
from time import process_time

from brackets.core.apart.criteria import KeepApart
from brackets.core.apart.result import Draw
from brackets.core.apart.separated import separated_draw
from brackets.core.draw import Entrant
from seeding.core.lot import Lot
from tests.benchmarks.row import Row
from tests.brackets.core.books import rules
from tests.brackets.core.fields import random_field, setting

FIELDS = 1_000
LIMIT = 0.1
SHARE = 0.95
USED = {byes: rules(advancing_byes=byes) for byes in ("best-seeds", "by-lot")}


@dataclass(frozen=True, slots=True)
class Run:
    seed: int
    seconds: float
    drawn: Draw
    alone: bool

    @property
    def costs(self) -> bool:
        """Whether some two team-mates can meet before the final in every draw."""
        return any(self.drawn.kept[0].bound)


def rows(fields: int = FIELDS) -> Iterator[Row]:
    """Random fields of 8 to 64 with up to 16 seeds, half of them with a best cost above zero.

    The bound: the least cost of each team alone, by the exact tree programme, summed; where that
    is not reached the same with prices on the slots, which is a bound as well.
    """
    gc.collect()
    gc.freeze()  # otherwise a field pays for looking through everything that Django has loaded
    runs = chosen(fields)
    gc.unfreeze()
    certified = sum(run.drawn.certified for run in runs)
    alone = sum(run.alone for run in runs)
    goal = f"gap 0 proven, >= {SHARE:.0%}"
    share = certified / len(runs)
    above = sum(run.costs for run in runs)
    yield Row(
        f"draw: proven best, {above} with a cost", certified, len(runs), share, goal, share >= SHARE
    )
    yield Row(
        "draw: by each team alone, without prices",
        alone,
        len(runs),
        alone / len(runs),
        "printed",
        met=True,
    )
    uniform = sum(run.drawn.patterns > 0 for run in runs)
    yield Row(
        "draw: counted, so uniform", uniform, len(runs), uniform / len(runs), "printed", met=True
    )
    seconds = [run.seconds for run in runs]
    for which, ours in (("median", median(seconds)), ("slowest", max(seconds))):
        yield Row(
            f"draw: {which} field, seconds",
            ours,
            LIMIT,
            ours / LIMIT,
            f"<= {LIMIT} s",
            ours <= LIMIT,
        )


def chosen(fields: int) -> Sequence[Run]:
    """The first random fields, as many with a best cost above zero as without."""
    found: dict[bool, list[Run]] = {False: [], True: []}
    for seed in count():
        run = measured(seed)
        if len(found[run.costs]) < fields // 2:
            found[run.costs].append(run)
        if all(len(runs) == fields // 2 for runs in found.values()):
            break
    return [*found[False], *found[True]]


def measured(seed: int) -> Run:
    """One field; every second one has teams of one or two only, most of which can be kept apart."""
    chance = Random(seed)
    field = random_field(chance)
    used = USED[chance.choice(sorted(USED))]
    if seed % 2:
        field = [Entrant(one.id, one.seed, f"t{i // 2}") for i, one in enumerate(field)]
        chance.shuffle(field)
        field = [
            Entrant(one.id, one.seed, one.team if chance.random() < 0.7 else "") for one in field
        ]
    begun = process_time()
    drawn = separated_draw(field, used, Lot(str(seed), "draw"), KeepApart())
    seconds = process_time() - begun
    priced = setting(field, used, lot=str(seed)).field.least.priced
    return Run(seed, seconds, drawn, alone=not priced)
