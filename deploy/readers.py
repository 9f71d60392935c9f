"""Typed readers of the environment. A value that cannot be meant is refused by name."""

import secrets
from pathlib import Path
from typing import Any

import environ
from django.core.exceptions import ImproperlyConfigured

env = environ.Env()


def flag(name: str, *, default: bool) -> bool:
    """A switch: 1/0, true/false, yes/no or on/off; any other word is refused."""
    word = env.str(name, default="1" if default else "0").strip().lower()
    if word in {"1", "true", "yes", "on"}:
        return True
    if word in {"0", "false", "no", "off", ""}:
        return False
    raise ImproperlyConfigured(f"{name}={word!r} is neither yes nor no: write 1 or 0.")


def one_of(name: str, *words: str) -> str:
    """One of the words, the first where the environment says nothing; any other is refused."""
    word: str = env.str(name, default=words[0]).strip().lower()
    if word not in words:
        raise ImproperlyConfigured(f"{name}={word!r} is none of: {', '.join(words)}.")
    return word


def secret(folder: Path, *, may_make: bool) -> str:
    """SECRET_KEY, else what DATA_DIR/secret-key holds, which is made where that is safe."""
    if given := env.str("SECRET_KEY", default=""):
        return str(given)
    path = folder / "secret-key"
    if not path.exists():
        if not may_make:
            raise ImproperlyConfigured(
                "SECRET_KEY is missing. Give at least 50 random characters, the same to every "
                "process; or set VENUE_HTTP=1 to run on one machine without TLS."
            )
        folder.mkdir(parents=True, exist_ok=True)
        made = path.with_suffix(f".{secrets.token_hex(4)}")
        made.touch(mode=0o600)
        made.write_text(secrets.token_urlsafe(64))
        made.rename(path)
    return path.read_text().strip()


def database(folder: Path) -> dict[str, Any]:
    """DATABASE_URL, else a SQLite file in DATA_DIR, with the options that keep results safe.

    SQLite takes the write lock when a transaction begins (otherwise it fails half-way with
    "database is locked") and syncs every commit, so that a power cut loses no result. PostgreSQL
    uses the driver's pool: connections kept per thread leak under ASGI.
    """
    found: dict[str, Any] = env.db_url("DATABASE_URL", default=f"sqlite:///{folder / 'db.sqlite3'}")
    if "sqlite" in found["ENGINE"]:
        found["OPTIONS"] = {
            "transaction_mode": "IMMEDIATE",
            "timeout": 20,
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;",
        }
    elif "postgresql" in found["ENGINE"]:
        found["OPTIONS"] = {**found.get("OPTIONS", {}), "pool": {"min_size": 1, "max_size": 8}}
        found["CONN_MAX_AGE"] = 0
    else:
        raise ImproperlyConfigured("DATABASE_URL has to begin with sqlite:// or postgres://.")
    return found
