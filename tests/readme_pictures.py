"""The two pictures of the README, taken of the demo: `python -m tests.readme_pictures`.

Chromium must be there; the demo is served from a folder that is thrown away afterwards.
"""

import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from tests.conftest import CHROMIUM, ROOT, Site, environment_of, welcomed

FOLDER = ROOT / "fixtures" / "demo"


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        held = environment_of(Path(folder)) | {"LOG_LEVEL": "WARNING"}
        command = [sys.executable, "manage.py", "demo"]
        with subprocess.Popen(
            command, cwd=ROOT, env=held, stdout=subprocess.PIPE, text=True
        ) as server:
            assert server.stdout
            try:
                take(welcomed(iter(server.stdout), held))
            finally:
                server.terminate()


def take(site: Site) -> None:
    """Both pictures from a running demo."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        sheet(opened(browser, 1280), site)
        mat_table(opened(browser, 390), site)
        browser.close()


def opened(browser: Browser, width: int) -> Page:
    return browser.new_page(viewport={"width": width, "height": 1000}, locale="en-GB")


def sheet(page: Page, site: Site) -> None:
    """The drawing of the lightest weight."""
    page.goto(site.address + "/")
    page.get_by_role("heading").get_by_role("link").first.click()
    page.get_by_role("row").get_by_role("link", name="125", exact=True).click()
    page.get_by_role("figure").screenshot(path=FOLDER / "sheet.png")


def mat_table(page: Page, site: Site) -> None:
    """What stands on mat 1, from the last result down to the button."""
    page.goto(site.address + "/sign-in/?next=/desk/")
    page.get_by_label("Sign-in name").fill(site.user)
    page.get_by_label("Password").fill(site.password)
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("heading").get_by_role("link").first.click()
    page.get_by_text("Menu").first.click()
    page.get_by_role("link", name="Mat 1", exact=True).click()
    top = page.get_by_text("Last: bout").bounding_box()
    end = page.get_by_role("button", name="Record the result").bounding_box()
    assert top
    assert end
    above = top["y"] - 16
    height = end["y"] + end["height"] + 24 - above
    page.screenshot(
        path=FOLDER / "mat-table.png",
        clip={"x": 0, "y": above, "width": 390, "height": height},
        full_page=True,
    )


if __name__ == "__main__":
    main()
