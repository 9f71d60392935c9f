"""A division without fixed weights, its wrestlers weighed, for tests."""

from decimal import Decimal
from typing import Any

from seeding.entries.models import Division, Entry, Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries.groups import waiting_of
from seeding.entries.services import (
    add_division,
    add_entry,
    add_team,
    form_groups,
    measure,
    start_groups,
)
from seeding.entries.services.entry import Person
from seeding.entries.services.groups import Figures
from tests.results.championship import CALL

# Weight, age, experience: two groups of four, one who is left; every weight is seen nowhere else.
WEIGHED = (
    *(("61.37", 8, 1), ("61.83", 8, 0), ("62.19", 9, 1), ("63.71", 9, 2)),
    *(("77.13", 9, 2), ("77.59", 10, 3), ("78.17", 10, 1), ("79.31", 10, 1)),
    ("97.73", 10, 2),
)
HERE = "/tournaments/spring"
YOUNG = f"{HERE}/divisions/young"
GROUP = f"{HERE}/weights/group-1/regrouping"
MOVE = {"entries": ["young-1"], "target": "group-2"}
ITEM = {"entry": "young-1", "weight": "61.50", "age": 8, "experience": 1}
CELLS: dict[str, tuple[Right, str, Any]] = {
    "postDivisionGrouping": (Right.DIRECT, f"{YOUNG}/grouping/", None),
    "putDivisionWeighing": (Right.DIRECT, f"{YOUNG}/weighing/", {"items": [ITEM]}),
    "getDivisionGroups": (Right.DIRECT, f"{YOUNG}/groups/", None),
    "postDivisionGroups": (Right.DIRECT, f"{YOUNG}/groups/", {}),
    "postWeightRegrouping": (Right.DIRECT, f"{GROUP}/", {**MOVE, "reason": "brothers"}),
    "postRegroupingPreview": (Right.DIRECT, f"{GROUP}/preview/", MOVE),
}
NOT_NOW = {"postDivisionGroups"}
"""Nobody who waits can be grouped."""


def young(tournament: Tournament, *, settings: dict[str, Any] | None = None) -> Division:
    """The division with nine entries, `young-1` to `young-9`, each for a team of his own."""
    add_division(
        call=CALL,
        tournament=tournament,
        key="young",
        name="Young",
        rulebook="high-school-2025",
        settings=settings or {},
    )
    division = tournament.divisions.get(key="young")
    start_groups(call=CALL, division=division)
    division.refresh_from_db()
    for number in range(1, len(WEIGHED) + 1):
        name = f"Youngteam {number}"
        add_team(call=CALL, tournament=tournament, name=name, short=f"Y{number}")
        act = add_entry(
            call=CALL,
            weight=waiting_of(division),
            team=tournament.teams.get(name=name),
            person=Person(f"Givenyoung{number}", f"Familyyoung{number}"),
        )
        Entry.objects.filter(pk=act.subject["entry"]).update(key=f"young-{number}")
    return division


def weigh(division: Division) -> None:
    """Everybody as `WEIGHED` says."""
    figures = {
        f"young-{at}": Figures(Decimal(weight), age, experience)
        for at, (weight, age, experience) in enumerate(WEIGHED, start=1)
    }
    measure(call=CALL, division=division, figures=figures)


def grouped(tournament: Tournament, *, settings: dict[str, Any] | None = None) -> Division:
    """The division weighed and grouped: `group-1`, `group-2`, one who waits."""
    division = young(tournament, settings=settings)
    weigh(division)
    form_groups(call=CALL, division=division)
    return division
