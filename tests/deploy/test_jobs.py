"""A job goes through a real worker: over files in DATA_DIR, and over Redis."""

import os
import subprocess
import sys
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import redis
from django.conf import settings

NOTHING = "celery.accumulate"  # a task of Celery's own that gives back its arguments
CELERY = [sys.executable, "-m", "celery", "--app=deploy.celery"]
WORKER = ["worker", "--pool=solo", "--loglevel=INFO", "--without-gossip", "--without-mingle"]


def carried(folder: Path, **broker: str) -> bool:
    """Send a job before there is a worker; true once a worker says that it did it."""
    kept = {name: value for name, value in os.environ.items() if name != "JOBS_AT_ONCE"}
    told = {"DJANGO_SETTINGS_MODULE": "deploy.settings", "LOG_LEVEL": "INFO"}
    variables = kept | told | {"DATA_DIR": str(folder)} | broker
    subprocess.run(
        [sys.executable, "manage.py", "migrate", "--verbosity=0"],
        cwd=settings.BASE_DIR, env=variables, check=True, capture_output=True,
    )  # fmt: skip
    subprocess.run(
        [*CELERY, "call", NOTHING, "--args=[1]"],
        cwd=settings.BASE_DIR, env=variables, check=True, capture_output=True,
    )  # fmt: skip
    with worker(variables) as lines:
        return any(NOTHING in line and "succeeded" in line for line in lines)


@contextmanager
def worker(variables: dict[str, str]) -> Iterator[Iterator[str]]:
    """A worker, and the lines it says."""
    running = subprocess.Popen(
        [*CELERY, *WORKER], cwd=settings.BASE_DIR, env=variables, text=True,
        stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
    )  # fmt: skip
    assert running.stderr
    try:
        yield iter(running.stderr)
    finally:
        running.kill()
        running.communicate()


def test_jobs_without_redis(tmp_path: Path) -> None:
    assert carried(tmp_path)
    assert not list((tmp_path / "broker" / "queue").iterdir())


@pytest.mark.redis
def test_jobs_over_redis(tmp_path: Path) -> None:
    url, prefix = os.environ["TEST_REDIS_URL"], f"headtable-test-{uuid.uuid4().hex}:"
    try:
        assert carried(tmp_path, REDIS_URL=url, REDIS_PREFIX=prefix)
    finally:
        with redis.Redis.from_url(url) as client:
            assert client.delete(*client.scan_iter(f"{prefix}*"))
