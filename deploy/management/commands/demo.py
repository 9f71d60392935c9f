"""Serve this installation on one machine, with the demo tournament in it."""

import os
import secrets
import signal
import socket
import subprocess
import sys
from argparse import ArgumentParser
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress

import uvicorn
from django.conf import settings
from django.contrib.auth.hashers import make_password
from django.core.management import BaseCommand, CommandError, call_command
from django.db import connections, transaction
from django.db.migrations.executor import MigrationExecutor

from deploy.collected import collect_static
from deploy.scenario.staged import load_demo
from seeding.entries.models import Tournament, User

LOGIN = "head-table"
GRACE = 5  # seconds that open streams get when the program stops; a running job gets twice that


class Command(BaseCommand):
    """`demo [--empty]`; HOST, PORT and DATA_DIR come from the environment."""

    help = "Serve the demo tournament, or with --empty an installation for your own."
    requires_system_checks: list[str] = []  # noqa: RUF012

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--empty", action="store_true", help="do not load the demo tournament")

    def handle(self, *args: object, **options: object) -> None:
        signal.signal(signal.SIGTERM, _leave)
        with _listening() as door:
            password = secrets.token_urlsafe(9)
            migrate()
            with worker(), ThreadPoolExecutor(1) as aside:
                hashing = aside.submit(make_password, password)
                collect_static()
                if not options["empty"] and not Tournament.objects.exists():
                    with transaction.atomic():
                        load_demo()
                server = prepared_server()
                login_of_this_run(hashing.result())
                self.stdout.write(welcome(door, password))
                self.stdout.flush()
                connections.close_all()
                with suppress(KeyboardInterrupt):
                    server.run(sockets=[door])


def migrate() -> None:
    """Bring the tables up to date, where they are not."""
    executor = MigrationExecutor(connections["default"])
    if executor.migration_plan(executor.loader.graph.leaf_nodes()):
        call_command("migrate", interactive=False, verbosity=0)


def login_of_this_run(hashed: str) -> None:
    """Give the operator's login a new password, good until the next start."""
    User.objects.update_or_create(
        username=LOGIN, defaults={"is_staff": True, "is_superuser": True, "password": hashed}
    )


def welcome(door: socket.socket, password: str) -> str:
    """What to open, and the login."""
    host, port = door.getsockname()[:2]
    site = f"http://{host}:{port}"
    lines = [("Sign in", f"{site}/sign-in/  {LOGIN} / {password}")]
    if tournament := Tournament.objects.order_by("-starts_on", "slug").first():
        desk = f"{site}/desk/{tournament.slug}/"
        lines = [
            ("Public page", f"{site}/t/{tournament.slug}/"),
            ("Head table", desk),
            ("Mat table", f"{desk}mats/1/"),
            *lines,
        ]
    else:
        lines.insert(0, ("Start page", f"{site}/"))
    return "\n".join(f"{name + ':':13}{address}" for name, address in lines)


@contextmanager
def _listening() -> Iterator[socket.socket]:
    host, port = os.environ.get("HOST", "127.0.0.1"), os.environ.get("PORT", "8000")
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family) as door:
        door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            door.bind((host, int(port)))
        except (OSError, ValueError, OverflowError) as error:
            raise CommandError(
                f"{host}:{port} cannot be opened ({error}). Another: PORT=8001 sh deploy/demo"
            ) from error
        door.listen(2048)
        yield door


@contextmanager
def worker() -> Iterator[None]:
    """The one background worker, stopped with us."""
    celery = [sys.executable, "-W", "ignore:You're running the worker", "-m", "celery"]
    options = ["--pool=solo", "--loglevel=WARNING", "--without-gossip", "--without-mingle"]
    running = subprocess.Popen(
        [*celery, "--app=deploy.celery", "worker", *options],
        cwd=settings.BASE_DIR,
        stdout=subprocess.DEVNULL,
        start_new_session=True,
    )
    try:
        yield
    finally:
        running.terminate()
        try:
            running.wait(2 * GRACE)
        except subprocess.TimeoutExpired:
            running.kill()
            running.wait()


def prepared_server() -> uvicorn.Server:
    """The server with the whole program loaded, ready to answer."""
    config = uvicorn.Config(
        "deploy.asgi:application",
        log_level="warning",
        lifespan="off",
        ws="none",
        server_header=False,
        timeout_graceful_shutdown=GRACE,
    )
    config.load()
    return uvicorn.Server(config)


def _leave(number: int, frame: object) -> None:
    raise SystemExit(0)
