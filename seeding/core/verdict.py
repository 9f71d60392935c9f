"""What a criterion says about two wrestlers, in numbers, bouts and words."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Self

from seeding.core.season import PriorBout


@dataclass(frozen=True, slots=True)
class Sentence:
    """Plain English with a field for each wrestler and each fact.

    `wrestlers` and `facts`: field and id, or field and text, one after the other; flat, because
    a weight of 33 makes some four thousand sentences.

    >>> Sentence.of("{better} beat {worse}: {bout}.", {"better": "w1", "worse": "w2"},
    ...             bout="fall 2:28").say({"w1": "Ann Lee"})
    'Ann Lee beat w2: fall 2:28.'
    """

    template: str
    wrestlers: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()

    @classmethod
    def of(cls, template: str, wrestlers: Mapping[str, str], **facts: object) -> Self:
        return cls(template, _flat(wrestlers), _flat(facts))

    def say(self, names: Mapping[str, str] | None = None) -> str:
        """The sentence with each wrestler's name, or his id where no name is given."""
        known = names or {}
        ids = dict(zip(self.wrestlers[::2], self.wrestlers[1::2], strict=True))
        facts = dict(zip(self.facts[::2], self.facts[1::2], strict=True))
        people = {field: known.get(wrestler, wrestler) for field, wrestler in ids.items()}
        return self.template.format(**people, **facts)


def _flat(fields: Mapping[str, object]) -> tuple[str, ...]:
    return tuple([str(part) for field in fields.items() for part in field])


@dataclass(frozen=True, slots=True)
class Number:
    """A wrestler's number and how it is written; no value = he has none, and the text says why.

    `then` decides between equal values: bouts won, more is better.
    """

    value: Fraction | None
    text: str
    then: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Verdict:
    """Who of `pair` is better by one criterion (None = it decides nothing), and the evidence.

    `evidence`: bouts of both together, or those behind the first number and behind the second.
    """

    criterion: str
    pair: tuple[str, str]
    better: str | None
    numbers: tuple[Number, Number]
    sentence: Sentence
    evidence: tuple[tuple[PriorBout, ...], ...] = ()

    @property
    def bouts(self) -> tuple[PriorBout, ...]:
        """The evidence, each bout once."""
        return tuple(dict.fromkeys(bout for bouts in self.evidence for bout in bouts))

    @property
    def worse(self) -> str | None:
        a, b = self.pair
        return None if self.better is None else b if self.better == a else a

    def number(self, wrestler: str) -> Number:
        return self.numbers[self.pair.index(wrestler)]


@cache
def whole(value: int) -> Number:
    """A count as a number.

    >>> whole(3).text
    '3'
    """
    return Number(Fraction(value), str(value))


def decimal(value: Fraction, digits: int) -> str:
    """The value to so many digits, halves away from 0, no leading zero, as records are written.

    >>> decimal(Fraction(12, 13), 3), decimal(Fraction(1, 16), 3), decimal(Fraction(-80), 3)
    ('.923', '.063', '-80.000')
    """
    scaled = int(abs(value) * 10**digits + Fraction(1, 2))
    units, rest = divmod(scaled, 10**digits)
    return f"{'-' if value < 0 and scaled else ''}{units or ''}.{rest:0{digits}d}"


def plain(value: Fraction, digits: int = 4) -> str:
    """A sum of points as people write it, up to four digits or so many.

    >>> plain(Fraction(3)), plain(Fraction(5, 2)), plain(Fraction(0)), plain(Fraction(-2, 3))
    ('3', '2.5', '0', '-.6667')
    """
    text = decimal(value, digits).rstrip("0").rstrip(".")
    return text or "0"
