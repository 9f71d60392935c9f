"""The README's step 7: a mistake, what follows from mending it, and when it is too late."""

from dataclasses import replace

from playwright.sync_api import expect

from tests.walk.story import BRACKET, POOL, Bout
from tests.walk.walker import Walker
from tests.walk.wrestling import at_the_mat, from_the_list, opened, side, write


def a_wrong_kind(walker: Walker, bout: Bout) -> None:
    """A fall that was entered as a decision: nobody moves, two team points do."""
    wrong = replace(bout, written="Dec 6-2")
    from_the_list(walker, wrong)
    opened(walker, bout)
    walker.fill(**{"Winner's points": "", "Loser's points": ""})
    write(walker, bout)
    walker.press("Show what follows")
    walker.heading(f"It would be {bout.written}, won by {bout.winner}")
    walker.sees("Team points that move, in this weight", "Grayling Point: 7 → 9")
    walker.picture("wrong-kind")
    walker.press(f"Correct to {bout.written}, {bout.winner}")
    walker.sees(bout.written)


def a_wrong_winner(walker: Walker, bout: Bout) -> None:
    """The wrong side of a semifinal: the look ahead names bouts, places and team points."""
    from_the_list(walker, replace(bout, winner=bout.loser, loser=bout.winner))
    opened(walker, bout)
    side(walker, bout.winner).check()
    walker.press("Show what follows")
    walker.heading(f"It would be {bout.written}, won by {bout.winner}")
    walker.sees("Bouts that change hands", "18 (C2)", "21 (1st)")
    walker.sees("Brindle Harbor: 6 → 15", "Eskdale Sound: 15 → 7")
    walker.picture("wrong-winner")
    walker.press(f"Correct to {bout.written}, {bout.winner}")
    walker.sees("The result of bout 10 is corrected.")
    walker.picture("right-winner")


def too_late(walker: Walker, bout: Bout, named: tuple[str, ...]) -> None:
    """A result from which a wrestled bout follows: it is named, and what becomes of it is asked."""
    opened(walker, bout)
    side(walker, bout.loser).check()
    walker.press("Show what follows")
    walker.sees("Wrestled bouts: what becomes of each?", "The same two wrestle it again.")
    for one in named:
        expect(walker.page.get_by_role("link", name=one)).to_be_visible()
    expect(walker.page.get_by_role("button", name="Correct to")).to_have_count(0)
    walker.picture("too-late")
    walker.follow("Leave it as it is")
    walker.sees(bout.written)


def wrestle(walker: Walker) -> None:
    """Step 6: the whole tournament, with the mistakes of step 7 on the way."""
    done = at_the_mat(walker)
    for bout in POOL:
        if bout not in done:
            from_the_list(walker, bout)
    walker.picture("bout-recorded")
    walker.press("Confirm")
    walker.press("Make official")
    walker.sees("Not official after all")
    walker.picture("bout-official")
    for bout in BRACKET[:2]:
        from_the_list(walker, bout)
    walker.picture("bout-riding-time")
    a_wrong_kind(walker, BRACKET[2])
    a_wrong_winner(walker, BRACKET[3])
    from_the_list(walker, BRACKET[4])
    too_late(walker, BRACKET[0], ("Bout 10, SF",))
    for bout in BRACKET[5:]:
        from_the_list(walker, bout)
    walker.section("Mat 1")
    walker.sees("No bout is left on it.")
    walker.picture("mat-done")
    walker.section("Overview")
    walker.sees("Every bout is decided")
    walker.picture("overview-done")
