"""The README's steps 6 and 7: results at the mats and at the head table, and their mending."""

from playwright.sync_api import Locator, expect

from tests.walk.story import BRACKET, POOL, Bout
from tests.walk.walker import Walker

MORE = "Overtime, misconduct, nobody won"


def side(walker: Walker, name: str) -> Locator:
    """The half of the pad with that wrestler's name."""
    return walker.page.get_by_role("radio", name=name)


def write(walker: Walker, bout: Bout, winner: str = "") -> None:
    """Put a result into the pad."""
    side(walker, winner or bout.winner).check()
    if bout.kind not in ("decision", "major decision", "technical fall"):
        walker.page.get_by_role("radio", name=bout.kind, exact=True).check()
    if bout.score:
        walker.fill(**{"Winner's points": bout.score[0], "Loser's points": bout.score[1]})
    walker.field("Time, m:ss").fill(bout.time)
    if bout.overtime:
        walker.open(MORE)
        walker.page.get_by_role("radio", name=bout.overtime, exact=True).check()
        box = walker.field("Level score, decided by riding time")
        box.set_checked("RT" in bout.written)


def line(walker: Walker, bout: Bout) -> Locator:
    """The line of a bout in a list: the one with both names."""
    lines = walker.page.get_by_role("main").get_by_role("listitem")
    return lines.filter(has_text=bout.winner).filter(has_text=bout.loser)


def on_the_mat(walker: Walker) -> Bout:
    """The bout of the story whose two wrestlers stand on the pad."""
    expect(walker.page.get_by_role("radio").first).to_be_visible()
    (found,) = (
        bout
        for bout in (*POOL, *BRACKET)
        if side(walker, bout.winner).count() and side(walker, bout.loser).count()
    )
    return found


def at_the_mat(walker: Walker) -> tuple[Bout, ...]:
    """Two bouts at their tables: one touched, undone and touched again, one by the keyboard."""
    walker.section("Mat 1")
    first = on_the_mat(walker)
    walker.sees("On the mat", "Next on this mat", "on deck", "in the hole")
    write(walker, first, winner=first.loser)
    walker.sees(f"By the score: {first.kind}")
    walker.picture("mat-written")
    walker.press("Record the result")
    walker.sees(first.written)
    walker.picture("mat-next")
    walker.follow("Undo bout 1")
    walker.picture("mat-undo")
    walker.press(f"Undo {first.written}")
    walker.sees("The result of bout 1 is undone.")
    write(walker, first)
    walker.press("Record the result")
    walker.sees(f"Last: bout 1, {first.written}, {first.winner}")
    walker.section("Mat 2")
    second = on_the_mat(walker)
    by_keyboard(walker, second)
    walker.sees(f"Last: bout 2, {second.written}, {second.winner}")
    walker.picture("mat-by-keyboard")
    return first, second


def by_keyboard(walker: Walker, bout: Bout) -> None:
    """A result by its score with the keyboard alone: Tab, Space, the figures, Enter."""
    keys = walker.page.keyboard
    reach(walker, side(walker, bout.winner), bout.loser)
    keys.press("Space")
    assert bout.score
    for label, points in zip(("Winner's points", "Loser's points"), bout.score, strict=True):
        reach(walker, walker.field(label))
        keys.type(points)
    keys.press("Enter")


def reach(walker: Walker, wanted: Locator, neighbour: str = "") -> None:
    """Press Tab until the field has the focus; the arrow goes from one side to the other."""
    keys = walker.page.keyboard
    for _press in range(60):
        if wanted.evaluate("element => element === document.activeElement"):
            return
        at_neighbour = neighbour and side(walker, neighbour).evaluate(
            "element => element === document.activeElement"
        )
        keys.press("ArrowRight" if at_neighbour else "Tab")
    raise AssertionError("The keyboard does not reach the field.")


def from_the_list(walker: Walker, bout: Bout, wrong: Bout | None = None) -> None:
    """A result from the list of bouts."""
    walker.section("Bouts")
    line(walker, bout).get_by_role("link").first.click()
    write(walker, wrong or bout)
    walker.press("Record the result")
    walker.sees((wrong or bout).written)


def opened(walker: Walker, bout: Bout) -> None:
    """The page of a bout, from the list."""
    walker.section("Bouts")
    line(walker, bout).get_by_role("link").first.click()
