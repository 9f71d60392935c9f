"""The README's steps 4, 5 and 9: seeds, draw and numbers, what the public sees."""

from tests.walk.walker import Walker

REASON = "Won the later of their two bouts"


def seeds(walker: Walker) -> None:
    """Step 4: the order with its reasons, one move of the committee, adopted."""
    walker.follow("To the seeding room")
    walker.heading("Seeding")
    walker.picture("seeding")
    walker.follow("133")
    walker.sees("▲ Ren Xiongwen (4) has beaten Jasper Brackwell (3)")
    walker.picture("room")
    walker.open("Jasper Brackwell stands above Ren Xiongwen")
    walker.picture("room-reason")
    walker.press("Compare")
    walker.heading("Calder Hathersley · Kendrick Donnabhain")
    walker.picture("compare")
    walker.section("Seeding")
    walker.follow("133")
    walker.follow("Move Ren Xiongwen")
    walker.fill(To_place="3", Reason=REASON)
    walker.press("Move")
    walker.sees("Moved by the committee", f"“{REASON}”", "Against the criteria:")
    walker.press("Adopt: 7 seeds")
    walker.sees("Adopted.")
    walker.picture("room-adopted")
    walker.section("Seeding")
    walker.follow("149")
    walker.press("Adopt: 5 seeds")
    walker.sees("Adopted.")


def draws(walker: Walker) -> None:
    """Step 5."""
    walker.section("Draw")
    walker.heading("Draw")
    walker.picture("draw")
    walker.press("Draw all 2 weights")
    walker.sees("2 weights are drawn.")
    walker.picture("drawn")
    walker.press("Number 21 bouts")
    walker.sees("The bouts are numbered and have their mats.")
    walker.picture("numbered")


def publishes(walker: Walker) -> None:
    """Step 9."""
    walker.section("Frame")
    for kind in (
        "Entries", "Seeds", "Brackets and bout numbers", "Results and places", "Team points",
    ):  # fmt: skip
        walker.field(kind).check()
    walker.picture("frame")
    walker.press("Publish as ticked")
    walker.sees("Published as ticked.")
    walker.picture("published")
    walker.follow("Public page")
    walker.sees("On now", "drawn, 11 bouts")
    walker.picture("public-page")
    walker.follow("Head table")
    walker.follow("River Cup")
    walker.sees("What to do next", "13 bouts can be wrestled now, 8 wait for others")
    walker.picture("overview-drawn")
