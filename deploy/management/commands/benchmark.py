"""How fast it is: figures of speed beside a reference measured in the same run."""

from argparse import ArgumentParser
from collections.abc import Callable, Iterable, Mapping
from typing import Protocol

from django.core.management import BaseCommand, CommandError

from deploy.management.tree import known, modules

# By name only: the benchmarks belong to the tests, which an installation may lack.
PACKAGE = "tests.benchmarks"
LINE = "{:<48} {:>12} {:>12} {:>9}  {:<24} {}"
HEAD = LINE.format("name", "ours", "reference", "ratio", "goal", "met")


class Row(Protocol):
    """A row as the benchmarks give it; seconds of CPU where the goal says nothing else."""

    @property
    def name(self) -> str: ...
    @property
    def ours(self) -> float: ...
    @property
    def reference(self) -> float: ...
    @property
    def ratio(self) -> float: ...
    @property
    def goal(self) -> str: ...
    @property
    def met(self) -> bool: ...


Rows = Callable[[], Iterable[Row]]


class Command(BaseCommand):
    """`benchmark [NAME] [--check]`."""

    help = "Measure all benchmarks or the one named; times are seconds of CPU, medians."
    requires_system_checks: list[str] = []  # noqa: RUF012

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("name", nargs="?", metavar="NAME", help="only this one")
        parser.add_argument("--check", action="store_true", help="exit with 1 if a goal is missed")

    def handle(self, *args: object, **options: object) -> None:
        measured = self.printed(chosen(benchmarks(), options["name"]))
        missed = [row.name for row in measured if not row.met]
        if options["check"] and missed:
            raise CommandError(f"Missed: {', '.join(missed)}.")

    def printed(self, benchmarks: Iterable[Rows]) -> list[Row]:
        """The rows, each printed as soon as it is measured."""
        self.stdout.write(HEAD)
        found = []
        for row in (row for rows in benchmarks for row in rows()):
            self.stdout.write(line(row))
            self.stdout.flush()
            found.append(row)
        return found


def benchmarks(package: str = PACKAGE) -> Mapping[str, Rows]:
    """The modules that give rows, by their name with hyphens."""
    found = modules(package, "Benchmarks")
    return {name: module.rows for name, module in found.items() if hasattr(module, "rows")}


def chosen(among: Mapping[str, Rows], name: object) -> Iterable[Rows]:
    """All of them, or the one of this name."""
    return among.values() if name is None else [among[known(among, name, "benchmark")]]


def line(row: Row) -> str:
    """The row under `HEAD`."""
    figures = f"{row.ours:.4g}", f"{row.reference:.4g}", f"{row.ratio:.4g}"
    return LINE.format(row.name, *figures, row.goal, "yes" if row.met else "no")
