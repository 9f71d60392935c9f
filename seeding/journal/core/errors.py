"""Refusals: what the program says when it will not do what it was asked.

    Refusal
    ├── Invalid          the request itself is wrong; lists every problem at once
    ├── NotFound         there is no such thing
    ├── NotAllowed       this person may not do it
    ├── Stale            somebody changed it in between
    ├── KeyReused        an idempotency key came back with another request
    └── Clash            the database holds something that it cannot stand beside

Every app derives one class per situation from these. The way to HTTP is `seeding.journal.api`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar


class Refusal(Exception):
    """A request that is not carried out; nothing of it is kept.

    `code` is for machines, `template` for people: it says what is wrong and what to do.
    `where` names the row, path or bout, if there is one.
    """

    code: ClassVar[str] = "refused"
    template: ClassVar[str] = "This cannot be done."

    def __init__(self, *, where: str = "", **params: object) -> None:
        self.where = where
        self.params = params
        super().__init__(self.template.format(**params))


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong in an input: where it stands and what to do about it."""

    where: str
    message: str

    def __str__(self) -> str:
        return f"{self.where}: {self.message}" if self.where else self.message


class Invalid(Refusal):
    """The input is wrong; `problems` lists all of it."""

    code = "invalid"
    template = "{summary}"

    def __init__(self, problems: Sequence[Problem], *, where: str = "") -> None:
        self.problems = tuple(problems)
        super().__init__(where=where, summary="; ".join(str(p) for p in self.problems))


class NotFound(Refusal):
    """There is no such thing."""

    code = "not-found"
    template = "There is no {what} {name!r} here."


class NotAllowed(Refusal):
    """The person may not do this."""

    code = "not-allowed"
    template = "You may not do this. It needs the right “{right}” in this tournament."


class Stale(Refusal):
    """The version sent is not the current one."""

    code = "stale"
    template = "{what} was changed in the meantime. Load it again, look, and repeat your change."


class KeyReused(Refusal):
    """The idempotency key was used before, for another request."""

    code = "key-reused"
    template = "The idempotency key {key!r} was already used for another request. Send a new key."


class Clash(Refusal):
    """The database refused: something of the kind is there already.

    Services refuse what they foresee in words of their own; this is what was done meanwhile.
    """

    code = "clash"
    template = (
        "This clashes with something that is there already, perhaps since a moment ago. "
        "Load it again, look, and repeat your change."
    )
