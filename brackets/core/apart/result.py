"""What a draw comes to: the lines, what it cost, and how near that is to the least."""

from dataclasses import dataclass

from brackets.core.rules import Apart
from brackets.core.sources import LineUp


@dataclass(frozen=True, slots=True)
class Kept:
    """How well a criterion was kept.

    `pairs`: how many pairs can meet first in the pigtail, the first round ... the semifinal; of
    two pools in their pool, in a semifinal.
    `bound`: the same, so good that no draw betters it (where the criteria before it are at their
    bounds): the first place in which two such lists differ decides, the smaller number is better.
    """

    criterion: Apart
    pairs: tuple[int, ...]
    bound: tuple[int, ...]

    @property
    def certified(self) -> bool:
        """Whether no draw is better."""
        return self.pairs == self.bound


@dataclass(frozen=True, slots=True)
class Draw:
    """A drawn field.

    `kept` by criterion, empty in a round robin. `patterns`: how many equally good
    ways there were to give the free slots to the teams, or whatever groups the first criterion
    makes; 0 where they were not counted.
    """

    lines: LineUp
    kept: tuple[Kept, ...]
    patterns: int
    version: int

    @property
    def certified(self) -> bool:
        """Whether it is proven that no draw is better under the criteria in their order."""
        return all(kept.certified for kept in self.kept)

    @property
    def record(self) -> dict[str, object]:
        """What is kept of it, as JSON holds it; `patterns` as text, because it can be huge."""
        kept = [
            {"criterion": str(one.criterion), "pairs": list(one.pairs), "bound": list(one.bound)}
            for one in self.kept
        ]
        return {"kept": kept, "patterns": str(self.patterns)}
