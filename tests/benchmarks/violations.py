"""The order of fewest violations for 32 wrestlers, against the limit of half a second of CPU."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median
from time import process_time

from seeding.core.circles import Beat
from seeding.core.violations import FewestViolations, fewest_violations
from tests.benchmarks.row import Row
from tests.seeding.core.beaten import complete, field, season

SIZE = 32
LIMIT = 0.5
SEEDS = range(15)
# Seasons: each met so many others. Strengths that decide little (0.5) make many upsets.
SEASONS = ((6, 1.5), (8, 1.5), (12, 1.5), (20, 1.5), (8, 0.5), (20, 0.5))


@dataclass(frozen=True, slots=True)
class Run:
    seconds: float
    found: FewestViolations


def rows() -> Iterator[Row]:
    _run(season(SIZE, 0, 8))
    for met, order in SEASONS:
        kind = f"each met {met}, " + ("many upsets" if order < 1 else "some upsets")
        yield from _of_kind(kind, [season(SIZE, seed, met, order) for seed in SEEDS])
    yield from _of_kind("everybody met, near a line", [complete(SIZE, seed, 3.0) for seed in SEEDS])
    yield _lottery(0)


def _of_kind(kind: str, fields: Sequence[tuple[Beat, ...]]) -> Iterator[Row]:
    """The median and the worst of the fields, each proven."""
    runs = [_run(beats) for beats in fields]
    proven = all(run.found.proven for run in runs)
    goal = f"all {len(runs)} proven, <= {LIMIT} s"
    seconds = [run.seconds for run in runs]
    for which, ours in (("median", median(seconds)), ("worst", max(seconds))):
        name = f"violations, {SIZE}, {kind}: {which}"
        yield Row(name, ours, LIMIT, ours / LIMIT, goal, met=proven and ours <= LIMIT)


def _lottery(seed: int) -> Row:
    """Everybody met everybody and luck alone decided: beyond the goal, so the gap is printed."""
    run = _run(complete(SIZE, seed, 0.0))
    found = run.found
    name = f"violations, {SIZE}, pure luck: {len(found.violated)} found, {found.bound} proven"
    return Row(name, run.seconds, LIMIT, run.seconds / LIMIT, f"gap {found.gap} printed", met=True)


def _run(beats: tuple[Beat, ...]) -> Run:
    """The median of three; the answer is the same each time."""
    seconds = []
    for _ in range(3):
        begun = process_time()
        found = fewest_violations(field(SIZE), beats, field(SIZE))
        seconds.append(process_time() - begun)
    return Run(median(seconds), found)
