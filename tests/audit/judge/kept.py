"""How well a draw kept apart whom it should: pairs by the round in which they can meet first."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tests.audit.judge.changes import form_of
from tests.audit.judge.facts import Doc, Facts
from tests.audit.judge.small import POOLS

Spot = tuple[str, int]  # an entry and its line


def kept(document: Doc, facts: Facts, bracket: Doc) -> Iterator[str]:
    """Where the pairs that are told are not those of the lines as drawn."""
    draw = bracket.get("draw", {})
    if "kept" not in draw:
        return
    lines = bracket.get("drawn_lines") or bracket["lines"]
    form = form_of(lines, facts.settings["bracket"], facts.format)
    bracketed = form in ("elimination", "two-pools")
    wanted = facts.settings["bracket"]["keep_apart"] if bracketed else []
    told = [row["criterion"] for row in draw["kept"]]
    if told != wanted:
        yield f"{facts.label}: kept apart by {told}, by the rules {wanted}"
    known = marks(document, facts, draw.get("as_drawn", {}))
    for row in draw["kept"]:
        pairs = counted(lines, form, row["criterion"], known)
        if pairs != row["pairs"]:
            at = f"{facts.label}: of one {row['criterion']}"
            yield f"{at} {row['pairs']} pairs, on the lines as drawn {pairs}"
        if row["pairs"] < row["bound"]:
            yield f"{facts.label}: {row['pairs']} is better than the bound {row['bound']}"


def marks(document: Doc, facts: Facts, as_drawn: Doc) -> dict[str, Doc]:
    """Team, region and earlier opponents of each entry when it was drawn."""
    berths = document.get("qualifying", {}).get("berths", [])
    region = {raw["entry"]: raw.get("region", "") for raw in berths}
    known: dict[str, Doc] = {
        ident: {"team": raw["team"], "region": region.get(ident, ""), "met": []}
        for ident, raw in facts.entries.items()
    }
    for bout in document.get("prior_bouts", []):
        for one, other in ((bout["winner"], bout["loser"]), (bout["loser"], bout["winner"])):
            if one in known:
                known[one]["met"].append(other)
    for raw in as_drawn.get("entries", []):
        was = known.setdefault(raw["entry"], {"team": "", "region": "", "met": []})
        was |= {part: raw[part] for part in ("team", "region", "met") if part in raw}
    return known


def counted(lines: list[object], form: str, criterion: str, known: dict[str, Doc]) -> list[int]:
    """Pairs in a pigtail, the first round, ..., a semifinal; of pools in one, and in two."""
    spots: list[Spot] = []
    for index, line in enumerate(lines):
        here = line if isinstance(line, list) else [line]
        spots += [(str(entry), index) for entry in here if entry in known]
    found = [0] * (2 if form == "two-pools" else len(lines).bit_length() - 1)
    for (one, top), (other, low) in combinations(spots, 2):
        if form == "two-pools":
            first = int((top in POOLS[0]) != (low in POOLS[0]))
        else:
            first = (top ^ low).bit_length()
        if first < len(found) and together(criterion, one, other, known):
            found[first] += 1
    return found


def together(criterion: str, one: str, other: str, known: dict[str, Doc]) -> bool:
    """Whether two should be kept apart."""
    if criterion == "met":
        return other in known[one]["met"] or one in known[other]["met"]
    mark = known[one][criterion]
    return bool(mark) and mark == known[other][criterion]
