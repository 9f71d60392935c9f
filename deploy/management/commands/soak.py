"""How safe it is: long random runs that end at the first failure and say how to repeat it."""

import os
import secrets
from argparse import ArgumentParser
from collections.abc import Callable, Mapping
from typing import Protocol

from django.core.management import BaseCommand, CommandError

from deploy.management.tree import known, modules

# By name only: the soaks belong to the tests, which an installation may lack.
PACKAGE = "tests.soaks"


class Soak(Protocol):
    """A module of soaks: how much a full run is, and the run itself.

    `soak` returns why it failed, with how to replay it; empty where all is well.
    """

    COUNT: int

    def soak(
        self, count: int, seed: int, jobs: int, first: int, say: Callable[[str], None]
    ) -> str: ...


class Command(BaseCommand):
    """`soak NAME [--count N] [--seed S] [--jobs J] [--first N]`."""

    help = "Run a long random test; exits with 1 at the first failure and says how to replay it."
    requires_system_checks: list[str] = []  # noqa: RUF012

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("name", metavar="NAME", help="which run")
        parser.add_argument("--count", type=int, help="how many; a full run without it")
        parser.add_argument("--seed", type=int, help="of chance; a fresh one without it")
        parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1, help="processes")
        parser.add_argument("--first", type=int, default=0, help="number of the first, from 0")

    def handle(self, *args: object, **options: object) -> None:
        among = soaks()
        found = among[known(among, options["name"], "soak")]
        count, seed, jobs, first = (
            _whole(options[name], name) for name in ("count", "seed", "jobs", "first")
        )
        count = found.COUNT if count is None else count
        seed = secrets.randbelow(2**31) if seed is None else seed
        self._say(f"soak {options['name']}: {count} from number {first or 0}, seed {seed}")
        if trouble := found.soak(count, seed, jobs or 1, first or 0, self._say):
            raise CommandError(trouble)
        self._say(f"All is well: {count}, seed {seed}.")

    def _say(self, line: str) -> None:
        self.stdout.write(line)
        self.stdout.flush()


def _whole(value: object, name: str) -> int | None:
    if value is None:
        return None
    if not isinstance(value, int) or value < 0:
        raise CommandError(f"--{name} must be 0 or more, not {value}.")
    return value


def soaks(package: str = PACKAGE) -> Mapping[str, Soak]:
    """The soaks, by the name of their module with hyphens."""
    return modules(package, "Soaks")
