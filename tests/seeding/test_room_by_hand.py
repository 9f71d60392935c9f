"""The seeding room in a browser: dragging, the arrow keys, two members at once, phones."""

import base64
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import pytest
from playwright.sync_api import Page, expect

from tests.conftest import Site
from tests.results.championship import document

pytestmark = pytest.mark.browser

PASSWORD = "a-long-word-9"


@pytest.fixture(scope="module")
def rooms(site: Site, tmp_path_factory: pytest.TempPathFactory) -> Site:
    """A site with weights of 8 and of 33 to be seeded, and a second member, kim."""
    for slug, count in (("small", 8), ("large", 33)):
        file = document(entries=count) | {"brackets": []}
        file["tournament"] |= {"slug": slug, "name": slug.title()}
        file["weight_classes"][0]["seeding"] = {"lot_seed": "by hand"}
        for entry in file["entries"]:
            entry |= {"given": "Given", "family": f"Name{entry['seed']}", "seed": None}
        file["prior_bouts"] = [won(high, high + 1) for high in range(1, count)]
        file["prior_bouts"] += [won(3, 1), won(5, 3)]
        path = tmp_path_factory.mktemp("files") / f"{slug}.json"
        path.write_text(json.dumps(file))
        site.manage("load_tournament", str(path))
    person = {"username": "kim", "password": PASSWORD, "role": "committee"}
    assert ask(site, "small/roles/", "POST", person)[0] == 201
    return site


def won(winner: int, loser: int) -> dict[str, Any]:
    return {
        "date": f"2026-01-{winner % 28 + 1:02}",
        "weight": "125",
        "winner": f"125-{winner}",
        "loser": f"125-{loser}",
        "kind": "decision",
        "score": [4, 2],
        "event": f"Dual {winner}/{loser}",
    }


def ask(site: Site, path: str, method: str = "GET", body: Any = None, **more: str) -> Any:
    """Status and JSON of a request with the login of this run."""
    token = base64.b64encode(f"{site.user}:{site.password}".encode()).decode()
    headers = {"Authorization": f"Basic {token}", "Content-Type": "application/json", **more}
    sent = None if body is None else json.dumps(body).encode()
    url = f"{site.address}/api/v1/tournaments/{path}"
    try:
        with urlopen(Request(url, sent, headers, method=method), timeout=60) as answer:
            return answer.status, json.load(answer)
    except HTTPError as refusal:
        return refusal.code, json.load(refusal)


def enter(page: Page, site: Site, slug: str = "small", user: str = "", path: str = "") -> Page:
    """Sign in and open a page of the weight."""
    address = f"/desk/{slug}/seeding/125/{path}"
    page.goto(f"{site.address}/sign-in/?next={address}")
    page.get_by_label("Sign-in name").fill(user or site.user)
    page.get_by_label("Password").fill(PASSWORD if user else site.password)
    page.get_by_role("button", name="Sign in").click()
    expect(page).to_have_url(f"{site.address}{address}")
    return page


def shown(page: Page) -> list[str]:
    return page.locator("ol.order > li[data-entry] .who strong").all_inner_texts()


def take_all_back(site: Site, slug: str = "small") -> None:
    for move in ask(site, f"{slug}/weights/125/order/")[1]["moves"]:
        ask(site, f"{slug}/weights/125/order/moves/{move['id']}/", "DELETE")


def test_a_row_is_moved_with_the_arrow_keys(rooms: Site, page: Page) -> None:
    take_all_back(rooms)
    enter(page, rooms)
    before = shown(page)
    handle = page.get_by_role("button", name=f"Move {before[3]}, place 4")
    handle.focus()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    assert shown(page)[1] == before[3]
    numbers = page.locator("ol.order > li[data-entry] .seed")
    assert numbers.all_inner_texts() == [str(at) for at in range(1, 9)]
    expect(page.get_by_label("To place")).to_have_value("2")
    expect(page.locator("#moving")).to_have_text(
        f"{before[3]}: place 2 of 8. Enter asks for the reason, Escape puts him back."
    )
    page.keyboard.press("Escape")
    assert shown(page) == before
    expect(page.locator("#moving")).to_have_text(f"{before[3]} is back at place 4.")
    expect(handle).to_be_focused()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    reason = page.get_by_label("Reason")
    expect(reason).to_be_focused()
    expect(reason).to_be_in_viewport()
    expect(page.get_by_label("To place")).to_have_value("5")
    page.keyboard.type("Came back strong")
    page.keyboard.press("Enter")
    expect(page.get_by_text("“Came back strong”")).to_be_visible()
    assert shown(page)[4] == before[3]
    move = ask(rooms, "small/weights/125/order/")[1]["moves"][0]
    assert (move["before"], move["to"]) == (4, 5)


