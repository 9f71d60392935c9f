"""The settings refuse what would run badly, by name."""

import runpy
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from django.core.exceptions import ImproperlyConfigured

import deploy.settings

PUBLIC = {"SECRET_KEY": "0123456789abcdefghij" * 3, "ALLOWED_HOSTS": "headtable.example"}
READ = (
    "ALLOWED_HOSTS",
    "DATABASE_URL",
    "DEBUG",
    "HSTS_SECONDS",
    "PAPER",
    "REDIS_URL",
    "SECRET_KEY",
)


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Any:
    """Read the settings with nothing but the given variables set."""

    def run(given: Mapping[str, str]) -> dict[str, Any]:
        for name in (*READ, "VENUE_HTTP", "STATIC_HASHED", "JOBS_AT_ONCE", "LOG_LEVEL"):
            monkeypatch.delenv(name, raising=False)
        for name, value in {"DATA_DIR": str(tmp_path), **given}.items():
            monkeypatch.setenv(name, value)
        return runpy.run_path(deploy.settings.__file__)

    return run


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({}, "SECRET_KEY is missing. Give at least 50 random characters"),
        ({"SECRET_KEY": "x" * 60}, "ALLOWED_HOSTS is missing"),
        ({**PUBLIC, "VENUE_HTTP": "perhaps"}, "VENUE_HTTP='perhaps' is neither yes nor no"),
        ({**PUBLIC, "PAPER": "folio"}, "PAPER='folio' is none of: letter, a4."),
        ({**PUBLIC, "DATABASE_URL": "mysql://x/y"}, "DATABASE_URL has to begin with sqlite://"),
    ],
)
def test_bad_settings_are_refused(read: Any, given: dict[str, str], words: str) -> None:
    with pytest.raises(ImproperlyConfigured) as refused:
        read(given)
    assert words in str(refused.value)


def test_a_number_has_to_be_a_number(read: Any) -> None:
    with pytest.raises(ValueError, match="long"):
        read({**PUBLIC, "HSTS_SECONDS": "long"})


def test_a_hall_makes_its_own_secret_once(read: Any, tmp_path: Path) -> None:
    made = read({"VENUE_HTTP": "1"})["SECRET_KEY"]
    assert len(made) >= 50
    assert (tmp_path / "secret-key").stat().st_mode & 0o077 == 0
    assert read({"VENUE_HTTP": "1"})["SECRET_KEY"] == made


def test_only_a_hall_goes_without_tls(read: Any) -> None:
    public, hall = read(PUBLIC), read({"VENUE_HTTP": "1"})
    for name in ("SECURE_SSL_REDIRECT", "SESSION_COOKIE_SECURE", "CSRF_COOKIE_SECURE"):
        assert public[name]
        assert not hall[name]
    assert public["SECURE_HSTS_SECONDS"]
    assert not hall["SECURE_HSTS_SECONDS"]
    assert not public["DEBUG"]
    assert not hall["DEBUG"]
