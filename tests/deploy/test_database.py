"""What both databases are told, so that no result is lost and no connection leaks."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from django.contrib.sessions.models import Session
from django.db import connection, transaction
from django.utils import timezone

from deploy.readers import database


def test_sqlite_locks_early_and_syncs_every_commit(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.delenv("DATABASE_URL", raising=False)
    found = database(tmp_path)
    assert found["NAME"] == str(tmp_path / "db.sqlite3")
    assert found["OPTIONS"]["transaction_mode"] == "IMMEDIATE"
    assert found["OPTIONS"]["init_command"] == ("PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;")


def test_postgresql_pools_and_keeps_nothing_per_thread(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("DATABASE_URL", "postgres://user@host:5432/name")
    found = database(tmp_path)
    assert found["OPTIONS"]["pool"]["max_size"] > 1
    assert found["CONN_MAX_AGE"] == 0


@pytest.mark.postgres
@pytest.mark.django_db(transaction=True)
def test_more_writers_than_connections_take_turns() -> None:
    writers = 1 if connection.vendor == "sqlite" else 24  # here SQLite is one connection in memory
    Session.objects.create(session_key="k", session_data="", expire_date=timezone.now())

    def write(_: int) -> int:
        with transaction.atomic():
            row = Session.objects.select_for_update().get(session_key="k")
            row.session_data += "x"
            row.save(update_fields=["session_data"])
        if writers > 1:
            connection.close()
        return len(row.session_data)

    if writers == 1:
        lengths = [write(0)]
    else:
        with ThreadPoolExecutor(writers) as pool:
            lengths = list(pool.map(write, range(writers)))
    assert sorted(lengths) == list(range(1, writers + 1))
