"""The line-up: its size, the seeds on their lines, the byes and pigtails; not the lot."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from tests.audit.judge.changes import form_of
from tests.audit.judge.facts import Doc

Lines = list[Any]


@dataclass
class Field:
    """Who was drawn: `ranks` are the seeds in order, None a scratched seed's hole."""

    ranks: list[str | None]
    others: set[str]

    @property
    def size(self) -> int:
        """Entrants and holes."""
        return len(self.ranks) + len(self.others)

    @property
    def entrants(self) -> int:
        """Entrants alone."""
        return self.size - self.ranks.count(None)

    def closed(self) -> Field:
        """The field without its holes, as a round robin or pools have it."""
        return Field([entry for entry in self.ranks if entry is not None], self.others)


def mirrored(lines: int) -> list[int]:
    """No. 1 on the first line, No. 2 on the last: 1 8 5 4 3 6 7 2."""
    order = [1]
    while len(order) < lines:
        total = 2 * len(order) + 1
        order = [
            rank
            for index, seed in enumerate(order)
            for rank in ((seed, total - seed) if index % 2 == 0 else (total - seed, seed))
        ]
    return order


def recurrence(lines: int) -> list[int]:
    """A131271: 1 8 4 5 2 7 3 6."""
    order = [1]
    while len(order) < lines:
        total = 2 * len(order) + 1
        order = [rank for seed in order for rank in (seed, total - seed)]
    return order


def line_order(rules: Doc, lines: int) -> list[int] | None:
    """The rank that starts on each line; None for the international order."""
    if str(lines) in rules["lines"]:
        return [int(rank) for rank in rules["lines"][str(lines)]]
    if rules["line_order"] == "international":
        return None
    return mirrored(lines) if rules["line_order"] == "mirrored" else recurrence(lines)


