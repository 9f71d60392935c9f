"""What a JSON Schema cannot say of a tournament file: days that exist, and nothing twice."""

from collections.abc import Hashable, Iterable, Iterator, Mapping
from datetime import date, datetime
from typing import Any

from results.serializers.consistent_berths import berth_faults
from results.serializers.consistent_rulings import ruling_faults
from seeding.journal.core.errors import Problem

Item = Mapping[str, Any]
LARGEST = 2**31 - 1
TWICE = {
    "divisions": ("id",),
    "teams": ("id", "name"),
    "weight_classes": ("id",),
    "entries": ("id",),
    "wrestlers": ("id",),
    "brackets": ("weight_class",),
    "withdrawals": ("entry",),
}

MOMENTS = (
    *(("results", "occurred_at"), ("bouts", "occurred_at"), ("rulings", "at")),
    *(("void_bouts", "occurred_at"), ("void_bouts", "voided_at"), ("cut_offs", "at")),
)


def inconsistencies(document: Item) -> Iterator[Problem]:
    """Every fault of a document that has passed its schema, by path."""
    yield from _too_large(document, "")
    yield from _days(document)
    for section, fields in TWICE.items():
        for field in fields:
            items = document.get(section, ())
            yield from _twice(section, field, ((item[field],) for item in items))
    offs = document.get("cut_offs", ())
    yield from _twice("cut_offs", "division", ((item.get("division"),) for item in offs))
    entries = document["entries"]
    yield from _twice("entries", "seed", (_seed(item) for item in entries))
    yield from _twice("entries", "wrestler", (_person(item) for item in entries))
    yield from _twice("entries", "family", (_name(item) for item in entries))
    for at, item in enumerate(document["teams"]):
        if item.get("merged_into") == item["id"]:
            yield Problem(f"teams[{at}].merged_into", "a team is not merged into itself")
    yield from berth_faults(document)
    yield from ruling_faults(document)


def _too_large(value: object, where: str) -> Iterator[Problem]:
    if isinstance(value, Mapping):
        for name, item in value.items():
            yield from _too_large(item, f"{where}.{name}" if where else str(name))
    elif isinstance(value, list):
        for at, item in enumerate(value):
            yield from _too_large(item, f"{where}[{at}]")
    elif isinstance(value, int) and abs(value) > LARGEST:
        yield Problem(where, f"{value} is too large")


def _days(document: Item) -> Iterator[Problem]:
    if not _is_day(document["tournament"]["starts_on"]):
        yield Problem("tournament.starts_on", "there is no such day")
    for at, item in enumerate(document.get("prior_bouts", ())):
        if not _is_day(item["date"]):
            yield Problem(f"prior_bouts[{at}].date", "there is no such day")
    for section, name in MOMENTS:
        for at, item in enumerate(document.get(section, ())):
            if not _is_moment(item.get(name)):
                hint = "write day, time and offset, such as 2026-03-19T15:00:00Z"
                yield Problem(f"{section}[{at}].{name}", hint)


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _is_moment(text: str | None) -> bool:
    if text is None:
        return True
    try:
        return datetime.fromisoformat(text).tzinfo is not None
    except ValueError:
        return False


def _seed(item: Item) -> tuple[Hashable, ...] | None:
    seed = item.get("seed")
    entered = item.get("status", "entered") == "entered"
    return None if seed is None or not entered else (item["weight_class"], seed)


def _person(item: Item) -> tuple[Hashable, ...] | None:
    uid = item.get("wrestler")
    return (item["weight_class"], uid) if uid else None


def _name(item: Item) -> tuple[Hashable, ...]:
    home = item.get("home") or item["team"]
    return item["weight_class"], item.get("given", ""), item["family"], home


def _twice(
    section: str, field: str, keys: Iterable[tuple[Hashable, ...] | None]
) -> Iterator[Problem]:
    first: dict[tuple[Hashable, ...], int] = {}
    for at, key in enumerate(keys):
        if key is None:
            continue
        if key in first:
            told = f"the same stands at {section}[{first[key]}]"
            yield Problem(f"{section}[{at}].{field}", told)
        first.setdefault(key, at)
