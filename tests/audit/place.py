"""The database of a run: SQLite, made once, copied for every process that plays tournaments."""

import os
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[2]
MEMORY = Path("/dev/shm")


def environment(database: Path, settings: str = "tests.settings") -> dict[str, str]:
    """The environment of a process on this database, with the settings of a test run."""
    return os.environ | {
        "DATABASE_URL": f"sqlite:///{database}",
        "DJANGO_SETTINGS_MODULE": settings,
    }


@contextmanager
def folder() -> Iterator[Path]:
    """A folder that is gone afterwards, in memory where there is such a place."""
    with TemporaryDirectory(dir=MEMORY if MEMORY.is_dir() else None, prefix="headtable-") as name:
        yield Path(name)


def empty_database(path: Path) -> Path:
    """A database with our tables as the models say, and without rows."""
    subprocess.run(
        [sys.executable, "manage.py", "migrate", "--run-syncdb", "--verbosity", "0"],
        cwd=ROOT, env=environment(path, "tests.audit.settings"), check=True,
    )  # fmt: skip
    with sqlite3.connect(path) as connection:  # one file, so that it can be copied
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    connection.close()
    return path


def copied(empty: Path, name: str) -> Path:
    """A copy of the empty database, for one process."""
    return Path(shutil.copy(empty, empty.parent / f"{name}.sqlite3"))


def shares(numbers: range, jobs: int) -> list[range]:
    """Numbers in equal stretches, one for each process that has any.

    Rows come up in turn, and every second one is the heavier: stretches are as heavy as each other.
    """
    ends = [len(numbers) * job // jobs for job in range(jobs + 1)]
    return [numbers[one:two] for one, two in pairwise(ends) if one < two]
