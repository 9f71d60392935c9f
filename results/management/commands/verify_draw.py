"""`verify_draw FILE`: draws every weight of a tournament file again and compares the lines."""

from collections.abc import Iterable, Iterator
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from brackets.serializers.verification import Verification, verify
from results.management.reading import bytes_of
from results.serializers.document import read_document
from seeding.journal.core.errors import Invalid, Refusal

HEADS = ("weight", "lines", "drawn again", "seed", "committed", "certified")


class Command(BaseCommand):
    """Reads the file alone and no database; exits 1 where anything differs."""

    help = "Draw every weight of a tournament file (- for standard input) again and compare."
    requires_system_checks: list[str] = []  # noqa: RUF012

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", help="path of the tournament file, or - for standard input")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            found = verify(read_document(bytes_of(options["file"])))
        except Invalid as refusal:
            listed = "\n".join(f"  {problem}" for problem in refusal.problems)
            raise CommandError(f"The file cannot be read. What is wrong:\n{listed}") from refusal
        except Refusal as refusal:
            raise CommandError(f"The file cannot be read. {refusal}") from refusal
        self.stdout.write("\n".join((*_table(found), *_remarks(found))))
        if not found.holds:
            raise CommandError("Something differs.")


def _table(found: Verification) -> Iterator[str]:
    rows = [
        (
            one.label,
            str(one.lines),
            str(one.outcome),
            one.seed,
            str(one.sealed),
            "yes" if one.certified else "no",
        )
        for one in found.weights
    ]
    widths = [max(map(len, column)) for column in zip(HEADS, *rows, strict=True)]
    for row in (HEADS, *rows):
        yield _line(row, widths)


def _line(row: Iterable[str], widths: Iterable[int]) -> str:
    cells = (cell.ljust(width) for cell, width in zip(row, widths, strict=True))
    return "  ".join(cells).rstrip()


def _remarks(found: Verification) -> Iterator[str]:
    for one in found.weights:
        for fault in one.faults:
            yield f"{one.label}: {fault}."
        if one.refusal:
            yield f"{one.label}: {one.refusal}"
        if one.given:
            yield f"{one.label}: these lines were given, not drawn: there is nothing to compare."
        if one.changed:
            yield f"{one.label}: lines were changed after the draw; compared are those drawn."
        if one.number > 1:
            yield f"{one.label}: this is draw number {one.number}."
    yield f"Commitment: {found.commitment or 'none'}"
    for fault in found.faults:
        yield f"Commitment: {fault}."
