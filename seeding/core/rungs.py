"""How each place of a ladder was filled, and so why one stands above another."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from seeding.core.pairs import Key, Pair, key
from seeding.core.reasons import Before, Reason, Step, between, by_seconds
from seeding.core.ties import Seconds
from seeding.core.verdict import Sentence
from seeding.core.walks import beats


@dataclass(frozen=True, slots=True)
class Level:
    """A group out of which a place was filled: level, or in a circle (then `words` say so).

    `scores`: what the criteria of `seconds` gave each; empty where the policy needs none.
    """

    members: tuple[str, ...]
    scores: Mapping[str, tuple[Fraction, ...]]
    seconds: Seconds
    words: tuple[Sentence, ...]


@dataclass(frozen=True, slots=True)
class Rung:
    """One step of the ladder.

    `levels`: the groups that were looked at, the widest first. `over`: for each who was left and
    had somebody over him, one of those.
    """

    placed: tuple[str, ...]
    levels: tuple[Level, ...]
    over: Mapping[str, str]

    def level(self, above: str, below: str) -> Level | None:
        """The narrowest group of which both were."""
        both = [one for one in self.levels if {above, below} <= set(one.members)]
        return both[-1] if both else None


def over(left: Iterable[str], pairs: Mapping[Key, Pair]) -> dict[str, str]:
    """For each who has somebody over him, the first such by id."""
    found: dict[str, str] = {}
    for beat in sorted(beats(pairs)):
        found.setdefault(beat.worse, beat.better)
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
        level = rung.level(above, below)
        said = between(pair, above, below)
        bouts = pair.deciding.bouts if pair.deciding is not None else ()
        if pair.better == above and pair.deciding is not None:
            name = pair.deciding.criterion
            return Reason(above, below, Step.CRITERIA, name, (), pair.verdicts, said, bouts)
        if level is not None and level.scores[above] != level.scores[below]:
            before = Before((*said, *level.words), (), pair.verdicts)
            return by_seconds(above, below, level.seconds, level.scores, before)
        if level is not None and not level.scores[above] and level.words:
            words = (*said, *level.words)
            return Reason(above, below, Step.CIRCLE, "circle", (), pair.verdicts, words, bouts)
        if level is not None:
            before = Before((*said, *level.words), (), pair.verdicts)
            return by_seconds(above, below, level.seconds, level.scores, before)
        words = (*said, _still(above, below, rung))
        return Reason(above, below, Step.CRITERIA, "ladder", (), pair.verdicts, words, bouts)


def _still(above: str, below: str, rung: Rung) -> Sentence:
    """Nothing is decided between the two, but somebody else still stood over the lower one."""
    return Sentence.of(
        "{above} was placed while nobody left stood over {above}; {over} still stood over {below}.",
        {"above": above, "below": below, "over": rung.over[below]},
    )
