"""An order of all wrestlers that goes against as few beats as possible."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import islice
from math import prod

import networkx as nx
import numpy as np

from seeding.core.circles import Beat
from seeding.core.violations.bounds import Whole
from seeding.core.violations.component import solve
from seeding.core.violations.counting import Orders, only
from seeding.core.violations.found import SHOWN, FewestViolations, Part


@dataclass(frozen=True, slots=True)
class _Component:
    """Members of one strongly connected component, as numbers in the order of `prefer`."""

    members: tuple[int, ...]
    bound: int
    orders: Orders


def fewest_violations(
    nodes: Iterable[str], beats: Iterable[Beat], prefer: Sequence[str]
) -> FewestViolations:
    """See `seeding.core.violations.fewest_violations`."""
    known = sorted(beats)
    weights = _weights(sorted(nodes), known, prefer)
    components = _components(weights)
    order = tuple(prefer[number] for number in _merged(components, weights))
    place = {wrestler: at for at, wrestler in enumerate(order)}
    counts = [component.orders.count for component in components]
    counted = [count for count in counts if count is not None]
    return FewestViolations(
        order=order,
        violated=tuple(beat for beat in known if place[beat.worse] < place[beat.better]),
        bound=sum(component.bound for component in components),
        count=prod(counted) if len(counted) == len(counts) else None,
        parts=_parts(components, prefer, order),
    )


def _weights(nodes: Sequence[str], beats: Sequence[Beat], prefer: Sequence[str]) -> Whole:
    """How many beats each has over each, in the order of `prefer`."""
    if sorted(prefer) != [*nodes] or len(set(nodes)) < len(nodes):
        raise ValueError("The preference has to name every wrestler once, and nobody else.")
    number = {wrestler: at for at, wrestler in enumerate(prefer)}
    weights = np.zeros((len(number), len(number)), np.int64)
    for beat in beats:
        if not {beat.better, beat.worse} <= number.keys():
            raise ValueError(f"{beat.better!r} over {beat.worse!r}: not both are to be ordered.")
        weights[number[beat.better], number[beat.worse]] += 1
    return weights


def _components(weights: Whole) -> list[_Component]:
    graph = nx.from_numpy_array(weights, create_using=nx.DiGraph)
    parts = sorted(tuple(sorted(part)) for part in nx.strongly_connected_components(graph))
    return [_component(part, weights[np.ix_(part, part)]) for part in parts]


def _component(members: tuple[int, ...], weights: Whole) -> _Component:
    if len(members) == 1:
        return _Component(members, 0, only((0,), 1))
    # Of beats both ways the fewer are violated anyhow, or as many.
    anyhow = int(np.minimum(weights, weights.T).sum()) // 2
    solved = solve(np.maximum(weights - weights.T, 0))
    return _Component(members, anyhow + solved.bound, solved.orders)


def _merged(components: Sequence[_Component], weights: Whole) -> list[int]:
    """Place by place the most preferred whom his component lets stand next, and nobody outside."""
    home = np.zeros(len(weights), np.int64)
    for at, component in enumerate(components):
        home[list(component.members)] = at
    held = (weights > 0) & (home[:, None] != home)
    placed = [0] * len(components)
    order: list[int] = []
    for _ in range(len(weights)):
        free = [
            (component.members[own], at, own)
            for at, component in enumerate(components)
            if len(component.members) > placed[at].bit_count()
            for own in component.orders.next(placed[at])
            if not held[:, component.members[own]].any()
        ]
        number, at, own = min(free)
        placed[at] = components[at].orders.with_one_more(placed[at], own)
        held[number] = False
        order.append(number)
    return order


def _parts(
    components: Sequence[_Component], prefer: Sequence[str], order: Sequence[str]
) -> tuple[Part, ...]:
    """The components of two or more, as they come in the order."""
    found = []
    for component in components:
        if len(component.members) > 1:
            names = [prefer[number] for number in component.members]
            own = {*names}
            alternatives = islice(component.orders.each(), SHOWN)
            found.append(
                Part(
                    wrestlers=tuple(wrestler for wrestler in order if wrestler in own),
                    count=component.orders.count,
                    alternatives=tuple(tuple(names[at] for at in each) for each in alternatives),
                    agreed=frozenset((names[a], names[b]) for a, b in component.orders.agreed),
                )
            )
    return tuple(sorted(found, key=lambda part: order.index(part.wrestlers[0])))
