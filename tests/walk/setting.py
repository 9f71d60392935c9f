"""The README's steps 1 to 3: tournament, weights, intake."""

from pathlib import Path

from playwright.sync_api import expect

from tests.conftest import ROOT, Site
from tests.walk.walker import Walker

FILES = ROOT / "fixtures" / "demo"


def signs_in(walker: Walker, site: Site) -> None:
    """From the start page that the command prints to the head table."""
    walker.page.goto(site.address + "/")
    walker.sees("No tournament is published yet.")
    walker.picture("start")
    walker.follow("Sign in at the head table")
    walker.fill(**{"Sign-in name": site.user, "Password": site.password})
    walker.picture("sign-in")
    walker.press("Sign in")
    walker.heading("My tournaments")


def makes_the_tournament(walker: Walker) -> None:
    """Step 1."""
    walker.fill(
        New_organisation="River Club", Name="River Cup", Address="river-cup",
        First_day="2025-03-01", Mats="1, 2",
    )  # fmt: skip
    walker.field("Time zone").select_option("Europe/Vienna")
    walker.picture("new-tournament")
    walker.press("Make the tournament")
    walker.sees("The tournament is made. Add a division and its weights.")
    walker.picture("weights-none")


def makes_the_weights(walker: Walker) -> None:
    """Step 2."""
    walker.fill(Name="Men")
    walker.field("Rule book").select_option("College 2024-25")
    walker.press("Make the division")
    walker.sees("The division is made. Now add its weights.")
    walker.picture("division")
    expect(walker.page.get_by_role("button", name="Add the 10 weights of “men”")).to_be_visible()
    for weight in ("133", "149"):
        walker.open("Add one weight")
        walker.fill(Weight=weight)
        walker.press("Add the weight")
        walker.sees("Added. When all weights are here: Intake.")
    walker.picture("weights")


def takes_the_roster_in(walker: Walker, folder: Path) -> None:
    """Step 3, the roster: a broken copy is refused whole, the right one goes in."""
    rows = (FILES / "roster.csv").read_text("utf-8").splitlines()
    rows[3] = rows[3].replace(",133,", ",135,")
    rows[9] = rows[9].replace(",Rivershaw,", ",,")
    broken = folder / "roster-broken.csv"
    broken.write_text("\n".join(rows), "utf-8")
    walker.section("Intake")
    walker.picture("intake")
    walker.field("Roster").set_input_files(broken)
    walker.press("Look through the file")
    walker.sees("The file cannot be taken in yet.", "2 problems")
    for where, what in (
        ("row 4, column Weight class", "135 is not a weight class of this division"),
        ("row 10, column Last name", "the family name is missing"),
    ):
        row = walker.page.get_by_role("row").filter(has_text=where)
        expect(row).to_contain_text(what)
    expect(walker.page.get_by_role("button", name="Take the roster in")).to_have_count(0)
    walker.picture("roster-problems")
    walker.section("Entries")
    expect(walker.page.get_by_role("row", name="133 0 0 0 0 0 open")).to_be_visible()
    walker.section("Intake")
    walker.field("Roster").set_input_files(FILES / "roster.csv")
    walker.press("Look through the file")
    walker.heading("What the roster would do")
    walker.picture("roster-plan")
    walker.press("Take the roster in")
    walker.sees("12 entries added, 0 changed.")
    walker.picture("roster-in")


def takes_the_season_in(walker: Walker) -> None:
    """Step 3, the season: read by a job, whose progress is followed."""
    walker.section("Intake")
    walker.field("Season").set_input_files(FILES / "season.csv")
    walker.press("Read the file")
    walker.heading("Season: season.csv")
    walker.picture("season-job")
    walker.press("Take the season in")
    walker.sees("The season is taken in.")
    walker.picture("season-in")
