"""The slots of a bracket before its draw: where seeds stand, what is free, where the byes are.

A line has one slot, or two where a pigtail is wrestled for it. Rank r starts on the line that the
line order gives it; rank lines + j shares the line of rank lines + 1 - j. Seeds hold the slots of
the best ranks and never move.

Byes by lot: every first-round bout that has a line without a seed, and no bye by a scratch, is as
likely as any other to have one of the byes; the bout's line is taken by lot where it has two. A
second bye comes to a bout only when every such bout has one. Pigtails by lot are laid in the same
way, never two in one bout; where there are fewer such bouts than pigtails, they stand by rank.
Source: published (every line the same chance, Kansas 2006-07); the procedure is ours.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from brackets.core.formats import shape
from brackets.core.graph import LineUp
from brackets.core.lines import line_order
from brackets.core.rules import SIZES, BracketRules, Byes
from seeding.core.lot import Lot


@dataclass(frozen=True, slots=True)
class Slot:
    """A place to start from: on `line` (from 0), upper (0) or lower (1) `half` of it.

    `held`: the seed's entry, None where the slot is free.
    """

    line: int
    half: int
    rank: int
    held: str | None


@dataclass(frozen=True, slots=True)
class Slots:
    """All slots of a bracket of so many lines, top to bottom; a line without any is a bye."""

    lines: int
    slots: tuple[Slot, ...]

    @property
    def free(self) -> tuple[Slot, ...]:
        """The slots without a seed, top to bottom."""
        return tuple(slot for slot in self.slots if slot.held is None)

    def line_up(self, drawn: Mapping[Slot, str]) -> LineUp:
        """The line-up once every free slot has its entry."""
        there: list[list[str]] = [[] for _ in range(self.lines)]
        for slot in self.slots:
            there[slot.line].append(drawn[slot] if slot.held is None else slot.held)
        return tuple(_line(held) for held in there)


def _line(held: Sequence[str]) -> str | tuple[str, str] | None:
    if len(held) > 1:
        return held[0], held[1]
    return held[0] if held else None


def slots(seeded: Sequence[str | None], others: int, rules: BracketRules, lot: Lot) -> Slots:
    """The slots for the seeds in their order (None: a scratched seed's rank, a bye) and the rest.

    The lot is asked only where the rule book gives byes by lot: once for the order of the bouts
    (shuffled from the top of the bracket), then for one line in each that is taken.
    Refuses a field that has no bracket.
    """
    lines = shape(len(seeded) + others, replace(rules, always_lines=SIZES[0])).lines
    order = line_order(lines, rules)
    ranks: Collection[int] = range(1, len(seeded) + others + 1)
    if rules.advancing_byes is Byes.BY_LOT:
        ranks = _by_lot(_Field(seeded, order), others, lot) or ranks
    found = []
    for line, rank in enumerate(order):
        for half, one in enumerate((rank, 2 * lines + 1 - rank)):
            held = seeded[one - 1] if one <= len(seeded) else None
            if one in ranks and (held is not None or one > len(seeded)):
                found.append(Slot(line, half, one, held))
    return Slots(lines, tuple(found))


@dataclass(frozen=True, slots=True)
class _Field:
    """The seeds, and the rank of each line."""

    seeded: Sequence[str | None]
    order: tuple[int, ...]

    def open(self) -> list[int]:
        return [line for line, rank in enumerate(self.order) if rank > len(self.seeded)]

    def scratched(self) -> set[int]:
        """The lines whose seed was scratched."""
        return {
            line
            for line, rank in enumerate(self.order)
            if rank <= len(self.seeded) and self.seeded[rank - 1] is None
        }

    def shared(self) -> set[int]:
        """The lines that a seed beyond the lines wrestles a pigtail for."""
        last = 2 * len(self.order) + 1
        return {line for line, rank in enumerate(self.order) if last - rank <= len(self.seeded)}

    def second(self, line: int) -> int:
        return 2 * len(self.order) + 1 - self.order[line]


def _by_lot(field: _Field, others: int, lot: Lot) -> set[int]:
    """The ranks that have a slot; empty where pigtails have to stand by rank."""
    lines = field.open()
    ranks = {*range(1, len(field.seeded) + 1), *(field.order[line] for line in lines)}
    if others <= len(lines):
        byes = _chosen(lot, lines, len(lines) - others, field.scratched())
        return ranks - {field.order[line] for line in byes}
    bouts = {line // 2 for line in lines} - {line // 2 for line in field.shared()}
    if others - len(lines) > len(bouts):
        return set()
    pigtails = _chosen(lot, lines, others - len(lines), field.shared())
    return ranks | {field.second(line) for line in pigtails}


def _chosen(lot: Lot, lines: Sequence[int], count: int, taken: Collection[int]) -> set[int]:
    """So many of the lines by lot, in bouts of their own without a taken line as far as they go."""
    bouts: dict[int, list[int]] = {}
    for line in lines:
        bouts.setdefault(line // 2, []).append(line)
    fresh = lot.shuffled(sorted(set(bouts) - {line // 2 for line in taken}))
    chosen = {bouts[bout][lot.below(len(bouts[bout]))] for bout in fresh[:count]}
    rest = lot.shuffled([line for line in lines if line not in chosen])
    return chosen | set(rest[: count - len(chosen)])
