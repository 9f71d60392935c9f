"""The laws' generators: fields, rule books, and the stories that tournaments tell."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from random import Random

from hypothesis import strategies as st

from brackets.core.formats import build
from brackets.core.graph import BoutKey, Bracket, Pool
from brackets.core.progress import Standing, Status, Verdict, play
from brackets.core.rules import PLACES, SIZES, BracketRules, Wrestleback, most_places
from tests.brackets.core.books import line_up, rules


@dataclass
class Story:
    """A weight from its draw to its end.

    `steps` are the moments of the day: the verdicts so far, who was out by then, the standing.
    """

    bracket: Bracket
    rules: BracketRules
    verdicts: dict[BoutKey, Verdict] = field(default_factory=dict)
    out: dict[str, BoutKey | None] = field(default_factory=dict)
    vacating: frozenset[str] = frozenset()
    pool_order: list[list[str]] | None = None
    steps: list[Standing] = field(default_factory=list)

    def stand(self) -> Standing:
        return play(
            self.bracket,
            self.verdicts,
            self.rules,
            out=self.out,
            vacating=self.vacating,
            pool_order=self.pool_order,
        )

    @property
    def end(self) -> Standing:
        return self.steps[-1]


def bracket_rules() -> st.SearchStrategy[BracketRules]:
    """Rule books of every switch; often the usual ones, half of them without round robins."""
    usual: st.SearchStrategy[dict[str, object]] = st.just({})
    backs = st.sampled_from([str(one) for one in Wrestleback])
    formats = st.fixed_dictionaries(
        {
            "wrestleback": backs,
            "thirds": st.sampled_from(["wrestled", "two"]),
            "two_pools": st.sampled_from([[], [6, 7]]),
            "of_two": st.sampled_from(["one-bout", "best-of-three"]),
            "true_places": st.sampled_from([[], [2], [2, 4, 6]]),
        }
    )
    small = st.fixed_dictionaries(
        {
            "round_robin_up_to": st.sampled_from([0, 5]),
            "pigtails_up_to": st.sampled_from([0, 1, 4]),
            "double_loss": st.sampled_from(["out", "drop"]),
            "open_place": st.sampled_from(["open", "shared", "moved-up"]),
        }
    )
    both = st.tuples(small, st.one_of(usual, formats, formats))
    return both.map(lambda parts: rules(**parts[0], **parts[1]))


def fields() -> st.SearchStrategy[int]:
    """How many entrants: any number to 128, small ones and the edges of a size more often."""
    edges = st.sampled_from([8, 9, 16, 17, 32, 33, 64, 65, 128])
    return st.one_of(st.integers(2, 12), st.integers(2, 24), edges, st.integers(2, 128))


def brackets(used: BracketRules) -> st.SearchStrategy[Bracket]:
    """A drawn weight of any size, with as many places as its format gives."""
    return st.builds(lambda n, places: drawn(n, places, used), fields(), st.sampled_from(PLACES))


def drawn(entrants: int, places: int, used: BracketRules) -> Bracket:
    """The bracket to these places, or to the most that the format gives."""
    lines = line_up(entrants, used)
    most = most_places(used, len(lines)) if len(lines) >= SIZES[0] else places
    return build(lines, used, min(places, most))


@st.composite
def stories(draw: st.DrawFn, *, accidents: bool = True) -> Story:
    """A weight wrestled to its end in waves of results.

    With `accidents` some bouts have no winner, some entries leave, some may not place.
    """
    used = draw(bracket_rules())
    story = Story(draw(brackets(used)), used)
    chance = Random(draw(st.integers(0, 2**32)))
    often = draw(st.sampled_from([0.02, 0.1, 0.4])) if accidents else 0.0
    if accidents:
        entries = list(story.bracket.entries())
        story.vacating = frozenset(one for one in entries if chance.random() < often / 4)
    _tell(story, chance, often)
    return story


def told(story: Story, seed: int) -> Story:
    """A weight wrestled to its end without accidents."""
    _tell(story, Random(seed), 0.0)
    return story


def _tell(story: Story, chance: Random, often: float) -> None:
    story.steps.append(story.stand())
    while ready := [key for key, state in story.end.bouts.items() if state.status is Status.READY]:
        for key in chance.sample(ready, chance.randint(1, len(ready))):
            nobody = chance.random() < often
            story.verdicts[key] = Verdict(None if nobody else 1 if chance.random() < 0.4 else 0)
        if chance.random() < often:
            leaver = chance.choice(list(story.bracket.entries()))
            story.out.setdefault(leaver, story.end.behind(leaver))
        story.steps.append(story.stand())
        if story.bracket.pools and not story.pool_order and _pools_over(story):
            story.pool_order = by_wins(story.bracket, story.end)
            story.steps.append(story.stand())


def _pools_over(story: Story) -> bool:
    over = (Status.DECIDED, Status.SPARED)
    keys = [key for pool in story.bracket.pools for key in pool.bouts]
    return all(story.end.bouts[key].status in over for key in keys)


def by_wins(built: Bracket, standing: Standing) -> list[list[str]]:
    """The ranking of every pool by wins alone, pool after pool."""
    return [group for pool in built.pools for group in _pool_by_wins(built, standing, pool)]


def _pool_by_wins(built: Bracket, standing: Standing, pool: Pool) -> Iterator[list[str]]:
    states = [standing.bouts[key] for key in pool.bouts]
    wins = {entry: sum(state.winner == entry for state in states) for entry in built.members(pool)}
    for count in sorted(set(wins.values()), reverse=True):
        yield sorted(entry for entry, won in wins.items() if won == count)


def retold(story: Story, chance: Random) -> Standing:
    """The end of the same story when independent bouts are entered in another order.

    One verdict at a time, any that is ready; somebody is out once his own verdicts are in.
    """
    again = Story(story.bracket, story.rules, vacating=story.vacating, pool_order=story.pool_order)
    left = dict(story.verdicts)
    while True:
        waiting = {side for key in left for side in story.end.bouts[key].sides}
        again.out = {one: last for one, last in story.out.items() if one not in waiting}
        bouts = again.stand().bouts
        ready = [key for key in left if bouts[key].status is Status.READY]
        if not ready:
            break
        key = chance.choice(ready)
        again.verdicts[key] = left.pop(key)
    assert not left
    return again.stand()
