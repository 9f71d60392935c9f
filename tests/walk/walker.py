"""Somebody at a browser who knows nothing but what he reads on the page."""

import re

from playwright.sync_api import Locator, Page, expect

from tests.conftest import ROOT

PICTURES = ROOT / ".local" / "walk"
WIDTHS = ((390, 844), (1280, 900))


class Walker:
    """Finds everything by its visible text; a text that two things share is an error.

    A page is read when the whole of it has come, not when its beginning has.
    """

    def __init__(self, page: Page, taken: int = 0) -> None:
        self.page = page
        self.taken = taken
        page.set_default_timeout(10_000)
        expect.set_options(timeout=10_000)

    def press(self, name: str) -> None:
        """Press the button of that name."""
        self.page.get_by_role("button", name=name, exact=True).click()
        self.page.wait_for_load_state()

    def follow(self, name: str, within: Locator | None = None) -> None:
        """Follow the link of that name."""
        (within or self.page).get_by_role("link", name=name, exact=True).click()
        self.page.wait_for_load_state()

    def section(self, name: str) -> None:
        """Go to a part of the head table by its navigation."""
        self.follow(name, self.page.get_by_role("navigation", name="Head table"))

    def field(self, label: str) -> Locator:
        """The field of that label, whether it must be filled in or not."""
        words = re.compile(rf"^\s*{re.escape(label)}(\s+optional)?\s*$")
        return self.page.get_by_label(words)

    def fill(self, **fields: str) -> None:
        """Type into fields; an underscore in a name stands for a space."""
        for label, text in fields.items():
            self.field(label.replace("_", " ")).fill(text)

    def open(self, text: str) -> None:
        """Open what is folded under the line with that text."""
        self.page.get_by_text(text).first.click()

    def sees(self, *texts: str) -> None:
        """Each text stands on the page."""
        for text in texts:
            expect(self.page.get_by_text(text).first).to_be_visible()

    def heading(self, name: str) -> None:
        """The page of that heading is open."""
        expect(self.page.get_by_role("heading", name=name, exact=True).first).to_be_visible()

    def picture(self, name: str) -> None:
        """The page as it is, at both widths; nothing is panned sideways at either."""
        self.taken += 1
        for width, height in WIDTHS:
            self.page.set_viewport_size({"width": width, "height": height})
            path = PICTURES / f"{self.taken:02d}-{name}-{width}.png"
            self.page.screenshot(path=path, full_page=True)
            over = self.page.evaluate("document.documentElement.scrollWidth - innerWidth")
            assert over <= 0, f"{path.name}: {over} px beyond the edge"
