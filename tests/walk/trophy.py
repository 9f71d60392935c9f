"""The README's steps 8 and 9 from both sides: team points, what the public reads, the API."""

import re
from decimal import Decimal

from playwright.sync_api import expect

from tests.conftest import ROOT, Site
from tests.walk.story import PLACES
from tests.walk.walker import Walker

REASON = "Unsportsmanlike conduct of a coach"
INITIALS = {"Kendrick Donnabhain": "K. D."}  # as his row of the roster asks


def takes_a_point(walker: Walker, totals: dict[str, Decimal]) -> None:
    """Step 8: a point taken by hand, and the parts of a total."""
    walker.section("Team points")
    walker.field("Team").select_option("Dunmarrow")
    walker.fill(Points="-1", Reason=REASON)
    walker.press("Adjust")
    reads_totals(walker, totals)
    walker.follow("Copper Mesa")
    walker.sees("placement, place 5", "bonus, bout 19 (5th), forfeit")
    walker.picture("points-desk")


def makes_official(walker: Walker) -> None:
    """The end of step 6: everything confirmed."""
    walker.section("Overview")
    walker.follow("Look at them")
    walker.sees("20 bouts")
    walker.picture("bouts-to-confirm")
    walker.press("Make the 20 results on this page official")
    walker.sees("20 results are official.")
    walker.picture("bouts-official")
    walker.section("Overview")
    walker.sees("All 21 results so far are official", "Everything is open to the public")
    walker.picture("overview-official")
    walker.section("Log")
    walker.sees("The chain of digests holds")
    walker.picture("log")


def reads_totals(walker: Walker, totals: dict[str, Decimal]) -> None:
    """The table of team points, from first to last."""
    ranked = sorted(totals, key=lambda team: -totals[team])
    for place, team in enumerate(ranked, start=1):
        row = walker.page.get_by_role("row", name=re.compile(rf"^{place} {team}\b"))
        expect(row.get_by_text(str(totals[team]), exact=True).first).to_be_visible()


def is_read_by_the_public(walker: Walker, site: Site, totals: dict[str, Decimal]) -> None:
    """Somebody without a login, from the start page on."""
    walker.page.goto(site.address + "/")
    walker.heading("Tournaments")
    walker.picture("public-start")
    walker.follow("River Cup")
    reads_totals(walker, totals)
    walker.picture("public-front")
    walker.follow("133", walker.page.get_by_role("row").filter(has_text="Calder Hathersley"))
    reads_places(walker, "133")
    walker.picture("public-sheet")
    walker.follow("149")
    reads_places(walker, "149")
    walker.picture("public-round-robin")
    walker.follow("Bouts")
    walker.sees("Every bout of this mat is decided.")
    walker.picture("public-bouts")
    walker.follow("Team points")
    reads_totals(walker, totals)
    walker.page.get_by_text(str(totals["Dunmarrow"]), exact=True).first.click()
    walker.sees(REASON)
    walker.picture("public-points")
    walker.follow("Grayling Point")
    walker.heading("Grayling Point")
    walker.picture("public-team")
    walker.follow("K. D.")
    walker.sees("Fall 2:16")
    expect(walker.page.get_by_text("Donnabhain")).to_have_count(0)
    walker.picture("public-wrestler")


def reads_places(walker: Walker, weight: str) -> None:
    """The places of a weight in their order, by the names that may be published."""
    walker.heading(f"Weight {weight}")
    named = [INITIALS.get(wrestler, wrestler) for wrestler in PLACES[weight]]
    listed = walker.page.get_by_role("definition").get_by_role("link")
    expect(listed).to_have_text(named)


def answers_programs(walker: Walker, site: Site, totals: dict[str, Decimal]) -> None:
    """The address of the team points in the README gives the same sums."""
    told = re.search(r"`(/api/v1/\S+/team-points/)`", (ROOT / "README.md").read_text("utf-8"))
    assert told
    (division,) = walker.page.request.get(site.address + told[1]).json()["divisions"]
    assert {one["name"]: Decimal(one["total"]) for one in division["teams"]} == totals
