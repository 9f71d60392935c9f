"""What a criterion says about two wrestlers, in numbers, bouts and words."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Self

from seeding.core.season import PriorBout


@dataclass(frozen=True, slots=True)
class Sentence:
    """Plain English with a field for each wrestler and each fact.

    >>> Sentence.of("{better} beat {worse}: {bout}.", {"better": "w1", "worse": "w2"},
    ...             bout="fall 2:28").say({"w1": "Ann Lee"})
    'Ann Lee beat w2: fall 2:28.'
    """

    template: str
    wrestlers: tuple[tuple[str, str], ...] = ()
    facts: tuple[tuple[str, str], ...] = ()

    @classmethod
    def of(cls, template: str, wrestlers: Mapping[str, str], **facts: object) -> Self:
        words = tuple((name, str(fact)) for name, fact in facts.items())
        return cls(template, tuple(wrestlers.items()), words)

    def say(self, names: Mapping[str, str] | None = None) -> str:
        """The sentence with each wrestler's name, or his id where no name is given."""
        known = names or {}
        people = {field: known.get(wrestler, wrestler) for field, wrestler in self.wrestlers}
        return self.template.format(**people, **dict(self.facts))


@dataclass(frozen=True, slots=True)
class Number:
    """A wrestler's number and how it is written; no value = he has none, and the text says why.

    `then` decides between equal values.
    """

    value: Fraction | None
    text: str
    then: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Verdict:
    """Who of `pair` is better by one criterion (None = it decides nothing), and the evidence.

    `bouts`: those with each other by date, or else the first one's and then the second one's.
    """

    criterion: str
    pair: tuple[str, str]
    better: str | None
    numbers: tuple[Number, Number]
    sentence: Sentence
    bouts: tuple[PriorBout, ...] = ()

    @property
    def worse(self) -> str | None:
        a, b = self.pair
        return None if self.better is None else b if self.better == a else a

    def number(self, wrestler: str) -> Number:
        return self.numbers[self.pair.index(wrestler)]


def whole(value: int) -> Number:
    """A count as a number.

    >>> whole(3).text
    '3'
    """
    return Number(Fraction(value), str(value))


def decimal(value: Fraction, digits: int) -> str:
    """The value to so many digits, half up, without a leading zero, as records are written.

    >>> decimal(Fraction(12, 13), 3), decimal(Fraction(1), 3), decimal(Fraction(1, 16), 3)
    ('.923', '1.000', '.063')
    """
    scaled = int(value * 10**digits + Fraction(1, 2))
    units, rest = divmod(scaled, 10**digits)
    return f"{units or ''}.{rest:0{digits}d}"


def plain(value: Fraction) -> str:
    """A sum of points as people write it, up to four digits.

    >>> plain(Fraction(3)), plain(Fraction(5, 2)), plain(Fraction(0)), plain(Fraction(2, 3))
    ('3', '2.5', '0', '.6667')
    """
    text = decimal(value, 4).rstrip("0").rstrip(".")
    return text or "0"
