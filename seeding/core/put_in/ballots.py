"""One voter's ballot: ranks 1, 2, ... each once, wrestlers of his own team left out.

Published: every coach ranks all but his own wrestlers (association page, section votes).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from seeding.core.put_in.field import Entered


@dataclass(frozen=True, slots=True)
class Voted:
    """A ballot of one weight; `team` is the key of the voter's team, empty for none.

    `ranks` by entry's key; 1 is best.
    """

    weight: str
    voter: str
    team: str
    ranks: Mapping[str, int]


def ballot_problems(
    ranks: Mapping[str, int], entries: Mapping[str, Entered], own: frozenset[str]
) -> Iterator[tuple[str, str]]:
    """What is wrong with a ballot, as (entry's key, message); `own` are the voter's wrestlers."""
    held: dict[int, str] = {}
    for key, rank in sorted(ranks.items(), key=lambda one: (one[1], one[0])):
        name = entries[key].name
        if key in own:
            yield key, f"{name} is of the voter's own team; leave him out"
        elif rank in held:
            yield key, f"rank {rank} is given to {entries[held[rank]].name} already"
        elif rank != len(held) + 1:
            yield key, f"rank {len(held) + 1} is missing before rank {rank}"
            return
        else:
            held[rank] = key
