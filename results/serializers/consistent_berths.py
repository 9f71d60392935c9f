"""What a JSON Schema cannot say of the section `qualifying` of a tournament file."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any

from seeding.journal.core.errors import Problem

Item = Mapping[str, Any]


def berth_faults(document: Item) -> Iterator[Problem]:
    """Letters and entries that stand twice, moments that are none, and who steps in for whom."""
    section = document.get("qualifying")
    if not section:
        return
    yield from _moment(section["plan"].get("alternates_until"), "plan.alternates_until")
    yield from _twice(section["regions"], "regions", "letter")
    berths = section["berths"]
    for name in ("entry", "stepped_in_for"):
        yield from _twice(berths, "berths", name)
    for at, item in enumerate(berths):
        yield from _moment(item.get("stepped_in_at"), f"berths[{at}].stepped_in_at")
        if ("stepped_in_at" in item) != ("stepped_in_for" in item):
            yield _fault(f"berths[{at}].stepped_in_for", "say both for whom and when, or neither")
    yield from _rounds(berths)


def _fault(where: str, message: str) -> Problem:
    return Problem(f"qualifying.{where}", message)


def _moment(text: str | None, where: str) -> Iterator[Problem]:
    if text is None:
        return
    try:
        told = datetime.fromisoformat(text).tzinfo is not None
    except ValueError:
        told = False
    if not told:
        yield _fault(where, "write day, time and offset, such as 2026-03-19T15:00:00Z")


def _twice(items: Sequence[Item], section: str, name: str) -> Iterator[Problem]:
    first: dict[str, int] = {}
    for at, item in enumerate(items):
        value = item.get(name)
        if value is not None and value in first:
            told = f"the same stands at qualifying.{section}[{first[value]}]"
            yield _fault(f"{section}[{at}].{name}", told)
        first.setdefault(value or "", at)


def _rounds(berths: Sequence[Item]) -> Iterator[Problem]:
    """Nobody takes over a line that comes from himself."""
    came_for = {one["entry"]: one.get("stepped_in_for") for one in berths}
    for at, item in enumerate(berths):
        seen, who = {item["entry"]}, came_for[item["entry"]]
        while who is not None and who not in seen:
            seen.add(who)
            who = came_for.get(who)
        if who == item["entry"]:
            yield _fault(f"berths[{at}].stepped_in_for", "he would step in for himself")
