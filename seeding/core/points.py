"""Points: numbers of several kinds, scaled and added; as a shape of its own or as one criterion."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from seeding.core.criteria import Input, InputKind, Measured, Missing
from seeding.core.ledger import Ledger
from seeding.core.pairs import NONE, Key, Pair, Total, every_pair
from seeding.core.season import At, PriorBout, Season
from seeding.core.shapes import Arrangement
from seeding.core.tables import ordinal
from seeding.core.ties import Seconds
from seeding.core.totals import Totals, arranged
from seeding.core.verdict import Number, Sentence, Verdict, plain


@dataclass(frozen=True, slots=True)
class Shortfall:
    """Points lost for every bout that is missing to a full record of `bouts`."""

    ledger: Ledger
    bouts: int
    each: Fraction

    def points(self, wrestler: str, season: Season) -> Fraction:
        missing = self.bouts - len(self.ledger.records(season).of(wrestler))
        return self.each * max(missing, 0)


@dataclass(frozen=True, slots=True)
class Term(Measured):
    """A number times a factor, less a shortfall; who has no number gets nothing for it."""

    of: Measured
    factor: Fraction
    less: Shortfall | None = None

    @property
    def inputs(self) -> tuple[Input, ...]:
        return self.of.inputs

    def measure(self, wrestler: str, season: Season) -> Number:
        found = self.of.measure(wrestler, season)
        less = self.less.points(wrestler, season) if self.less is not None else NONE
        value = (found.value or NONE) * self.factor - less
        short = f", less {written(less)} for missing bouts" if less else ""
        said = f" ({found.text}{short})" if found.text + short != written(value) else ""
        return Number(value, f"{written(value)}{said}")

    def evidence(self, wrestler: str, season: Season) -> tuple[PriorBout, ...]:
        return self.of.evidence(wrestler, season)


def written(value: Fraction) -> str:
    """Points to two digits.

    >>> written(Fraction(7619, 100)), written(Fraction(180)), written(Fraction(-1, 2))
    ('76.19', '180', '-.5')
    """
    return plain(value, 2)


@dataclass(frozen=True, slots=True)
class Band:
    """Differences up to `up_to` (None = any larger) give `points` to the better one."""

    up_to: Fraction | None
    points: Fraction


@dataclass(frozen=True, slots=True)
class Bands:
    """A number of both, times a factor; the difference gives points to the better by bands."""

    name: str
    of: Measured
    factor: Fraction
    bands: tuple[Band, ...]

    @property
    def inputs(self) -> tuple[Input, ...]:
        return self.of.inputs

    def points(self, a: str, b: str, season: Season) -> tuple[Fraction, Fraction]:
        """What each of the two gets."""
        verdict = self.of.compare(a, b, season)
        x, y = (number.value for number in verdict.numbers)
        if verdict.better is None or x is None or y is None:
            return NONE, NONE
        apart = abs(x - y) * self.factor
        fits = (band.points for band in self.bands if band.up_to is None or apart <= band.up_to)
        gained = next(fits, NONE)
        return (gained, NONE) if verdict.better == a else (NONE, gained)

    def evidence(self, wrestler: str, season: Season) -> tuple[PriorBout, ...]:
        return self.of.evidence(wrestler, season)


@dataclass(frozen=True, slots=True)
class Points:
    """A criterion: who has more points over all terms is better."""

    name: str
    terms: tuple[Term | Bands, ...]

    @property
    def inputs(self) -> tuple[Input, ...]:
        return tuple(dict.fromkeys(need for term in self.terms for need in term.inputs))

    def compare(self, a: str, b: str, season: Season) -> Verdict:
        parts = {term.name: self._points(term, a, b, season) for term in self.terms}
        first, second = (sum((part[at] for part in parts.values()), NONE) for at in (0, 1))
        better = None if first == second else a if first > second else b
        numbers = Number(first, written(first)), Number(second, written(second))
        evidence = tuple(
            tuple(bout for term in self.terms for bout in term.evidence(one, season))
            for one in (a, b)
        )
        sentence = _added(self.name, a, b, better, parts, numbers)
        return Verdict(self.name, (a, b), better, numbers, sentence, evidence)

    def _points(
        self, term: Term | Bands, a: str, b: str, season: Season
    ) -> tuple[Fraction, Fraction]:
        if isinstance(term, Bands):
            return term.points(a, b, season)
        x, y = (term.known(one, season)[0].value for one in (a, b))
        return x or NONE, y or NONE


def _added(
    name: str,
    a: str,
    b: str,
    better: str | None,
    parts: Mapping[str, tuple[Fraction, Fraction]],
    numbers: tuple[Number, Number],
) -> Sentence:
    turned = better == b or (better is None and a > b)
    one, other = (b, a) if turned else (a, b)
    up, down = (1, 0) if turned else (0, 1)
    said = "; ".join(
        f"{term} {written(both[up])} to {written(both[down])}" for term, both in parts.items()
    )
    high, low = numbers[up].text, numbers[down].text
    template = "{one} is ahead of {other} in {criterion}: {high} against {low} ({said})."
    if better is None:
        template = "{one} and {other} are level in {criterion}: {high} each ({said})."
    return Sentence.of(
        template, {"one": one, "other": other}, criterion=name, high=high, low=low, said=said
    )


class Take(StrEnum):
    """What counts of several places: the one that is worth most, or all of them."""

    HIGHEST = "highest"
    SUM = "sum"


@dataclass(frozen=True, slots=True)
class PlaceTable:
    """What places at an event are worth, first place first, times a factor.

    `took_part`: what it is worth to have been there without one of these places.
    """

    event: str
    points: tuple[Fraction, ...]
    took_part: Fraction
    factor: Fraction

    def worth(self, place: int) -> Fraction:
        held = 1 <= place <= len(self.points)
        return (self.points[place - 1] if held else self.took_part) * self.factor


@dataclass(frozen=True, slots=True)
class PlacePoints(Measured):
    """Points by table for places at earlier events."""

    tables: tuple[PlaceTable, ...]
    places_at: At
    take: Take

    @property
    def inputs(self) -> tuple[Input, ...]:
        return tuple(Input(InputKind.PLACES, table.event) for table in self.tables)

    def measure(self, wrestler: str, season: Season) -> Number:
        found = [
            (table.worth(place), f"{ordinal(place)}, {table.event}")
            for table in self.tables
            for place in season.places(table.event, wrestler, self.places_at)
            if table.worth(place)
        ]
        if not found:
            return Number(None, "no place")
        if self.take is Take.HIGHEST:
            found = [max(found)]
        return Number(
            sum((worth for worth, _ in found), NONE), "; ".join(text for _, text in found)
        )


@dataclass(frozen=True, slots=True)
class Additive:
    """The shape: order by the sum of all terms."""

    terms: tuple[Term, ...]

    def arrange(self, field: Iterable[str], season: Season, seconds: Seconds) -> Arrangement:
        names = sorted(field)
        sums = {name: (Total("points", self._sum(name, season)),) for name in names}
        pairs = {two: self._pair(two, season) for two in every_pair(names)}
        return arranged(Totals(sums, pairs), seconds)

    def _sum(self, wrestler: str, season: Season) -> Fraction:
        values = (term.known(wrestler, season)[0].value for term in self.terms)
        return sum((value or NONE for value in values), NONE)

    def _pair(self, two: Key, season: Season) -> Pair:
        verdicts = tuple(term.compare(*two, season) for term in self.terms)
        sums = [self._sum(one, season) for one in two]
        apart = [abs((v.numbers[0].value or NONE) - (v.numbers[1].value or NONE)) for v in verdicts]
        better = None if sums[0] == sums[1] else two[sums[0] < sums[1]]
        own = [(gap, v) for gap, v in zip(apart, verdicts, strict=True) if v.better == better]
        most = max(own, key=lambda one: one[0])[1] if own and better else None
        shares = (Fraction(sums[0] > sums[1]), Fraction(sums[1] > sums[0]))
        return Pair(two, verdicts, shares if better else (Fraction(1, 2), Fraction(1, 2)), most)


def term(name: str, of: Measured, factor: Fraction, less: Shortfall | None = None) -> Term:
    """A term, in which nobody is set aside for having no number."""
    return Term(name, Missing.NOBODY, of, factor, less)
