"""A section read value by value, with every fault collected by name."""

from collections.abc import Mapping
from enum import StrEnum
from typing import TypeVar

from brackets.core.errors import BracketRulesInvalid
from seeding.journal.core.errors import Problem

Choice = TypeVar("Choice", bound=StrEnum)


class Reader:
    """Takes values out of a section one by one and collects what is wrong."""

    def __init__(self, section: Mapping[str, object]) -> None:
        self.section = section
        self.known: set[str] = set()
        self.problems: list[Problem] = []

    def refuse(self, name: str, message: str) -> None:
        self.problems.append(Problem(f"bracket.{name}", message))

    def take(self, name: str) -> object:
        self.known.add(name)
        if name not in self.section:
            self.refuse(name, "is missing")
        return self.section.get(name)

    def number(self, name: str, allowed: tuple[int, ...] | range) -> int:
        value = self.take(name)
        if isinstance(value, int) and not isinstance(value, bool) and value in allowed:
            return value
        if name in self.section:
            self.refuse(name, f"must be {_span(allowed)}, not {value!r}")
        return 0

    def numbers(self, name: str, allowed: tuple[int, ...]) -> tuple[int, ...]:
        value = self.take(name)
        listed = tuple(value) if isinstance(value, list | tuple) else (0,)
        if set(listed) <= set(allowed):
            return tuple(sorted(set(listed)))
        if name in self.section:
            self.refuse(name, f"must list some of {', '.join(map(str, allowed))}, not {value!r}")
        return ()

    def choice(self, name: str, kind: type[Choice]) -> Choice:
        value = self.take(name)
        names = [str(option) for option in kind]
        if value in names:
            return kind(value)
        if name in self.section:
            self.refuse(name, f"must be one of {', '.join(names)}, not {value!r}")
        return next(iter(kind))

    def choices(self, name: str, kind: type[Choice]) -> tuple[Choice, ...]:
        value = self.take(name)
        names = [str(option) for option in kind]
        listed = list(value) if isinstance(value, list | tuple) else [None]
        if all(listed.count(one) == 1 and one in names for one in listed):
            return tuple(kind(str(one)) for one in listed)
        if name in self.section:
            allowed = f"must list some of {', '.join(names)}, each once, not {value!r}"
            self.refuse(name, allowed)
        return ()

    def finish(self) -> None:
        for name in sorted(set(self.section) - self.known):
            self.refuse(name, "is not a setting of brackets")
        if self.problems:
            raise BracketRulesInvalid(self.problems)


def _span(allowed: tuple[int, ...] | range) -> str:
    if isinstance(allowed, range):
        return f"a whole number from {allowed[0]} to {allowed[-1]}"
    return f"one of {', '.join(map(str, allowed))}"
