"""The writers of the seeding room."""

from seeding.services.challenges import (
    challenge,
    close_challenges,
    grant_challenge,
    open_challenges,
    refuse_challenge,
    withdraw_challenge,
)
from seeding.services.minutes import sign_minutes
from seeding.services.order import (
    adopt_order,
    lock_order,
    move_seed,
    take_back_move,
    unlock_order,
)
from seeding.services.put_in import set_inputs
from seeding.services.recusal import set_own_teams
from seeding.services.scratch import void_seeds

__all__ = [
    "adopt_order",
    "challenge",
    "close_challenges",
    "grant_challenge",
    "lock_order",
    "move_seed",
    "open_challenges",
    "refuse_challenge",
    "set_inputs",
    "set_own_teams",
    "sign_minutes",
    "take_back_move",
    "unlock_order",
    "void_seeds",
    "withdraw_challenge",
]
