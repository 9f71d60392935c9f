"""Begin an installation: an organisation and its first user."""

import getpass
import sys
from typing import Any

from django.core.management import BaseCommand, CommandError, CommandParser
from django.db import transaction

from seeding.entries.services import add_user, found_organisation
from seeding.journal.core.errors import Refusal


class Command(BaseCommand):
    """`found ORG-SLUG NAME --user NAME`; the password comes by standard input or is asked for."""

    help = "Make an organisation and its first user, who may then hold tournaments for it."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help="short name for addresses, such as northern-conference")
        parser.add_argument("name", help="the organisation's name")
        parser.add_argument("--user", required=True, help="sign-in name of its first user")

    def handle(self, *args: Any, **options: Any) -> None:
        password = _password()
        try:
            with transaction.atomic():
                organisation = found_organisation(slug=options["slug"], name=options["name"])
                add_user(
                    organisation=organisation,
                    username=options["user"],
                    password=password,
                    founds=True,
                )
        except Refusal as refusal:
            raise CommandError(str(refusal)) from refusal
        self.stdout.write(f"{options['user']} may now sign in and make a tournament.")


def _password() -> str:
    """Asked for twice at a terminal; else the first line of standard input."""
    if not sys.stdin.isatty():
        return sys.stdin.readline().rstrip("\n")
    first = getpass.getpass("Password: ")
    if first != getpass.getpass("Once more: "):
        raise CommandError("The two passwords differ. Nothing was made.")
    return first
