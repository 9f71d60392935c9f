"""`load_tournament FILE`: a tournament file into the database, all of it or nothing."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from results.management.reading import bytes_of
from results.serializers.document import read_document
from results.services.load import load_tournament
from seeding.entries.services import found_organisation
from seeding.journal.core.errors import Invalid, Refusal
from seeding.journal.services import OPERATOR, Call


class Command(BaseCommand):
    """Reads one tournament file; prints the address of the tournament."""

    help = "Load a tournament file (- for standard input); refuses it whole where it is wrong."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", help="path of the tournament file, or - for standard input")
        parser.add_argument("--organisation", default="home", help="slug of who holds it")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            document = read_document(bytes_of(options["file"]))
            load_tournament(
                call=Call(OPERATOR, timezone.now()),
                organisation=_organisation(options["organisation"]),
                document=document,
            )
        except Invalid as refusal:
            listed = "\n".join(f"  {problem}" for problem in refusal.problems)
            raise CommandError(f"Nothing was loaded. What is wrong:\n{listed}") from refusal
        except Refusal as refusal:
            raise CommandError(f"Nothing was loaded. {refusal}") from refusal
        self.stdout.write(f"/t/{document['tournament']['slug']}/")


def _organisation(slug: str) -> Any:
    return found_organisation(slug=slug, name=slug.replace("-", " ").title())
