"""How a weight stands and what it is worth, worked out from facts without writing anything."""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

from brackets.core.errors import BoutNotReady
from brackets.core.formats import without_true_places
from brackets.core.graph import BoutKey, Bracket
from brackets.core.progress import play
from brackets.core.rulings import PlaceRuling
from brackets.core.sources import Needed
from brackets.core.standing import Standing, Verdict
from brackets.models import Drawn
from brackets.queries import bracket
from brackets.queries import rules_of as bracket_rules
from results.core.placings import rank_pool
from results.core.points import Part, bonus, ledger
from results.queries.facts import Facts, rules_of, scorers

PoolOrder = tuple[tuple[str, ...], ...]


def standing_of(drawn: Drawn, known: Facts) -> Standing:
    """The weight as these facts make it."""
    return _played(bracket(drawn), drawn, known)


def _played(built: Bracket, drawn: Drawn, known: Facts) -> Standing:
    return play(
        built,
        known.verdicts,
        bracket_rules(drawn.weight_class.division),
        out=known.out,
        vacating=known.vacating,
        pool_order=pool_order(drawn, known),
        rulings=known.rulings,
    )


def _plain(built: Bracket, drawn: Drawn, known: Facts, full: Standing) -> Standing:
    """The weight without its challenges, and so without what happened or was ruled in them.

    Of a ruling on a bout that is wrestled only for a challenge the exchanges elsewhere stay. A
    result counts where the two who wrestled (those of `full`) meet here too.
    """
    told = {key: one for key, one in known.verdicts.items() if key in built.sources}
    while True:
        try:
            found = _without(built, told, drawn, known)
        except BoutNotReady as error:
            del told[BoutKey.parse(error.where)]
            continue
        others = (key for key in built.sources if found.bouts[key].sides != full.bouts[key].sides)
        if (wrong := next((key for key in others if key in told), None)) is None:
            return found
        del told[wrong]


def _without(
    built: Bracket, told: Mapping[BoutKey, Verdict], drawn: Drawn, known: Facts
) -> Standing:
    whole = bracket(drawn)
    return play(
        built,
        told,
        bracket_rules(drawn.weight_class.division),
        out={entry: _last_of(built, whole, behind) for entry, behind in known.out.items()},
        vacating=known.vacating,
        rulings=tuple(
            one
            for one in known.rulings
            if isinstance(one, PlaceRuling) or whole.round_of(one.bout).needed is not Needed.UNMET
        ),
        pool_order=pool_order(drawn, known),
    )


def _last_of(built: Bracket, whole: Bracket, behind: BoutKey | None) -> BoutKey | None:
    """The last bout up to this one, by running order of the whole bracket, that is also here."""
    order = list(whole.sources)
    past = order[: order.index(behind) + 1] if behind else []
    return next((key for key in reversed(past) if key in built.sources), None)


def pool_order(drawn: Drawn, known: Facts) -> PoolOrder | None:
    """The ranking of a round robin or of two pools from their falls and times, pool after pool;
    None for other formats."""
    built = bracket(drawn)
    if not built.pools:
        return None
    bouts = {key for pool in built.pools for key in pool.bouts}
    given = {key: one for key, one in known.verdicts.items() if key in bouts}
    rules = bracket_rules(drawn.weight_class.division)
    standing = play(
        built, given, rules, out=known.out, vacating=known.vacating, rulings=known.rulings
    )
    found = rules_of(drawn.weight_class.division)
    return tuple(
        group
        for pool in built.pools
        for group in rank_pool(
            replace(standing, bouts={key: standing.bouts[key] for key in pool.bouts}),
            known.outcomes,
            found.results,
            bonus=partial(bonus, rules=found.team_points),
        )
    )


def parts_of(drawn: Drawn, standing: Standing, known: Facts) -> tuple[Part, ...]:
    """What the weight is worth to the teams, part by part; without true placement where that
    does not score."""
    rules = rules_of(drawn.weight_class.division)
    built, used = bracket(drawn), bracket_rules(drawn.weight_class.division)
    if used.true_places and not rules.team_points.true_placement_scores:
        built = without_true_places(built, used)
        standing = _plain(built, drawn, known, standing)
    return ledger(
        built,
        standing,
        known.outcomes,
        scorers(drawn),
        rules.team_points,
        places=drawn.places,
        deductions=rules.deductions,
        removed=known.removed,
    )
