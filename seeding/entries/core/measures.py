"""Weight, age and experience as people write them, for groups that are formed after weigh-in."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from seeding.entries.core.columns import BLANK, Cells, Columns
from seeding.journal.core.errors import Problem

MEASURED = ("weighed", "age", "experience")
MOST_YEARS = 98
_WEIGHT = re.compile(r"(\d{1,3}(?:[.,]\d{1,2})?)\s*(lb|kg)?s?")
_YEAR = 4  # digits of a year of birth


@dataclass(frozen=True, slots=True)
class Weighing:
    """How a division weighs: `waiting` is the label of the weight where entrants wait to be
    grouped, `unit` lb or kg, `day` the one on which ages count."""

    waiting: str
    unit: str
    day: date


def age_on(text: str, day: date) -> int | None:
    """Whole years on that day by an age, a date of birth or a year of birth; None where it is none.

    A year alone gives the age reached in the year of `day`: common practice, no source.

    >>> day = date(2026, 3, 19)
    >>> age_on("9", day), age_on("2016-05-31", day), age_on("2016", day), age_on("31.5.", day)
    (9, 9, 10, None)
    """
    try:
        if is_year(text):
            years = day.year - int(text)
        elif text.isdecimal():
            years = int(text)
        else:
            born = date.fromisoformat(text)
            years = day.year - born.year - ((day.month, day.day) < (born.month, born.day))
    except ValueError:
        return None
    return years if 0 <= years <= MOST_YEARS else None


def is_year(text: str) -> bool:
    """Whether it is the year of birth alone."""
    return text.isdecimal() and len(text) == _YEAR


def weight_in(text: str, unit: str) -> Decimal | None:
    """A weight above 0 in that unit, with at most two decimals; None where it is none.

    >>> weight_in("61.5 lbs", "lb"), weight_in("61,5", "kg"), weight_in("61 kg", "lb")
    (Decimal('61.5'), Decimal('61.5'), None)
    """
    found = _WEIGHT.fullmatch(text.strip().casefold())
    if not found or found[2] not in (None, unit):
        return None
    return Decimal(found[1].replace(",", ".")) or None


def measured(cells: Cells, weighing: Weighing) -> dict[str, Any]:
    """What a row says was measured; what does not fit is noted in the cells."""
    said = {name: cells.text(name, 20) for name in MEASURED}
    told = {name: text for name, text in said.items() if text.casefold() not in BLANK}
    found = {
        "weighed": weight_in(told.get("weighed", ""), weighing.unit),
        "age": age_on(told.get("age", ""), weighing.day),
        "experience": cells.whole("experience"),
    }
    if "weighed" in told and found["weighed"] is None:
        unit = weighing.unit
        message = f"“{told['weighed']}” is not a weight in {unit}, such as 61.5 or 61.5 {unit}"
        cells.refuse("weighed", message)
    if "age" in told and found["age"] is None:
        message = (
            f"“{told['age']}” is not an age from 0 to {MOST_YEARS}, a date of birth such as "
            "2016-05-31 or a year of birth"
        )
        cells.refuse("age", message)
    if (found["experience"] or 0) > MOST_YEARS:
        cells.refuse("experience", f"years of experience go from 0 to {MOST_YEARS}")
    return found


def years_alone(columns: Columns, weighing: Weighing | None) -> Iterator[Problem]:
    """A warning for each year of birth, by which an age is a year too high until the birthday."""
    if weighing is None or not columns.has("age"):
        return
    for row in columns.table.rows:
        said, year = row.cells[columns.at["age"]], weighing.day.year
        age = age_on(said, weighing.day) if is_year(said) else None
        if age is not None:
            message = f"“{said}” is a year alone, read as the age that he reaches in {year}: {age}"
            yield Problem(columns.where(row, "age"), message)
