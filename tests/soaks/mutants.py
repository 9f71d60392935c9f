"""Bugs planted in the cores by mechanical changes, each judged by runs of tournaments."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor, as_completed
from dataclasses import replace
from itertools import repeat
from pathlib import Path
from queue import SimpleQueue

from tests.audit.mutants import Fate, Found, Mutant, Run, mutants, proofs, some, sound, try_out
from tests.audit.place import copied, empty_database, folder, shares
from tests.audit.rows import CYCLE

COUNT = 150
SHORT, LONG, MANY = len(CYCLE), 4 * len(CYCLE), 1000
FEW, WEIGHTS = 60, 3000
RUNS = (
    Run(range(FEW), cores=True),
    Run(range(SHORT)),
    Run(range(FEW, WEIGHTS), cores=True),
    Run(range(SHORT, LONG), every=True),
    Run(range(LONG, MANY)),
)
"""Some weights in the cores alone, every act judged: they are quick. Then every row once; for bugs
that are not noticed then many more weights, every row thrice more with every wave judged, and a
tenth of a full run: what is wrong between two divisions comes up in one tournament of hundreds."""

PROVEN = 2
"""How many of these a change has to pass of which it is proven that it changes nothing."""

ALL = MANY + WEIGHTS
GOAL = 0.99
Say = Callable[[str], None]


def soak(count: int, seed: int, jobs: int, first: int, say: Say) -> str:
    """Plant `count` bugs one at a time; why it failed, empty where enough are noticed."""
    planted = some(count, seed, first)
    say(f"{len(planted)} of {len(mutants())} bugs that can be planted.")
    found: list[Found] = []
    with folder() as place:
        empty = empty_database(place / "empty.sqlite3")
        runs = [_sound(run, empty, seed, jobs) for run in RUNS]
        right = sum(len(run.numbers) for run in runs)
        say(f"{right} of {ALL} tournaments and weights are judged right as the program is.")
        for at, one in _tried(planted, empty, seed, runs, jobs):
            found.append(one)
            say(f"{at:>4} {one.fate}: {one.mutant.name} {_sign(one)}")
    return _judged(found, right, say)


def _sound(run: Run, empty: Path, seed: int, jobs: int) -> Run:
    """Those of a run in which nothing is found as the program is, shared among the processes."""
    names = (copied(empty, f"sound{job}") for job in range(jobs))
    stretches = shares(range(len(run.numbers)), jobs)
    parts = [replace(run, numbers=[run.numbers[at] for at in one]) for one in stretches]
    with ThreadPoolExecutor(jobs) as pool:
        found = list(pool.map(sound, names, repeat(seed), parts))
    numbers = sorted(one for part in found for one in part.numbers)
    return replace(run, numbers=numbers, seconds=sum(part.seconds for part in found))


def _sign(one: Found) -> str:
    line = f"line {one.mutant.change.line}"
    return f"({line}; {one.played}: {one.sign[:100]})" if one.sign else f"({line})"


def _tried(
    planted: Sequence[Mutant], empty: Path, seed: int, runs: Sequence[Run], jobs: int
) -> Iterator[tuple[int, Found]]:
    """Every planted bug in turn, told with its number in the sample as soon as its fate is known;
    each process on a database of its own."""
    free: SimpleQueue[Path] = SimpleQueue()
    for job in range(jobs):
        free.put(copied(empty, f"job{job}"))

    def tried(mutant: Mutant) -> Found:
        database = free.get()
        try:
            for run in runs[:PROVEN] if mutant.name in proofs() else runs:
                one = try_out(mutant, database, seed, run)
                if one.fate is not Fate.SURVIVED:
                    break
            return one
        finally:
            free.put(database)

    with ThreadPoolExecutor(jobs) as pool:
        numbers = {pool.submit(tried, one): at for at, one in enumerate(planted, start=1)}
        for ended in as_completed(numbers):
            yield numbers[ended], ended.result()


def _judged(found: Sequence[Found], numbers: int, say: Say) -> str:
    fates = Counter(one.fate for one in found)
    for fate in Fate:
        say(f"{fates[fate]:>5} {fate}")
    real = len(found) - fates[Fate.EQUIVALENT]
    caught = real - fates[Fate.SURVIVED]
    share = caught / real if real else 1.0
    say(f"{caught} of {real} that are no equivalent were noticed: {share:.1%}.")
    if numbers < ALL:
        return f"{ALL - numbers} of the tournaments and weights fail without any planted bug."
    return "" if share >= GOAL else f"Too few planted bugs were noticed: the goal is {GOAL:.0%}."
