"""What the head table has to do next, in the order of the day."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Count, Q

from brackets.core.standing import Status
from brackets.queries.stages import Stage, stages
from results.models import Result, Withdrawal
from seeding.entries.models import Tournament

GATES = ("entries", "seeds", "draw", "results", "team_points")


@dataclass(frozen=True, slots=True)
class Counts:
    """Bouts by where they stand, results by their state, entries that are out."""

    bouts: int
    ready: int
    waiting: int
    decided: int
    entered: int
    confirmed: int
    official: int
    out: int

    @property
    def over(self) -> bool:
        return bool(self.bouts) and not self.ready and not self.waiting

    @property
    def unofficial(self) -> int:
        return self.entered + self.confirmed


@dataclass(frozen=True, slots=True)
class Overview:
    """A tournament on its way from the first entry to the last official result."""

    stages: tuple[Stage, ...]
    counts: Counts
    closed: tuple[str, ...]

    @property
    def entered(self) -> int:
        return sum(one.entered for one in self.stages)

    @property
    def empty(self) -> list[Stage]:
        """Weights that cannot be drawn yet for want of entries."""
        return [one for one in self.stages if one.entered < 2 and not (one.drawn or one.waits)]

    @property
    def ungrouped(self) -> int:
        """How many wait to be grouped."""
        return sum(one.entered for one in self.stages if one.waits)

    @property
    def unseeded(self) -> list[Stage]:
        return [
            one
            for one in self.stages
            if one.entered > 1 and not (one.seeded or one.drawn or one.waits)
        ]

    @property
    def undrawn(self) -> list[Stage]:
        return [one for one in self.stages if one.shape and not one.drawn]

    @property
    def unnumbered(self) -> int:
        return sum(one.unnumbered for one in self.stages)

    @property
    def next(self) -> str:
        """The step that the day waits for."""
        todo = {
            "weights": not self.stages,
            "entries": not any(one.shape for one in self.stages),
            "seeds": bool(self.unseeded),
            "draw": bool(self.undrawn),
            "numbers": bool(self.unnumbered),
            "bouts": bool(self.counts.ready or self.counts.waiting),
            "official": bool(self.counts.unofficial),
        }
        return next((step for step, waits in todo.items() if waits), "over")


def overview(tournament: Tournament) -> Overview:
    """Six queries, whatever the size of the tournament."""
    found = tuple(stages(tournament))
    return Overview(
        stages=found,
        counts=_counts(tournament, found),
        closed=tuple(kind for kind in GATES if not getattr(tournament, f"shows_{kind}")),
    )


def _counts(tournament: Tournament, found: Iterable[Stage]) -> Counts:
    by_status = {
        status.value: sum(one.at(status) for one in found)
        for status in (Status.READY, Status.WAITING, Status.DECIDED)
    }
    told = Result.objects.filter(bout__drawn__weight_class__tournament=tournament)
    by_state = told.aggregate(
        **{state: Count("pk", filter=Q(state=state)) for state in Result.State.values}
    )
    out = Withdrawal.objects.filter(entry__tournament=tournament).count()
    return Counts(bouts=sum(by_status.values()), out=out, **by_status, **by_state)
