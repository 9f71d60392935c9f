"""The hardest weight of the demo, walked in a browser from an empty page to signed minutes.

Only what can be read on the pages is used. Every number of a reason is counted again by hand from
the bouts that the pages show.
"""

import re
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.conftest import Site
from tests.walk import hardest
from tests.walk.walker import Walker

pytestmark = pytest.mark.browser

WEIGHT, PASSWORD = hardest.WEIGHT, "quite-a-long-1"
TOURNAMENT = {
    "New organisation": "Longwater Club",
    "Name": "Longwater Room",
    "Address": "room",
    "First day": "2025-03-15",
    "Mats": "1",
}


def test_from_an_empty_page_to_signed_minutes(
    site: Site, browse: Callable[[int], Page], tmp_path: Path
) -> None:
    walker = Walker(browse(1280), taken=60)
    sets_up(walker, site, hardest.files(tmp_path))
    names = reads_the_order(walker)
    counts_by_hand(walker, names)
    looks_at_pairs(walker)
    gives_a_member_his_team(walker, names)
    top = hears_a_challenge(walker)
    moves_and_adopts(walker, top)
    digest = signs(walker, "Rowan Director")
    member = Walker(browse(1280), taken=walker.taken)
    has_no_say(member, site)
    assert signs(member, "Kim Aldous") == digest
    member.sees("Rowan Director", "Kim Aldous")
    expect(member.page.get_by_text("lapsed")).to_have_count(0)
    with member.page.expect_download() as download:
        member.page.evaluate(
            "() => { const link = document.querySelector('a[href$=\".pdf\"]');"
            " link.download = 'minutes.pdf'; link.click(); }"
        )
    assert Path(download.value.path()).read_bytes().startswith(b"%PDF-")


def sets_up(walker: Walker, site: Site, files: dict[str, Path]) -> None:
    """Tournament, weight, roster, season, ranks and places."""
    sign_in(walker, site, site.user, site.password)
    walker.fill(**TOURNAMENT)
    walker.field("Time zone").select_option("America/Chicago")
    walker.press("Make the tournament")
    walker.fill(Name="Open")
    walker.field("Rule book").select_option("College 2024-25")
    walker.press("Make the division")
    walker.open("Add one weight")
    walker.fill(Weight=WEIGHT)
    walker.press("Add the weight")
    walker.section("Seeding")
    walker.follow(WEIGHT)
    walker.sees("Nobody is entered yet.")
    walker.picture("room-empty")
    walker.section("Intake")
    walker.field("Roster").set_input_files(files["roster"])
    walker.press("Look through the file")
    walker.press("Take the roster in")
    walker.sees("33 entries added, 0 changed.")
    walker.section("Intake")
    walker.field("Season").set_input_files(files["season"])
    walker.press("Read the file")
    walker.press("Take the season in")
    walker.sees("The season is taken in.")
    walker.section("Seeding")
    walker.follow("Ranks, places, ballots")
    walker.field("Ranks, places or ballots").set_input_files(files["ranks"])
    walker.press("Look at the file")
    walker.picture("put-in")
    walker.press("Take them in")
    walker.sees("Taken in. The orders are worked out anew.")


def sign_in(walker: Walker, site: Site, user: str, password: str, to: str = "") -> None:
    walker.page.goto(f"{site.address}/sign-in/?next=/desk/{to}")
    walker.fill(**{"Sign-in name": user, "Password": password})
    walker.press("Sign in")


def lines(walker: Walker) -> list[str]:
    """The names of the order, from the top."""
    return walker.page.locator("ol.order .who strong").all_inner_texts()


def reads_the_order(walker: Walker) -> list[str]:
    walker.section("Seeding")
    walker.follow(WEIGHT)
    walker.sees("Proposal.")
    names = lines(walker)
    assert len(names) == 33
    walker.open(f"{names[0]} stands above {names[1]}")
    walker.picture("hardest-room")
    return names


AHEAD = r"{name} is ahead in quality wins: (\d+) against (\d+)\."


def counts_by_hand(walker: Walker, names: list[str]) -> None:
    """Of the first eight: the wins that a reason numbers are those listed under it."""
    counted = 0
    for above, below in pairwise(names[:9]):
        compares(walker, above, below)
        told = walker.page.locator("main").inner_text()
        fold = walker.page.locator("details").filter(has_text="quality wins:").first
        for better, worse in ((above, below), (below, above)):
            if found := re.search(AHEAD.format(name=re.escape(better)), told):
                winners = fold.locator("li strong").all_text_contents()
                assert winners.count(better) == int(found[1])
                assert winners.count(worse) == int(found[2])
                counted += 1
        walker.follow(WEIGHT)
    assert counted


