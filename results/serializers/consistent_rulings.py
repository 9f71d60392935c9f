"""What a JSON Schema cannot say of rulings and void bouts: whom they name, and their numbers."""

from collections.abc import Iterator, Mapping
from typing import Any

from seeding.journal.core.errors import Problem

Item = Mapping[str, Any]
SEATS = {"bout", "ways"}
PARTS = {
    "sides": SEATS,
    "advancement": SEATS,
    "result": {"bout", "sides", "winner"},
    "place": {"places", "shared"},
}
EVERY = set().union(*PARTS.values())


def ruling_faults(document: Item) -> Iterator[Problem]:
    """Parts of another kind, winners who are neither of the two, numbers given twice."""
    for at, item in enumerate(document.get("rulings", ())):
        if EVERY.intersection(item) != PARTS[item["kind"]]:
            parts = ", ".join(sorted(PARTS[item["kind"]]))
            yield Problem(f"rulings[{at}].kind", f"a ruling of this kind has {parts}")
    for section in ("rulings", "void_bouts"):
        for at, item in enumerate(document.get(section, ())):
            winner = item.get("winner")
            if winner is not None and winner not in item.get("sides", ()):
                yield Problem(f"{section}[{at}].winner", f"“{winner}” is neither of the two")
    taken = {item.get("number") for item in document.get("bouts", ())} - {None}
    for at, item in enumerate(document.get("void_bouts", ())):
        number = item.get("number")
        if number in taken:
            yield Problem(f"void_bouts[{at}].number", f"{number} is the number of another bout")
        taken |= {number} - {None}
