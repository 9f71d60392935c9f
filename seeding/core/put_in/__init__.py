"""What no bout tells, in a file: ranks, places at earlier events, ballots."""

from seeding.core.put_in.ballots import Voted, ballot_problems
from seeding.core.put_in.field import Entered, Field, Table
from seeding.core.put_in.places import read_places, write_places
from seeding.core.put_in.sheet import PutIn, Said, read_put_in

__all__ = [
    "Entered",
    "Field",
    "PutIn",
    "Said",
    "Table",
    "Voted",
    "ballot_problems",
    "read_places",
    "read_put_in",
    "write_places",
]
