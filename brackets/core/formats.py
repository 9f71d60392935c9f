"""The formats: which one a field takes, and its bracket.

How it is made. A format plans its rounds and the sources of their bouts (`pools`, `elimination`,
`repechage`; common parts in `plan`), `assembly` makes the graph of them and holds it to the `laws`.
Every format is the same kind of thing, so whatever reads a bracket reads all of them:

* A side of a bout comes from a line, the winner or loser of a bout, whom somebody beat (`Beaten`)
  or who has a rank in a pool (`Ranked`); the last two are known only from what happened.
* A round says what its bouts decide (`places`, `loser_place`) and whether they may turn out not to
  be needed (`needed`). Who is not led on goes out with the place that is said there, or without.
* A round has a time, by which rounds of all formats are put in order and numbered.

Which field takes what: 2 a bout or a best of three; to 5 a round robin; 6 and 7 two pools where
the rule book has them; others an elimination on 8, 16, ..., 256 lines, with byes or pigtails.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from brackets.core.assembly import Design, assemble
from brackets.core.elimination import (
    Task,
    championship_round,
    plan_championship,
    plan_everyone,
    plan_places,
    plan_thirds,
    plan_title,
)
from brackets.core.errors import (
    FieldSizeNotOffered,
    LineUpInvalid,
    PlacesNotOffered,
    PlacesNotWrestled,
)
from brackets.core.graph import Bracket
from brackets.core.latest import exchanges
from brackets.core.plan import Plan, true_place
from brackets.core.pools import (
    POOL_ORDER,
    Grouped,
    plan_best_of_three,
    plan_round_robin,
    plan_two_pools,
)
from brackets.core.repechage import (
    plan_finalists,
    plan_follow_the_leader,
    plan_quarterfinal_winners,
)
from brackets.core.rules import PLACES, SIZES, BracketRules, OfTwo, Wrestleback, most_places
from brackets.core.sources import Format, LineUp

__all__ = [
    "POOL_ORDER",
    "Shape",
    "build",
    "championship_round",
    "shape",
    "without_true_places",
]


@dataclass(frozen=True, slots=True)
class Shape:
    """What a field of some size takes: the format, its lines, and how many pigtails."""

    format: Format
    lines: int
    pigtails: int = 0


def shape(entrants: int, rules: BracketRules) -> Shape:
    """The format for a number of entrants.

    Few wrestle a round robin or in pools. Others take the smallest bracket of 8, 16, ..., 256
    lines that holds them, or the next smaller one when no more entrants than `pigtails_up_to` (and
    than it has first-round bouts) are beyond it. Refuses fewer than 2 and more than the largest
    holds.
    """
    if not rules.always_lines and entrants >= 2:
        if entrants == 2 and rules.of_two is OfTwo.BEST_OF_THREE:
            return Shape(Format.BEST_OF_THREE, entrants)
        if entrants <= rules.round_robin_up_to:
            return Shape(Format.ROUND_ROBIN, entrants)
        if entrants in rules.two_pools:
            return Shape(Format.TWO_POOLS, entrants)
    for lines in SIZES if entrants >= 2 else ():
        beyond = max(0, entrants - lines)
        if beyond <= min(rules.pigtails_up_to, lines // 2):
            return Shape(Format.ELIMINATION, lines, beyond)
    raise FieldSizeNotOffered(
        entrants=entrants, most=SIZES[-1] + min(rules.pigtails_up_to, SIZES[-1] // 2)
    )


def build(lines: LineUp, rules: BracketRules, places: int) -> Bracket:
    """The bracket of a line-up: 2 to 5 lines a round robin (2 perhaps a best of three), 6 and 7
    two pools where the rule book has them, 8 to 256 an elimination.

    `places` is one of `PLACES`; no more can be taken than there are entrants. The shape is worked
    out once per pattern of byes and pigtails and kept; a second bracket of the same pattern is
    cheap. Refuses what is no line-up, naming the fault, and more places than the format gives.
    Every law of `laws.check` holds.
    """
    if places not in PLACES:
        raise PlacesNotOffered(places=places, offered=", ".join(map(str, PLACES)))
    _check_line_up(lines, (*POOL_ORDER, *rules.two_pools, *SIZES))
    pattern = tuple(None if one is None else isinstance(one, tuple) for one in lines)
    return replace(_skeleton(pattern, rules, places), lines=lines)


def without_true_places(built: Bracket, rules: BracketRules) -> Bracket:
    """The same bracket as if no place were challenged: what placement points go by where true
    placement does not score. Every other bout keeps its key."""
    plain = replace(rules, true_places=())
    asked = min(place for place in PLACES if place >= built.places)
    return build(built.lines, plain, asked)


def _check_line_up(lines: LineUp, sizes: tuple[int, ...]) -> None:
    entries = [
        one for line in lines if line for one in (line if isinstance(line, tuple) else (line,))
    ]
    problem = ""
    if len(lines) not in sizes:
        problem = f"{len(lines)} lines are none of {', '.join(map(str, sizes))}"
    elif len(entries) < 2:
        problem = "it needs two entries at least"
    elif len(set(entries)) < len(entries):
        twice = sorted({one for one in entries if entries.count(one) > 1})
        problem = f"{', '.join(twice)} stands on more than one line"
    elif len(lines) < SIZES[0] and (len(entries) != len(lines) or None in lines):
        problem = "a round robin has neither byes nor pigtails"
    elif any(isinstance(a, tuple) and isinstance(b, tuple) for a, b in _pairs(lines)):
        problem = "one first-round bout waits for two pigtails"
    if problem:
        raise LineUpInvalid(problem=problem)


def _pairs(lines: LineUp) -> Iterator[tuple[object, object]]:
    return zip(lines[::2], lines[1::2], strict=False)


@lru_cache(maxsize=512)
def _skeleton(pattern: tuple[bool | None, ...], rules: BracketRules, places: int) -> Bracket:
    lines: LineUp = tuple(
        None if one is None else (f"{i}a", f"{i}b") if one else str(i)
        for i, one in enumerate(pattern, start=1)
    )
    entrants = sum(1 if one is False else 2 for one in pattern if one is not None)
    reached = min(places, entrants)
    challenged = _challenged(len(lines), rules, reached)
    depth = min(entrants, max([reached, *(place + 1 for place in challenged)]))
    if len(lines) < SIZES[0]:
        form, made = _small(len(lines), rules, depth)
    else:
        form, made = Format.ELIMINATION, Grouped(_elimination(lines, rules, reached, depth), ())
    _add_true_places(made.plan, challenged)
    design = Design(
        made.plan.running(), made.plan.sources, rules.wrestleback, made.pools, made.rank_places
    )
    return assemble(form, lines, reached, design)


def _small(entrants: int, rules: BracketRules, depth: int) -> tuple[Format, Grouped]:
    if entrants > max(POOL_ORDER):
        return Format.TWO_POOLS, plan_two_pools(entrants, depth)
    if entrants == 2 and rules.of_two is OfTwo.BEST_OF_THREE:
        return Format.BEST_OF_THREE, plan_best_of_three()
    return Format.ROUND_ROBIN, plan_round_robin(entrants)


def _elimination(lines: LineUp, rules: BracketRules, reached: int, depth: int) -> Plan:
    most = most_places(rules, len(lines))
    if reached > most:
        raise PlacesNotWrestled(
            lines=len(lines), wrestleback=rules.wrestleback, most=most, places=reached
        )
    size = rules.size(len(lines))
    task = Task(
        lines=lines,
        wrestleback=rules.wrestleback,
        thirds=rules.thirds,
        crossings=exchanges(size),
        partner=size.pigtail,
        depth=min(depth, most),
    )
    plan = Plan()
    plan_championship(plan, task)
    WAYS_BACK[task.wrestleback](plan, task)
    return plan


def _plan_everyone(plan: Plan, task: Task) -> None:
    plan_everyone(plan, task)
    plan_places(plan, task, f"C{2 * task.last - 4}", f"C{2 * task.last - 5}")


def _plan_to_fifth(plan: Plan, task: Task) -> None:
    plan_everyone(plan, task)
    plan_thirds(plan, task)
    plan_places(plan, task, "", f"C{2 * task.last - 5}")


def _plan_double(plan: Plan, task: Task) -> None:
    task = replace(task, depth=max(task.depth, 3))
    _plan_everyone(plan, task)
    plan_title(plan, task)


WAYS_BACK: Mapping[Wrestleback, Callable[[Plan, Task], None]] = {
    Wrestleback.EVERYONE: _plan_everyone,
    Wrestleback.TO_FIFTH: _plan_to_fifth,
    Wrestleback.QUARTERFINAL_WINNERS: plan_quarterfinal_winners,
    Wrestleback.FOLLOW_THE_LEADER: plan_follow_the_leader,
    Wrestleback.FINALISTS: plan_finalists,
    Wrestleback.NOBODY: plan_thirds,
    Wrestleback.DOUBLE_ELIMINATION: _plan_double,
}
"""The consolation side and the bouts for places of each."""


def _challenged(lines: int, rules: BracketRules, reached: int) -> list[int]:
    """The places whose holders may be challenged: none where the unbeaten must be beaten twice."""
    if lines >= SIZES[0] and rules.wrestleback is Wrestleback.DOUBLE_ELIMINATION:
        return []
    return [place for place in rules.true_places if place <= reached]


def _add_true_places(plan: Plan, challenged: Iterable[int]) -> None:
    """The challenges of these places, where both bouts that they hang on are there, once."""
    for place in challenged:
        ends = {one.places: one.code for one in plan.rounds.values()}
        above, below = ends.get((place - 1, place)), ends.get((place + 1, place + 2))
        if above and below:
            (holder,), (challenger,) = plan.losers(above), plan.winners(below)
            plan.add(true_place(place), [(holder, challenger)])
