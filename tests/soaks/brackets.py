"""Random tournaments through the program's services, each judged by the independent checker."""

import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from selectors import EVENT_READ, DefaultSelector

from tests.audit.coverage import FULL, Coverage
from tests.audit.place import ROOT, copied, empty_database, environment, folder, shares
from tests.audit.worker import Told

COUNT = FULL
KEPT = ROOT / ".local" / "soak"
EVERY = 250
Say = Callable[[str], None]


def soak(count: int, seed: int, jobs: int, first: int, say: Say) -> str:
    """Play `count` tournaments from number `first` on; why it failed, empty where all is well."""
    covered = Coverage()
    with folder() as place:
        empty = empty_database(place / "empty.sqlite3")
        for told in _told(empty, range(first, first + count), seed, jobs):
            covered.add(told)
            if told.trouble:
                return failure(told, seed)
            if covered.count % EVERY == 0:
                say(f"{covered.count} of {count} tournaments, no difference.")
    for line in covered.table():
        say(line)
    if covered.count < count:
        return f"Only {covered.count} of {count} tournaments were played: a process ended early."
    thin = covered.thin() if count >= FULL else []
    return f"Too rare for a full run: {'; '.join(thin)}." if thin else ""


def failure(told: Told, seed: int) -> str:
    """What to say of a tournament that failed; its document is kept."""
    KEPT.mkdir(parents=True, exist_ok=True)
    path = KEPT / f"brackets-{seed}-{told.number}.json"
    path.write_text(json.dumps(told.document or {}, indent=1, ensure_ascii=False))
    listed = "\n  ".join(told.trouble[:40])
    return (
        f"Tournament {told.number} of seed {seed} failed:\n  {listed}\n"
        f"Its document: {path.relative_to(ROOT)}\n"
        f"Again: sh deploy/manage soak brackets --count 1 --seed {seed} --first {told.number}"
    )


def _told(empty: Path, numbers: range, seed: int, jobs: int) -> Iterator[Told]:
    """The lines of all processes as they come."""
    with ExitStack() as stack, DefaultSelector() as selector:
        for job, part in enumerate(shares(numbers, jobs)):
            process = _process(copied(empty, f"job{job}"), part, seed)
            stack.enter_context(process)
            stack.callback(process.terminate)
            selector.register(process.stdout or sys.stdin, EVENT_READ)
        while selector.get_map():
            for key, _ in selector.select():
                if line := key.fileobj.readline():  # type: ignore[union-attr]
                    yield Told.read(line)
                else:
                    selector.unregister(key.fileobj)


def _process(database: Path, numbers: range, seed: int) -> "subprocess.Popen[str]":
    told = (seed, f"{numbers.start}:{numbers.stop}:{numbers.step}")
    return subprocess.Popen(
        [sys.executable, "-m", "tests.audit.worker", *map(str, told)],
        cwd=ROOT, env=environment(database), stdout=subprocess.PIPE, text=True,
    )  # fmt: skip
