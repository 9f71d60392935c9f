"""A tournament from the README, walked in a browser by what can be read on the pages."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.conftest import Site
from tests.walk import mending, room, setting, story, trophy
from tests.walk.walker import PICTURES, Walker

pytestmark = pytest.mark.browser


def test_a_tournament_as_the_readme_tells_it(
    site: Site, browse: Callable[[int], Page], tmp_path: Path
) -> None:
    for old in PICTURES.glob("*.png"):
        old.unlink()
    walker = Walker(browse(1280))
    setting.signs_in(walker, site)
    setting.makes_the_tournament(walker)
    setting.makes_the_weights(walker)
    setting.takes_the_roster_in(walker, tmp_path)
    setting.takes_the_season_in(walker)
    room.seeds(walker)
    room.draws(walker)
    room.publishes(walker)
    mending.wrestle(walker)
    totals = story.added_up()
    assert totals == story.ON_PAPER
    totals["Dunmarrow"] -= 1
    trophy.takes_a_point(walker, totals)
    trophy.makes_official(walker)
    public = Walker(browse(1280), walker.taken)
    trophy.is_read_by_the_public(public, site, totals)
    trophy.answers_programs(public, site, totals)
