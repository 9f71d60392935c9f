"""How a weight stands and what it is worth, worked out from facts without writing anything."""

from brackets.core.graph import Format
from brackets.core.progress import play
from brackets.core.standing import Standing
from brackets.models import Drawn
from brackets.queries import bracket
from brackets.queries import rules_of as bracket_rules
from results.core.placings import rank_pool
from results.core.points import Part, ledger
from results.queries.facts import Facts, rules_of, scorers

PoolOrder = tuple[tuple[str, ...], ...]


def standing_of(drawn: Drawn, known: Facts) -> Standing:
    """The weight as these facts make it."""
    return play(
        bracket(drawn),
        known.verdicts,
        bracket_rules(drawn.weight_class.division),
        out=known.out,
        vacating=known.vacating,
        pool_order=pool_order(drawn, known),
    )


def pool_order(drawn: Drawn, known: Facts) -> PoolOrder | None:
    """The ranking of a round robin from its falls and times; None for other formats."""
    built = bracket(drawn)
    if built.format is not Format.ROUND_ROBIN:
        return None
    rules = bracket_rules(drawn.weight_class.division)
    standing = play(built, known.verdicts, rules, out=known.out, vacating=known.vacating)
    found = rules_of(drawn.weight_class.division)
    return rank_pool(standing, known.outcomes, found.results, bonus=found.team_points.bonus)


def parts_of(drawn: Drawn, standing: Standing, known: Facts) -> tuple[Part, ...]:
    """What the weight is worth to the teams, part by part."""
    rules = rules_of(drawn.weight_class.division)
    return ledger(
        bracket(drawn),
        standing,
        known.outcomes,
        scorers(drawn),
        rules.team_points,
        places=drawn.places,
        deductions=rules.deductions,
        removed=known.removed,
    )