def test_a_row_is_dragged_and_the_reason_asked(rooms: Site, page: Page) -> None:
    take_all_back(rooms)
    enter(page, rooms)
    before = shown(page)
    drag(page, before[4], before[1])
    assert shown(page)[1] == before[4]
    expect(page.get_by_label("Reason")).to_be_focused()
    expect(page.get_by_label("To place")).to_have_value("2")
    chosen = page.get_by_label("Wrestler").evaluate("one => one.selectedOptions[0].text")
    assert before[4] in chosen
    page.get_by_role("button", name="Move", exact=True).click()
    assert shown(page)[1] == before[4]  # the browser itself asks for the reason
    page.keyboard.press("Escape")
    assert shown(page) == before
    drag(page, before[4], before[1])
    page.get_by_label("Reason").fill("Beat both of them")
    page.get_by_role("button", name="Move", exact=True).click()
    expect(page.get_by_text("from place 5 to place 2")).to_be_visible()


def drag(page: Page, name: str, onto: str) -> None:
    """Drag one row over another by its handle."""
    handle = page.get_by_role("button", name=f"Move {name}, place")
    handle.scroll_into_view_if_needed()
    start = handle.bounding_box()
    assert start
    page.mouse.move(start["x"] + 10, start["y"] + 10)
    page.mouse.down()
    for _ in range(12):
        goal = page.get_by_role("button", name=f"Move {onto}, place").bounding_box()
        own = page.get_by_role("button", name=f"Move {name}, place").bounding_box()
        assert goal
        assert own
        if own["y"] < goal["y"]:
            break
        page.mouse.move(start["x"] + 10, goal["y"] + 2, steps=4)
    page.mouse.up()


def test_a_press_on_the_handle_alone_moves_nothing(rooms: Site, page: Page) -> None:
    take_all_back(rooms)
    enter(page, rooms)
    before = shown(page)
    page.get_by_role("button", name=f"Move {before[2]}, place 3").click()
    assert shown(page) == before
    expect(page.get_by_label("Reason")).not_to_be_focused()


def test_two_members_at_once_lose_no_move(rooms: Site, browse: Callable[[int], Page]) -> None:
    take_all_back(rooms)
    one, other = enter(browse(1280), rooms), enter(browse(1280), rooms, user="kim")
    fill(one, "125-4", "1", "First")
    one.get_by_role("button", name="Move", exact=True).click()
    expect(one.get_by_text("“First”")).to_be_visible()
    fill(other, "125-6", "2", "Second")
    other.get_by_role("button", name="Move", exact=True).click()
    told = other.get_by_role("alert").first
    expect(told).to_contain_text("The order of 125 was changed in the meantime")
    expect(told).to_contain_text(f"{rooms.user} moved Given Name4, 125 (T4) to place 1 (“First”)")
    expect(other.get_by_label("Reason")).to_have_value("Second")
    assert shown(other)[0] == "Given Name4"
    version = ask(rooms, "small/weights/125/order/")[1]["version"]
    body = {"entry": "125-7", "to": 8, "reason": "Third"}
    late = {"If-Match": f'"{version - 1}"'}
    status, answer = ask(rooms, "small/weights/125/order/moves/", "POST", body, **late)
    assert status == 412
    assert "(“First”)" in answer["errors"][0]["detail"]
    other.get_by_role("button", name="Move", exact=True).click()
    expect(other.get_by_text("“Second”")).to_be_visible()
    moves = ask(rooms, "small/weights/125/order/")[1]["moves"]
    assert [(move["reason"], move["author"]) for move in moves] == [
        ("First", rooms.user),
        ("Second", "kim"),
    ]


def fill(page: Page, entry: str, to: str, reason: str) -> None:
    page.get_by_label("Wrestler").select_option(entry)
    page.get_by_label("To place").fill(to)
    page.get_by_label("Reason").fill(reason)


@pytest.mark.parametrize("width", [390, 1280])
def test_no_page_is_panned_sideways(rooms: Site, browse: Callable[[int], Page], width: int) -> None:
    page = enter(browse(width), rooms, "large")
    for path in ("", "grid/", "violations/", "challenges/", "minutes/", "../../own-teams/"):
        page.goto(f"{rooms.address}/desk/large/seeding/125/{path}")
        wide = page.evaluate("document.documentElement.scrollWidth")
        assert wide <= width, path
        page.screenshot(
            path=pictures() / f"{path.strip('./') or 'room'}-{width}.png", full_page=True
        )


def pictures() -> Path:
    folder = Path(__file__).resolve().parents[2] / ".local" / "room"
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def test_a_cell_of_the_grid_opens_the_reason(rooms: Site, page: Page, phone: Page) -> None:
    enter(page, rooms, "large", path="grid/")
    cell = page.get_by_role("row").nth(1).get_by_role("link").first
    cell.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("·")
    enter(phone, rooms, "large", path="grid/")
    expect(phone.locator("table.pairs")).to_be_hidden()
    phone.locator(".by-wrestler summary").first.click()
    phone.locator(".by-wrestler a").first.click()
    expect(phone.get_by_role("heading", level=1)).to_contain_text("·")
