"""follow.js in a real browser: keeps up, keeps one's place, says when it lost the connection."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Route, expect

STATIC = Path(__file__).parents[2] / "deploy/static/deploy"
POLICY = "default-src 'none'; script-src 'self'; connect-src 'self'"
SITE = "http://headtable.test"
FRAME = """<!doctype html><title>t</title><script type="module" src="/follow.js"></script>
<p data-fresh data-zone="UTC" data-as-of="as of {{time}}, act {{seq}}" data-held="held"></p>
<p data-lost="lost since {{time}}" data-gone="gone"></p>
<main data-follow="/page" data-seq="1">
{inside}</main>"""
INSIDE = """<h1>act {seq}</h1><ul>{more}<li id="a"><button id="b">b</button></li></ul>
<details id="d"><summary>102</summary><p>why {seq}</p></details>
<form><input id="i"><button type="reset">clear</button></form>"""


class Server:
    """What the browser talks to: a page whose newest act the test sets."""

    def __init__(self) -> None:
        self.seq, self.status = 1, 200

    def answer(self, route: Route) -> None:
        url = route.request.url
        if url.endswith(".js"):
            route.fulfill(path=STATIC / "follow.js", content_type="text/javascript")
        elif "after=" not in url:
            route.fulfill(
                body=FRAME.format(inside=INSIDE.format(seq=1, more="")),
                headers={"Content-Security-Policy": POLICY, "Content-Type": "text/html"},
            )
        elif self.status != 200:
            route.fulfill(status=self.status)
        elif url.endswith(f"after={self.seq}"):
            route.fulfill(status=204)
        else:
            body = INSIDE.format(seq=self.seq, more='<li id="new">new</li>')
            route.fulfill(body=body, headers={"X-Seq": str(self.seq), "Content-Type": "text/html"})


@pytest.fixture
def server() -> Server:
    return Server()


@pytest.fixture
def page(server: Server, chromium: Browser) -> Iterator[Page]:
    with chromium.new_context() as context:
        page = context.new_page()
        faults: list[str] = []
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.clock.install()
        page.route("**/*", server.answer)
        page.goto(f"{SITE}/page")
        yield page
    assert faults == []


def later(page: Page, seconds: int = 4) -> None:
    page.clock.run_for(seconds * 1000)


@pytest.mark.browser
def test_keeps_up_and_keeps_the_readers_place(page: Page, server: Server) -> None:
    page.click("summary")
    page.focus("#b")
    server.seq = 2
    later(page)
    expect(page.locator("h1")).to_have_text("act 2")
    expect(page.locator("#new")).to_be_visible()
    expect(page.locator("#b")).to_be_focused()
    expect(page.locator("#d p")).to_have_text("why 2")
    expect(page.locator("[data-fresh]")).to_contain_text("act 2")


@pytest.mark.browser
def test_exchanges_nothing_under_a_form_that_is_being_filled_in(page: Page, server: Server) -> None:
    page.fill("#i", "typed")
    server.seq = 2
    later(page)
    expect(page.locator("[data-fresh]")).to_have_text("held")
    expect(page.locator("h1")).to_have_text("act 1")
    page.click("[type=reset]")
    later(page)
    expect(page.locator("h1")).to_have_text("act 2")


@pytest.mark.browser
def test_says_when_the_connection_is_lost_and_comes_back(page: Page, server: Server) -> None:
    server.status = 503
    later(page)
    expect(page.locator("[data-lost]")).to_contain_text("lost since")
    server.status, server.seq = 200, 2
    later(page, 7)
    expect(page.locator("h1")).to_have_text("act 2")
    expect(page.locator("[data-lost]")).to_have_text("")


@pytest.mark.browser
def test_stops_asking_where_the_page_is_closed_to_the_reader(page: Page, server: Server) -> None:
    server.status = 403
    later(page)
    expect(page.locator("[data-lost]")).to_have_text("gone")
