"""The writers of the seeding room."""

from seeding.services.order import (
    adopt_order,
    lock_order,
    move_seed,
    set_inputs,
    take_back_move,
    unlock_order,
)

__all__ = ["adopt_order", "lock_order", "move_seed", "set_inputs", "take_back_move", "unlock_order"]