def shape(rules: Doc, field: Field) -> tuple[str, int]:
    """The format and the lines of a field; holes count for the lines of an elimination."""
    size = field.entrants
    if size > rules["always_lines"]:
        if size == 2 and rules["of_two"] == "best-of-three":
            return "best-of-three", 2
        if size <= rules["round_robin_up_to"]:
            return "round-robin", size
        if size in rules["two_pools"]:
            return "two-pools", size
    lines = 8
    while field.size - lines > min(rules["pigtails_up_to"], lines // 2):
        lines *= 2
    return "elimination", lines


def field_of(entries: list[Doc], as_drawn: Doc, scratched: str) -> Field:
    """The field as it was drawn: what the file says now, but for what was otherwise then.

    Whoever is named as he was drawn was in the field, if it is not said that he was not.
    """
    then = {raw["entry"]: {"entered": True} | raw for raw in as_drawn.get("entries", [])}
    seeds: dict[int, str] = {}
    others: set[str] = set()
    for entry in entries:
        now = {"entered": entry.get("status", "entered") == "entered", "seed": entry.get("seed")}
        was = now | then.get(entry["id"], {})
        if was["entered"] and was["seed"]:
            seeds[was["seed"]] = entry["id"]
        elif was["entered"]:
            others.add(entry["id"])
    gone = [e for e in entries if e.get("status") == "scratched" and e.get("seed")]
    earlier = [entry for entry in gone if not then.get(entry["id"], {}).get("entered")]
    if scratched == "redraw" and earlier:
        return Field([], others | set(seeds.values()))
    ranks: list[str | None] = [seeds[seed] for seed in sorted(seeds)]
    now_empty = [entry["seed"] for entry in gone] if scratched == "hole" else []
    for hole in sorted(as_drawn.get("holes", now_empty)):
        ranks.insert(hole - 1, None)
    return Field(ranks, others)


def lineup(where: str, bracket: Doc, entries: list[Doc], settings: Doc) -> Iterator[str]:
    """What is wrong with a line-up that was drawn; one that was given is not looked at."""
    lines: Lines = bracket.get("drawn_lines") or bracket["lines"]
    yield from twice(where, lines, {entry["id"] for entry in entries})
    draw = bracket.get("draw", {})
    seeding = settings["seeding"]
    if "draw_version" not in draw or seeding["fill"] != "seeds":
        return
    field = field_of(entries, draw.get("as_drawn", {}), seeding["scratched"])
    rules = settings["bracket"]
    form, size = shape(rules, field)
    now = bracket["lines"]
    if len(now) != len(lines) and bracket.get("format") != form_of(now, rules, form):
        yield f"{where}: {bracket.get('format')} on {len(now)} lines that closed up"
    said = (bracket.get("format") if len(now) == len(lines) else form, len(lines))
    if said != (form, size):
        yield f"{where}: {said[0]} on {said[1]} lines, by the rules {form} on {size}"
        return
    if form == "elimination":
        yield from elimination(where, lines, field, rules)
    else:
        spots = {rank: (rank - 1, 0) for rank in range(1, size + 1)}
        yield from seeds_on(where, lines, field.closed(), spots)


def twice(where: str, lines: Lines, known: set[str]) -> Iterator[str]:
    """Nobody stands twice, and only entries of the weight stand there."""
    seen: set[str] = set()
    for entry in flat(lines):
        if entry in seen:
            yield f"{where}: {entry} is on two lines"
        if entry not in known:
            yield f"{where}: {entry} is on a line and not of this weight"
        seen.add(entry)


def flat(lines: Lines) -> list[str]:
    """Everyone on the lines."""
    found: list[str] = []
    for line in lines:
        found += line if isinstance(line, list) else [line] if line is not None else []
    return found


def elimination(where: str, lines: Lines, field: Field, rules: Doc) -> Iterator[str]:
    """Seeds, byes and pigtails of an elimination."""
    size = len(lines)
    yield from counts(where, lines, field)
    order = line_order(rules, size)
    if order is None:
        yield from international(where, lines, field, rules["advancing_byes"] == "best-seeds")
        if rules["advancing_byes"] == "by-lot":
            seeds = set(field.ranks) - {None}
            seeded = {i for i, line in enumerate(lines) if seeds & set(flat([line]))}
            yield from byes_by_lot(where, lines, seeded)
        return
    spots = {rank: (index, 0) for index, rank in enumerate(order)}
    for extra in range(size + 1, field.size + 1):
        spots[extra] = (spots[2 * size + 1 - extra][0], 1)
    if rules["advancing_byes"] == "best-seeds":
        yield from byes_of_best(where, lines, field, spots)
    else:
        seeded = {spots[rank][0] for rank in range(1, len(field.ranks) + 1)}
        yield from byes_by_lot(where, lines, seeded)
        for rank, entry in enumerate(field.ranks, 1):
            line = lines[spots[rank][0]]
            if entry is None and line is not None and field.size <= size:
                yield f"{where}: {line} on the line of scratched seed {rank}, where a bye belongs"
    yield from seeds_on(where, lines, field, spots)


def international(where: str, lines: Lines, field: Field, in_order: bool) -> Iterator[str]:
    """The four best on their lines, the ranks of the lower half from the worst on, top down.

    Byes and pigtails `in_order` of the ranks, else by lot.
    """
    size = len(lines)
    best = {1: 0, 2: size - 1, 3: size // 2, 4: size // 2 - 1}
    yield from seeds_on(where, lines, field, {rank: (line, 0) for rank, line in best.items()})
    for rank in range(size // 2 + 1, max(size, field.size) + 1):
        pair = size - rank if rank <= size else rank - size - 1
        there = [lines[i] for i in (2 * pair, 2 * pair + 1) if i not in best.values()]
        entry = field.ranks[rank - 1] if rank <= len(field.ranks) else None
        empty = rank > field.size or (rank <= len(field.ranks) and entry is None)
        if in_order and empty and rank <= size and None not in there and field.size <= size:
            yield f"{where}: no bye in first-round bout {pair + 1}, where rank {rank} is not taken"
        if entry is not None and entry not in flat(there):
            yield f"{where}: seed {rank} ({entry}) is not in first-round bout {pair + 1}"
        elif entry is not None and rank > size and entry not in lower_halves(there):
            yield f"{where}: seed {rank} ({entry}) is not on the lower half of a pigtail"
        if in_order and rank > size and not any(isinstance(line, list) for line in there):
            yield f"{where}: no pigtail in first-round bout {pair + 1}"


def lower_halves(lines: Lines) -> list[str]:
    """Who stands on the lower half of a line."""
    return [line[1] for line in lines if isinstance(line, list)]


def byes_by_lot(where: str, lines: Lines, seeded: set[int]) -> Iterator[str]:
    """One bye to each first-round bout with a line without a seed before any has two."""
    bouts = [range(top, top + 2) for top in range(0, len(lines), 2)]
    byes = [sum(lines[i] is None for i in bout) for bout in bouts if not seeded.issuperset(bout)]
    if byes and max(byes) == 2 and min(byes) == 0:
        yield f"{where}: two byes in a first-round bout, and none in another"


def byes_of_best(
    where: str, lines: Lines, field: Field, spots: dict[int, tuple[int, int]]
) -> Iterator[str]:
    """The last ranks are byes, and so is a scratched seed's; the ranks beyond are pigtails."""
    holes = {rank for rank, entry in enumerate(field.ranks, 1) if entry is None}
    for rank in range(1, len(lines) + 1):
        line = lines[spots[rank][0]]
        empty = rank > field.size or rank in holes
        extra = 2 * len(lines) + 1 - rank  # the rank that shares the line
        paired = extra <= field.size and extra not in holes
        if empty and line is not None and not paired:
            yield f"{where}: {line} on the line of rank {rank}, where a bye belongs"
        if not empty and line is None:
            yield f"{where}: a bye on the line of rank {rank}, where somebody belongs"
        if paired and not empty and not isinstance(line, list):
            yield f"{where}: no pigtail on the line of rank {rank}"


def counts(where: str, lines: Lines, field: Field) -> Iterator[str]:
    """As many pigtails and entrants as there should be, and no two pigtails in one bout."""
    doubles = [index for index, line in enumerate(lines) if isinstance(line, list)]
    if len(flat(lines)) != field.entrants:
        yield f"{where}: {len(flat(lines))} on the lines, by the rules {field.entrants}"
    beyond = max(field.size - len(lines), 0)
    if len(doubles) > beyond or (None not in field.ranks and len(doubles) < beyond):
        yield f"{where}: {len(doubles)} pigtails, by the rules {beyond}"
    if len({index // 2 for index in doubles}) < len(doubles):
        yield f"{where}: two pigtails in one bout"


def seeds_on(
    where: str, lines: Lines, field: Field, spots: dict[int, tuple[int, int]]
) -> Iterator[str]:
    """Every seed on the line of his rank."""
    for rank, entry in enumerate(field.ranks, 1):
        if entry is None or rank not in spots:
            continue
        index, half = spots[rank]
        line = lines[index]
        there = line[half] if isinstance(line, list) else line  # beside a hole he is alone
        if there != entry:
            yield f"{where}: seed {rank} ({entry}) is not on line {index + 1}, but {there}"
