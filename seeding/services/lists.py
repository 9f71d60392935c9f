"""Which list of criteria orders the weights of a division."""

from collections.abc import Mapping

from seeding.entries.models import Division
from seeding.entries.permissions import Right, require
from seeding.entries.services.division import set_settings
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act
from seeding.rulebooks import section_of, text_of

SECTION = "seeding"


@act
def use_list(
    *, call: Call, division: Division, name: str = "", file: str = "", text: str = ""
) -> Deed:
    """Order the division's weights by a list of the program, or by the text of a file.

    Single settings of the section before are dropped with it. Refused once a weight is drawn.
    """
    require(call, division.tournament_id, Right.DIRECT)
    if bool(name) == bool(text):
        raise Invalid([Problem("list", "Choose a list, or give a file.")])
    section = section_of(f"{name}.toml", text_of(name)) if name else section_of(file, text)
    set_settings(division, {**_others(division), SECTION: section})
    return Deed(division.tournament.log_id, "list.used", {"division": division.pk})


@act
def use_own_list(*, call: Call, division: Division) -> Deed:
    """Order the division's weights by the list of its rule book again."""
    require(call, division.tournament_id, Right.DIRECT)
    set_settings(division, _others(division))
    return Deed(division.tournament.log_id, "list.used", {"division": division.pk})


def _others(division: Division) -> Mapping[str, object]:
    """The settings of other sections."""
    return {
        name: value
        for name, value in division.settings.items()
        if name.partition(".")[0] != SECTION
    }
