"""A process that plays tournaments, and prints a line of JSON for each.

`python -m tests.audit.worker SEED NUMBERS [--on] [--every] [--cores] [--planted MODULE FILE]`,
numbers as 1,2,3 or as FROM:TO:STEP. It ends after the first that fails, unless told to go on. Each
tournament is judged once on its way and at its end, with --every before each of its waves. With
--cores it wrestles weights in the cores alone instead. MODULE is read from FILE instead of from its
own place.
"""

import json
import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from functools import partial
from typing import Any, TextIO

from tests.audit.overlay import overlay


@dataclass(frozen=True, slots=True)
class Told:
    """A tournament as its line tells it; the document only where there is trouble."""

    number: int
    row: int
    happened: dict[str, int]
    rounds: dict[str, int]
    singly: bool
    trouble: list[str]
    seconds: float
    document: dict[str, Any] | None

    @classmethod
    def read(cls, line: str) -> "Told":
        return cls(**json.loads(line))


def play(seed: int, numbers: Iterable[int], out: TextIO, how: Namespace) -> None:
    """Play these, a line for each; `how`: the options."""
    import django  # noqa: PLC0415  only now: a module may have been replaced before

    django.setup()
    one = _weight if how.cores else partial(_tournament, every=how.every)
    for number in numbers:
        told = one(seed, number)
        out.write(json.dumps(asdict(told)) + "\n")
        out.flush()
        if told.trouble and not how.on:
            break


def _tournament(seed: int, number: int, *, every: bool) -> Told:
    from tests.audit.generator import played  # noqa: PLC0415
    from tests.audit.rows import ROWS  # noqa: PLC0415

    found = played(seed, number, every=every)
    return Told(
        number=number,
        row=ROWS.index(found.case.row),
        happened={str(one): count for one, count in found.happened.items() if count},
        rounds=dict(found.rounds),
        singly=found.case.singly,
        trouble=list(found.trouble),
        seconds=found.seconds,
        document=found.document if found.trouble else None,
    )


def _weight(seed: int, number: int) -> Told:
    from tests.audit.rows import ROWS  # noqa: PLC0415
    from tests.soaks.cores import wrestled  # noqa: PLC0415

    found = wrestled(seed, number)
    row = next(at for at, one in enumerate(ROWS) if one.format == found.format)
    return Told(number, row, {}, {}, True, list(found.trouble), 0.0, None)


def _numbers(text: str) -> Iterable[int]:
    if ":" in text:
        return range(*(int(one) for one in text.split(":")))
    return [int(one) for one in text.split(",")]


if __name__ == "__main__":
    parser = ArgumentParser()
    parser.add_argument("seed", type=int)
    parser.add_argument("numbers", type=_numbers)
    parser.add_argument("--on", action="store_true")
    parser.add_argument("--every", action="store_true")
    parser.add_argument("--cores", action="store_true")
    parser.add_argument("--planted", nargs=2)
    told = parser.parse_args()
    if told.planted:
        overlay(*told.planted)
    play(told.seed, told.numbers, sys.stdout, told)
