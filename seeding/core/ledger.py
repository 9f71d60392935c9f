"""Records: a wrestler's bouts won and lost, by one way of counting."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import networkx as nx

from seeding.core.season import Counted, PriorBout, ResultKind, Season, by_date


@dataclass(frozen=True, slots=True)
class Record:
    """Bouts won and lost; a bout can be a win for one without being a loss for the other."""

    won: tuple[PriorBout, ...]
    lost: tuple[PriorBout, ...]

    def __str__(self) -> str:
        return f"{len(self.won)}-{len(self.lost)}"

    def __len__(self) -> int:
        return len(self.won) + len(self.lost)


class MedicalForfeits(StrEnum):
    """How many medical forfeits at one event are losses, where they count as losses.

    first-of-an-event: one, and none where he lost there by injury default, which is the loss.
    """

    EVERY = "every"
    FIRST = "first-of-an-event"


class Records:
    """Everybody's record by one way of counting, each looked up once."""

    def __init__(self, won: "nx.MultiDiGraph[str]", lost: "nx.MultiDiGraph[str]") -> None:
        self._won, self._lost = won, lost
        self._found: dict[str, Record] = {}

    def of(self, wrestler: str) -> Record:
        if wrestler not in self._found:
            won = _bouts(self._won.out_edges([wrestler], data="bout"))
            lost = _bouts(self._lost.in_edges([wrestler], data="bout"))
            self._found[wrestler] = Record(won, lost)
        return self._found[wrestler]

    def counts(self, wrestler: str, without: str) -> tuple[int, int]:
        """Bouts won and lost against others than `without`."""
        record = self.of(wrestler)
        won = self._won.number_of_edges(wrestler, without)
        lost = self._lost.number_of_edges(without, wrestler)
        return len(record.won) - won, len(record.lost) - lost


@dataclass(frozen=True, slots=True)
class Ledger:
    """How a record is kept: what counts as a win, and what as a loss."""

    win: Counted
    loss: Counted
    medical: MedicalForfeits = MedicalForfeits.EVERY

    def records(self, season: Season) -> Records:
        return season.once(self, lambda: Records(season.graph(self.win), self._losses(season)))

    def _losses(self, season: Season) -> "nx.MultiDiGraph[str]":
        graph = season.graph(self.loss)
        if self.medical is MedicalForfeits.EVERY:
            return graph
        hurt = {(bout.event, bout.loser) for bout in season.bouts if bout.kind == ResultKind.INJURY}
        kept: nx.MultiDiGraph[str] = nx.MultiDiGraph()
        kept.add_nodes_from(graph)
        for bout in _bouts(graph.edges(data="bout")):
            medical = bout.kind == ResultKind.MEDICAL
            if not (medical and (bout.event, bout.loser) in hurt):
                kept.add_edge(bout.winner, bout.loser, bout=bout)
            if medical:
                hurt.add((bout.event, bout.loser))
        return kept


def _bouts(edges: Iterable[tuple[str, str, PriorBout]]) -> tuple[PriorBout, ...]:
    return tuple(sorted((bout for _, _, bout in edges), key=by_date))
