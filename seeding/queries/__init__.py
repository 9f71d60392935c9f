"""Every read of the seeding room."""

from seeding.queries.order import (
    Order,
    WeightState,
    first_lot_seed,
    moved,
    order_of,
    rules_of,
    seed_order,
    weight_states,
)
from seeding.queries.season import known_bouts, names_of, season_bouts, season_of

__all__ = [
    "Order",
    "WeightState",
    "first_lot_seed",
    "known_bouts",
    "moved",
    "names_of",
    "order_of",
    "rules_of",
    "season_bouts",
    "season_of",
    "seed_order",
    "weight_states",
]
