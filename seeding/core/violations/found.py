"""What is found out about an order of fewest violations; light, so that pages may name it."""

from dataclasses import dataclass

from seeding.core.circles import Beat

SHOWN = 6


@dataclass(frozen=True, slots=True)
class Part:
    """Two or more wrestlers who all stand over each other, directly or through others.

    `wrestlers`: in the order chosen. `count`: how many orders of them are equally good, None
    where that is not known. `alternatives`: the first of those orders, at most SHOWN, as
    `prefer` sorts them. `agreed`: the pairs, above and below, on which all of them agree; none
    where they are not counted.
    """

    wrestlers: tuple[str, ...]
    count: int | None
    alternatives: tuple[tuple[str, ...], ...]
    agreed: frozenset[tuple[str, str]]

    @property
    def tied(self) -> tuple[tuple[str, ...], ...]:
        """Runs of neighbours whose order among themselves is open, while all agree on the rest."""
        runs: list[list[str]] = []
        for place, wrestler in enumerate(self.wrestlers):
            above, below = self.wrestlers[:place], self.wrestlers[place:]
            if all((over, under) in self.agreed for over in above for under in below):
                runs.append([])
            runs[-1].append(wrestler)
        return tuple(tuple(run) for run in runs if len(run) > 1)


@dataclass(frozen=True, slots=True)
class FewestViolations:
    """An order, best first, and what is known about it.

    `violated`: the beats whose worse one stands above the better. `bound`: no order violates
    fewer. `count`: how many orders violate as few, the product over the `parts`: wrestlers of
    different parts whom no beat binds could change places too, and are not counted. None where a
    part is not counted.
    """

    order: tuple[str, ...]
    violated: tuple[Beat, ...]
    bound: int
    count: int | None
    parts: tuple[Part, ...]

    @property
    def gap(self) -> int:
        return len(self.violated) - self.bound

    @property
    def proven(self) -> bool:
        return self.gap == 0
