"""Random weights in the cores alone, held against the independent checker after every step."""

import traceback
from collections import Counter
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial

from tests.audit.cores.acts import Weight

COUNT = 20_000
EVERY, PORTION = 500, 10
Say = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Told:
    """A weight as it ended: its format, how many acts there were, and what went wrong."""

    number: int
    format: str
    acts: int
    trouble: tuple[str, ...]


def soak(count: int, seed: int, jobs: int, first: int, say: Say) -> str:
    """Wrestle `count` weights from number `first` on; why it failed, empty where all is well."""
    weights, acts = Counter[str](), Counter[str]()
    with ProcessPoolExecutor(jobs) as pool:
        numbers = range(first, first + count)
        for told in pool.map(partial(wrestled, seed), numbers, chunksize=PORTION):
            weights[told.format] += 1
            acts[told.format] += told.acts
            if told.trouble:
                pool.shutdown(cancel_futures=True)
                return failure(told, seed)
            if weights.total() % EVERY == 0:
                say(f"{weights.total()} of {count} weights, {acts.total()} acts, no difference.")
    for name in sorted(weights):
        say(f"{name}: {weights[name]} weights, {acts[name]} acts")
    return ""


def wrestled(seed: int, number: int) -> Told:
    """The weight of a number, up to the first act after which cores and checker differ."""
    weight = Weight.of(seed, number)
    try:
        trouble = next((found for found in weight.day() if found), [])
    except Exception:  # noqa: BLE001  whatever breaks the cores is what is looked for
        trouble = traceback.format_exc().splitlines()
    log = [*weight.log, *trouble] if trouble else []
    return Told(number, weight.made.name, len(weight.log), tuple(log))


def failure(told: Told, seed: int) -> str:
    """What to say of a weight that failed, act by act."""
    listed = "\n  ".join(told.trouble)
    return (
        f"Weight {told.number} of seed {seed} ({told.format}) failed:\n  {listed}\n"
        f"Again: sh deploy/manage soak cores --count 1 --seed {seed} --first {told.number}"
    )
