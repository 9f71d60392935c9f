"""Walking a list of criteria for two wrestlers: the first that decides has the word."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from seeding.core.circles import Beat, Circle, below, way
from seeding.core.criteria import Criterion
from seeding.core.pairs import HALF, NONE, ONE, Key, Pair
from seeding.core.season import PriorBout, Season
from seeding.core.verdict import Sentence, Verdict


def walk(two: Key, criteria: Sequence[Criterion], season: Season, level: bool = True) -> Pair:
    """The pair by the first criterion that decides; undecided, each gets half, or nothing."""
    verdicts: list[Verdict] = []
    for criterion in criteria:
        verdicts.append(criterion.compare(*two, season))
        if verdicts[-1].better is not None:
            a = ONE if verdicts[-1].better == two[0] else NONE
            return Pair(two, tuple(verdicts), (a, ONE - a), verdicts[-1])
    each = HALF if level else NONE
    return Pair(two, tuple(verdicts), (each, each), None)


def walk_on(
    pair: Pair,
    criteria: Sequence[Criterion],
    season: Season,
    remarks: Iterable[Sentence],
    level: bool = True,
) -> Pair:
    """The pair with its deciding verdict set aside: the criteria after it have the word."""
    later = walk(pair.wrestlers, criteria[len(pair.verdicts) :], season, level)
    verdicts = pair.verdicts + later.verdicts
    said = (*pair.remarks, *remarks)
    return Pair(pair.wrestlers, verdicts, later.shares, later.deciding, said)


def beats(pairs: Mapping[Key, Pair]) -> tuple[Beat, ...]:
    """Who stands over whom, by the criterion that decides each pair."""
    found = (pair.deciding for pair in pairs.values())
    return tuple(beat(verdict) for verdict in found if verdict is not None)


def beat(verdict: Verdict) -> Beat:
    """One standing over the other, with the bouts that made it."""
    if verdict.better is None or verdict.worse is None:
        raise ValueError(f"{verdict.criterion} decides nothing.")
    return Beat(verdict.better, verdict.worse, verdict.bouts, verdict.criterion)


def in_words(steps: Sequence[Beat]) -> Sentence:
    """A way round a circle, step by step with its bouts."""
    people: dict[str, str] = {}
    facts: dict[str, object] = {}
    parts: list[str] = []
    for at, step in enumerate(steps):
        won = own_bouts(step)
        people |= {f"w{at}": step.better, f"l{at}": step.worse}
        facts[f"by{at}"] = "; ".join(map(str, won)) if won else step.by
        how = "beat {l%d} ({by%d})" if won else "stands over {l%d} by {by%d}"
        parts.append(f"{{w{at}}} " + how % (at, at))
    what = "Head-to-head" if all(map(own_bouts, steps)) else "The list"
    return Sentence.of(f"{what} runs in a circle: {', '.join(parts)}.", people, **facts)


def own_bouts(step: Beat) -> tuple[PriorBout, ...]:
    """The bouts in which the better one beat the other."""
    two = (step.better, step.worse)
    return tuple(bout for bout in step.bouts if (bout.winner, bout.loser) == two)


def round_through(circle: Circle, two: Key) -> tuple[Beat, ...]:
    """A shortest way round the circle that begins with what stands between the two."""
    known = {(beat.better, beat.worse): beat for beat in circle.beats}
    better, worse = two if two in known else two[::-1]
    walk = (better, *way(worse, better, below(circle.wrestlers, circle.beats)), better)
    return tuple(known[step] for step in pairwise(walk))


def inside(pairs: Iterable[Key], group: Iterable[str]) -> list[Key]:
    """The pairs whose two both belong to the group."""
    members = set(group)
    return [two for two in pairs if members.issuperset(two)]
