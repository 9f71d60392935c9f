"""How each place of a ladder was filled, and so why one stands above another."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from seeding.core.circle_policies import Policy
from seeding.core.circles import Circle
from seeding.core.pairs import Key, Pair, key
from seeding.core.reasons import Before, Reason, Step, between, by_seconds
from seeding.core.season import PriorBout
from seeding.core.ties import Seconds
from seeding.core.verdict import Sentence
from seeding.core.walks import beat, in_words, own_bouts, round_through


@dataclass(frozen=True, slots=True)
class Level:
    """A group out of which a place was filled: level, or in circles that a `policy` settled.

    `scores`: what the criteria of `seconds` gave each. `words`: what the policy did.
    """

    members: tuple[str, ...]
    scores: Mapping[str, tuple[Fraction, ...]]
    seconds: Seconds
    policy: Policy | None = None
    circles: tuple[Circle, ...] = ()
    words: tuple[Sentence, ...] = ()


@dataclass(frozen=True, slots=True)
class Rung:
    """One step of the ladder.

    `levels`: the groups that were looked at, the widest first. `among`: those who were in the race
    at the end: all who were left, or those of a circle who went back to the first criterion.
    `over`: for each who was left and had somebody over him, one of those, if possible of `among`.
    """

    placed: tuple[str, ...]
    levels: tuple[Level, ...]
    among: frozenset[str]
    over: Mapping[str, str]

    def level(self, above: str, below: str) -> Level | None:
        """The narrowest group of which both were."""
        both = [one for one in self.levels if {above, below} <= set(one.members)]
        return both[-1] if both else None

    def back(self, above: str, below: str) -> tuple[Sentence, ...]:
        """What is said of two who were in a circle and went back to the first criterion."""
        level = self.level(above, below)
        if level is None or not {above, below} <= self.among < set(level.members):
            return ()
        template = "{above} and {below} are level in this, and go back to the first criterion."
        return (*level.words, Sentence.of(template, {"above": above, "below": below}))


def over(left: Iterable[str], pairs: Mapping[Key, Pair]) -> dict[str, str]:
    """For each who has somebody over him, the first such by id."""
    found: dict[str, str] = {}
    for two, pair in pairs.items():
        if pair.better is not None:
            worse = two[two[0] == pair.better]
            found[worse] = min(pair.better, found.get(worse, pair.better))
    return {name: found[name] for name in left if name in found}


@dataclass(frozen=True, slots=True)
class ByLadder:
    """Explains any two of a ladder."""

    pairs: Mapping[Key, Pair]
    rungs: tuple[Rung, ...]

    def reason(self, above: str, below: str) -> Reason:
        """The reason for `above` over `below`, in this direction."""
        pair = self.pairs[key(above, below)]
        rung = next(one for one in self.rungs if {above, below} & set(one.placed))
        level, back = rung.level(above, below), rung.back(above, below)
        if level is not None and not back:
            return _of_level(above, below, level, pair)
        words, bouts = (*back, *between(pair, above, below)), _bouts(pair)
        if pair.better == above and pair.deciding is not None:
            name = pair.deciding.criterion
            return Reason(above, below, Step.CRITERIA, name, (), pair.verdicts, words, bouts)
        words = (*words, _still(above, below, rung))
        return Reason(above, below, Step.CRITERIA, "ladder", (), pair.verdicts, words, bouts)


def _bouts(pair: Pair) -> tuple[PriorBout, ...]:
    return pair.deciding.bouts if pair.deciding is not None else ()


def _of_level(above: str, below: str, level: Level, pair: Pair) -> Reason:
    """Two of a group out of which the place of the upper one was filled."""
    words = (*_said(pair, above, below, level.circles), *level.words)
    if level.policy is Policy.FEWEST:
        return Reason(above, below, Step.CIRCLE, "circle", (), pair.verdicts, words, _bouts(pair))
    before = Before(words, (), pair.verdicts)
    found = by_seconds(above, below, level.seconds, level.scores, before)
    around = level.policy is not None and found.step is Step.TIES
    return replace(found, step=Step.CIRCLE) if around else found


def _said(pair: Pair, above: str, below: str, circles: Sequence[Circle]) -> tuple[Sentence, ...]:
    """What the list says of the two, and the circle that makes it worth nothing."""
    said = between(pair, above, below)
    if pair.deciding is None:
        return said
    step = beat(pair.deciding)
    around = [
        in_words(round_through(circle, pair.wrestlers))
        for circle in circles
        if step in circle.beats
    ]
    return (*around,) if around and own_bouts(step) else (*said, *around)


def _still(above: str, below: str, rung: Rung) -> Sentence:
    """Nothing is decided between the two, but somebody else still stood over the lower one."""
    return Sentence.of(
        "Nobody who was left stood over {above}, who was placed; {over} still stood over {below}.",
        {"above": above, "below": below, "over": rung.over[below]},
    )
