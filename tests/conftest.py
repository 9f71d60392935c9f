"""What tests stand on: a real server on a file database, a real browser, and honest skips."""

import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, Page, sync_playwright

ROOT = Path(__file__).resolve().parent.parent
CHROMIUM = Path("/usr/bin/chromium")
CI = os.environ.get("CI") == "true"
HALL = "headtable.test"  # a host that is no loopback: browsers take 127.0.0.1 for secure

settings.register_profile("ci", derandomize=True, deadline=None, print_blob=True)
settings.register_profile("desk", deadline=None)
settings.load_profile("ci" if CI else "desk")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The longest first, so that no process is left alone with one; why a test cannot run here."""
    items.sort(key=lambda item: not item.nodeid.startswith("tests/test_walk"))
    lacking = {}
    if not CHROMIUM.exists():
        lacking["browser"] = f"{CHROMIUM} is missing"
    if not os.environ.get("TEST_REDIS_URL"):
        lacking["redis"] = "TEST_REDIS_URL is not set: sh deploy/test finds or starts one"
    for item in items:
        for mark, reason in lacking.items():
            if item.get_closest_marker(mark):
                item.add_marker(pytest.mark.skip(reason=reason))


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session) -> None:
    """Under CI a skipped test is a failure."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if CI and reporter and reporter.stats.get("skipped"):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


@dataclass(frozen=True, slots=True)
class Site:
    """A server as a person starts it, on a folder of its own, with the login of that run."""

    address: str
    user: str
    password: str
    environment: dict[str, str]

    @property
    def in_hall(self) -> str:
        """The same site by plain HTTP under a host name, as on the network of a hall."""
        return self.address.replace("127.0.0.1", HALL)

    def manage(self, *arguments: str) -> str:
        """Run a management command on this site; its standard output."""
        return subprocess.run(
            [sys.executable, "manage.py", *arguments],
            cwd=ROOT, env=self.environment, check=True, capture_output=True, text=True,
        ).stdout  # fmt: skip


def environment_of(folder: Path) -> dict[str, str]:
    """The environment of a site that keeps its data in a folder of its own."""
    dropped = ("DATABASE_URL", "REDIS_URL", "JOBS_AT_ONCE", "STATIC_HASHED")
    kept = {name: value for name, value in os.environ.items() if name not in dropped}
    return kept | {
        "DATA_DIR": str(folder),
        "DJANGO_SETTINGS_MODULE": "deploy.settings",
        "VENUE_HTTP": "1",
        "HOST": "127.0.0.1",
        "PORT": "0",
    }


def welcomed(lines: Iterator[str], environment: dict[str, str]) -> Site:
    """The site that a started `demo` tells of."""
    for line in lines:
        if found := re.match(r"Sign in:\s+(http\S+)/sign-in/\s+(\S+) / (\S+)", line):
            return Site(found[1], found[2], found[3], environment)
    raise AssertionError("The server ended before it told its address.")


@pytest.fixture(scope="module")
def site_with(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[..., Site]]:
    """Start a site with the given options of `demo`; it ends with the module."""
    running: list[subprocess.Popen[str]] = []

    def start(*options: str) -> Site:
        environment = environment_of(tmp_path_factory.mktemp("site"))
        process = subprocess.Popen(
            [sys.executable, "manage.py", "demo", *options],
            cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip
        running.append(process)
        assert process.stdout
        return welcomed(iter(process.stdout), environment)

    yield start
    for process in running:
        process.terminate()
    for process in running:
        process.communicate()


@pytest.fixture(scope="module")
def site(site_with: Callable[..., Site]) -> Site:
    """A site without any tournament, shared by the tests of a module."""
    return site_with("--empty")


@pytest.fixture(scope="module")
def chromium(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """Debian's Chromium, headless, talking to nobody but this machine."""
    flags = """--no-sandbox --disable-gpu --disable-quic --no-first-run
        --disable-background-networking --disable-component-update --disable-sync"""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=CHROMIUM,
            args=[*flags.split(), f"--host-resolver-rules=MAP {HALL} 127.0.0.1"],
        )
        yield browser
        browser.close()


@pytest.fixture
def browse(chromium: Browser) -> Iterator[Callable[[int], Page]]:
    """Open a page of a given width; what its scripts or its policy complain of fails the test."""
    complaints: list[str] = []
    contexts = []

    def open_page(width: int) -> Page:
        context = chromium.new_context(
            viewport={"width": width, "height": 844 if width < 600 else 900},
            locale="en-GB", timezone_id="UTC", reduced_motion="reduce",
        )  # fmt: skip
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on(
            "console",
            lambda message: (
                complaints.append(message.text)
                if message.type == "error" and "Failed to load resource" not in message.text
                else None
            ),
        )
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert not complaints


@pytest.fixture
def page(browse: Callable[[int], Page]) -> Page:
    """A page of 1280 pixels."""
    return browse(1280)


@pytest.fixture
def phone(browse: Callable[[int], Page]) -> Page:
    """A page of 390 pixels."""
    return browse(390)
