"""The server as a person starts it."""

import sqlite3
import urllib.request
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.conftest import Site

pytestmark = pytest.mark.browser


def test_it_is_alive_and_ready_and_strict(site: Site) -> None:
    for name in ("livez", "readyz"):
        with urllib.request.urlopen(f"{site.address}/{name}") as answer:
            assert answer.read() == b"ok\n"
            policy = answer.headers["Content-Security-Policy"]
            assert "default-src 'none'" in policy
            assert "unsafe" not in policy
            assert "Set-Cookie" not in answer.headers


def test_results_survive_a_power_cut(site: Site) -> None:
    database = Path(site.environment["DATA_DIR"]) / "db.sqlite3"
    with sqlite3.connect(database) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    told = "from django.db import connection as c; x = c.cursor(); "
    told += "print(x.execute('PRAGMA synchronous').fetchone()[0])"
    assert site.manage("shell", "--verbosity", "0", "-c", told).strip() == "2"


def test_the_login_of_the_run_signs_in(site: Site, page: Page) -> None:
    page.goto(f"{site.in_hall}/admin/")
    page.get_by_label("Username").fill(site.user)
    page.get_by_label("Password").fill(site.password)
    page.get_by_role("button", name="Log in").click()
    assert page.get_by_text("Site administration").is_visible()


def test_the_documentation_of_the_interface_obeys_the_policy(site: Site, page: Page) -> None:
    page.goto(f"{site.address}/api/v1/docs/")
    page.get_by_role("heading", name="Headtable").wait_for()
