"""`dump_tournament SLUG`: a tournament as a tournament file on standard output."""

import json
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from results.serializers.document import dump
from seeding.entries.queries import tournament
from seeding.journal.core.errors import NotFound


class Command(BaseCommand):
    """Writes the document with what the program worked out."""

    help = "Write a tournament as a tournament file to standard output."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help="the tournament's address, as in /t/SLUG/")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            document = dump(tournament(options["slug"]))
        except NotFound as refusal:
            raise CommandError(str(refusal)) from refusal
        self.stdout.write(json.dumps(document, indent=1, ensure_ascii=False))
