"""The settings refuse what would run badly, by name."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.conf import settings

PUBLIC = {"SECRET_KEY": "0123456789abcdefghij" * 3, "ALLOWED_HOSTS": "headtable.example"}


def check(folder: Path, *options: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """`manage.py check` with nothing but these variables set."""
    return subprocess.run(
        [sys.executable, "manage.py", "check", *options],
        cwd=settings.BASE_DIR,
        env={"PATH": os.environ["PATH"], "DATA_DIR": str(folder), **environment},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.mark.parametrize(
    ("environment", "words"),
    [
        ({}, "SECRET_KEY is missing"),
        ({"SECRET_KEY": "x" * 60}, "ALLOWED_HOSTS is missing"),
        ({**PUBLIC, "VENUE_HTTP": "perhaps"}, "VENUE_HTTP='perhaps' is neither yes nor no"),
        ({**PUBLIC, "DATABASE_URL": "mysql://x/y"}, "DATABASE_URL has to begin with sqlite://"),
        ({**PUBLIC, "HSTS_SECONDS": "long"}, "HSTS_SECONDS"),
    ],
)
def test_bad_settings_are_refused(tmp_path: Path, environment: dict[str, str], words: str) -> None:
    done = check(tmp_path, **environment)
    assert done.returncode == 1
    assert words in done.stderr


def test_a_hall_makes_its_own_secret_once(tmp_path: Path) -> None:
    assert check(tmp_path, VENUE_HTTP="1").returncode == 0
    key = tmp_path / "secret-key"
    first = key.read_text()
    assert len(first) >= 50
    assert key.stat().st_mode & 0o077 == 0
    assert check(tmp_path, VENUE_HTTP="1").returncode == 0
    assert key.read_text() == first


def test_a_public_installation_is_fit_to_be_deployed(tmp_path: Path) -> None:
    done = check(tmp_path, "--deploy", "--fail-level", "WARNING", **PUBLIC)
    assert done.returncode == 0, done.stderr