def compares(walker: Walker, above: str, below: str) -> None:
    walker.field("One").select_option(label=label(walker, above))
    walker.field("Other").select_option(label=label(walker, below))
    walker.press("Compare")
    walker.heading(f"{above} · {below}")


def label(walker: Walker, name: str) -> str:
    options = walker.field("One").locator("option").all_inner_texts()
    return next(one for one in options if f" {name} (" in one)


def looks_at_pairs(walker: Walker) -> None:
    walker.follow("Grid of pairs")
    walker.heading(f"Grid of pairs, {WEIGHT}")
    walker.picture("grid")
    walker.follow(WEIGHT)
    walker.follow("Fewest violations")
    walker.sees("fewest possible, proven")
    walker.picture("violations")
    now, fewest = (int(one) for one in walker.page.locator("dl.figures dd").all_inner_texts()[:2])
    assert now > fewest > 0
    walker.follow(WEIGHT)
    assert walker.page.get_by_text(" has beaten ").count() >= now


def gives_a_member_his_team(walker: Walker, names: list[str]) -> None:
    """kim belongs to the team of the first of the order."""
    team = walker.page.locator("ol.order .who .quiet").first.inner_text()
    walker.section("People")
    form = walker.page.locator("form", has=walker.page.get_by_role("button", name="Add the user"))
    form.get_by_label("Sign-in name").fill("kim")
    form.get_by_label("First password").fill(PASSWORD)
    form.get_by_label("Role").select_option("seeding committee")
    form.get_by_role("button").click()
    walker.section("Seeding")
    walker.follow("Own teams")
    card = walker.page.locator("section", has_text="kim").last
    card.get_by_label(team, exact=True).check()
    card.get_by_role("button", name="Save").click()
    walker.sees("Saved.")
    walker.picture("own-teams")


def hears_a_challenge(walker: Walker) -> str:
    """Somebody who was beaten by nobody below the third asks to stand above him; granted."""
    walker.section("Seeding")
    walker.follow(WEIGHT)
    names = lines(walker)
    walker.follow("Challenges")
    walker.press("Hear challenges until then")
    walker.sees("The window is open")
    walker.field("Wrestler").select_option(label=entry(walker, names[3]))
    walker.field("Above").select_option(label=entry(walker, names[2]))
    walker.fill(Asked_by="Coach Bly", Why="Stronger since February")
    walker.press("Record the challenge")
    walker.sees(f"{names[3]} over {names[2]}")
    walker.picture("challenge")
    walker.follow(WEIGHT)
    walker.sees("Challenges wait for an answer.")
    walker.press(f"Adopt: {len(names)} seeds")
    walker.sees("These challenges wait for an answer:")
    walker.follow("Challenges (1)")
    walker.fill(Answer="We saw both")
    walker.press("Grant: move him")
    walker.sees("“We saw both”")
    return names[3]


def entry(walker: Walker, name: str) -> str:
    options = walker.field("Wrestler").locator("option").all_inner_texts()
    return next(one for one in options if f" {name} (" in one)


def moves_and_adopts(walker: Walker, risen: str) -> None:
    walker.follow(WEIGHT)
    names = lines(walker)
    assert names[2] == risen
    walker.follow(f"Move {names[9]}")
    walker.fill(To_place="9", Reason="Won the later of their two bouts")
    walker.press("Move")
    walker.sees("from place 10 to place 9", "“Won the later of their two bouts”")
    walker.press("Adopt: 33 seeds")
    walker.sees("Adopted.")
    walker.picture("hardest-adopted")


def signs(walker: Walker, name: str) -> str:
    walker.follow("Minutes")
    walker.heading(f"Minutes of the seeding of {WEIGHT}")
    walker.sees("Coach Bly", "Won the later of their two bouts", "coaches: 1 ")
    walker.fill(Your_full_name=name)
    walker.press("Sign")
    walker.sees("Signed.")
    walker.picture("minutes")
    return walker.page.locator("code").inner_text()


def has_no_say(member: Walker, site: Site) -> None:
    """kim may not move his own, and is told so."""
    sign_in(member, site, "kim", PASSWORD, f"room/seeding/{WEIGHT}/")
    member.sees("your own team: no say")
    own = member.page.locator("li[data-entry]", has_text="your own team: no say")
    name = own.first.locator(".who strong").inner_text()
    member.follow(f"Move {name}")
    member.fill(To_place="4", Reason="x")
    member.press("Move")
    member.sees("you have no say over his place")
    member.picture("no-say")
