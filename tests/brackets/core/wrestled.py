"""Brackets wrestled in tests: by named winners, or by the seeds (the better seed wins)."""

from collections.abc import Collection, Mapping, Sequence

from brackets.core.graph import BoutKey, Bracket
from brackets.core.progress import Leavers, Sides, Standing, Status, Vacancy, Verdict, play
from brackets.core.replay import Choice, Replay, replay
from brackets.core.rules import BracketRules
from brackets.core.rulings import Rulings
from tests.brackets.core.books import rules

NOBODY = Verdict(None)


def after(
    built: Bracket,
    given: Mapping[str, int | None],
    used: BracketRules | None = None,
    out: Leavers = frozenset(),
    vacating: Sequence[str] = (),
) -> Standing:
    """The standing after winning sides (None: nobody) by bout."""
    verdicts = {
        BoutKey.parse(key): NOBODY if side is None else Verdict(1 if side else 0)
        for key, side in given.items()
    }
    return play(built, verdicts, used or rules(), out=out, vacating=frozenset(vacating))


def by_seeds(
    built: Bracket,
    used: BracketRules,
    *rounds: str,
    nobody: Sequence[str] = (),
    out: Leavers = frozenset(),
    vacating: Sequence[str] = (),
) -> Standing:
    """Wrestle these rounds (all when none is named) by the seeds, but `nobody` wins some bouts."""
    verdicts: dict[BoutKey, Verdict] = {}
    while True:
        standing = play(built, verdicts, used, out=out, vacating=frozenset(vacating))
        ready = [
            state
            for state in standing.bouts.values()
            if state.status is Status.READY and (not rounds or state.key.round in rounds)
        ]
        if not ready:
            return standing
        for state in ready:
            top, bottom = (int(str(side)) for side in state.sides)
            won = None if str(state.key) in nobody else Verdict(0 if top < bottom else 1)
            verdicts[state.key] = won or NOBODY


def told(standing: Standing) -> dict[BoutKey, Verdict]:
    """The results of a standing in which every bout was won."""
    return {
        key: Verdict(0 if state.winner == state.sides[0] else 1)
        for key, state in standing.bouts.items()
        if state.status is Status.DECIDED
    }


def sides(standing: Standing, key: str) -> list[str]:
    state = standing.bouts[BoutKey.parse(key)]
    return [side.value if isinstance(side, Vacancy) else side for side in state.sides]


def status(standing: Standing, key: str) -> Status:
    return standing.bouts[BoutKey.parse(key)].status


def replayed(
    built: Bracket,
    given: Mapping[BoutKey, Verdict],
    met: Mapping[BoutKey, Sides],
    rules: BracketRules,
    *,
    pool_order: Sequence[Sequence[str]] | None = None,
    rulings: Rulings = (),
    choices: Mapping[BoutKey, Choice] | None = None,
) -> Replay:
    """What of these verdicts holds between those who met."""

    def played(kept: Collection[BoutKey], ruled: Rulings) -> Standing:
        left = {key: given[key] for key in kept}
        return play(built, left, rules, pool_order=pool_order, rulings=ruled)

    return replay(built, {key: met[key] for key in given}, played, rulings, choices)
