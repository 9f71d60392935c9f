"""Criteria over what is put in: rankings and places at earlier events."""

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from seeding.core.criteria import Input, InputKind, Measured
from seeding.core.season import At, Season
from seeding.core.verdict import Number, Sentence, Verdict, whole


@dataclass(frozen=True, slots=True)
class Ranked(Measured):
    """The rank in a ranking that is put in, such as the coaches'; 1 is best."""

    low_is_good: ClassVar[bool] = True

    ranking: str

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (Input(InputKind.RANKING, self.ranking),)

    def measure(self, wrestler: str, season: Season) -> Number:
        rank = season.rankings.get(self.ranking, {}).get(wrestler)
        return Number(None, "not ranked") if rank is None else whole(rank)


@dataclass(frozen=True, slots=True)
class EarlierPlace(Measured):
    """The best place at an earlier event, such as the qualifying event."""

    low_is_good: ClassVar[bool] = True

    event: str
    places_at: At

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (Input(InputKind.PLACES, self.event),)

    def measure(self, wrestler: str, season: Season) -> Number:
        places = season.places(self.event, wrestler, self.places_at)
        return whole(places[0]) if places and places[0] else Number(None, "no place")


@dataclass(frozen=True, slots=True)
class ReturningPlacer:
    """Who placed at an earlier event, by groups of equal places, best group first.

    `groups` ((1,), (2, 3)): a champion before a second or third, these before all others. Place 0
    stands for having taken part; numbers are the places.
    """

    name: str
    event: str
    places_at: At
    groups: tuple[tuple[int, ...], ...]

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (Input(InputKind.PLACES, self.event),)

    def compare(self, a: str, b: str, season: Season) -> Verdict:
        at, numbers = zip(*(self._found(wrestler, season) for wrestler in (a, b)), strict=True)
        better = None if at[0] == at[1] else a if at[0] < at[1] else b
        sentence = self._sentence(a, b, better, (numbers[0].text, numbers[1].text))
        return Verdict(self.name, (a, b), better, (numbers[0], numbers[1]), sentence)

    def group(self, wrestler: str, season: Season) -> int:
        """The group of the wrestler's best place, from 0; that past the last = none."""
        return self._found(wrestler, season)[0]

    def _found(self, wrestler: str, season: Season) -> tuple[int, Number]:
        places = season.places(self.event, wrestler, self.places_at)
        best = (len(self.groups), Number(None, ordinal(places[0]) if places else "no place"))
        for place in places:
            for at, group in enumerate(self.groups[: best[0]]):
                if place in group:
                    best = at, Number(Fraction(place), ordinal(place))
        return best

    def _sentence(self, a: str, b: str, better: str | None, texts: tuple[str, str]) -> Sentence:
        words = {a: texts[0], b: texts[1]}
        if better is None:
            one, other = sorted((a, b))
            template = (
                "{criterion} decides nothing between {one} and {other} ({event}): {first} against "
                "{second}."
            )
        else:
            one, other = better, b if better == a else a
            template = "{one} is ahead in {criterion} ({event}): {first} against {second}."
        return Sentence.of(
            template,
            {"one": one, "other": other},
            criterion=self.name,
            event=self.event,
            first=words[one],
            second=words[other],
        )


@dataclass(frozen=True, slots=True)
class CommonEvents:
    """Who placed higher in more of the events in which both placed. Numbers: events so won."""

    name: str
    events: tuple[str, ...]

    @property
    def inputs(self) -> tuple[Input, ...]:
        return tuple(Input(InputKind.PLACES, event) for event in self.events)

    def compare(self, a: str, b: str, season: Season) -> Verdict:
        both = [pair for event in self.events if (pair := self._places(event, a, b, season))]
        of_a = sum(x < y for _, x, y in both)
        of_b = sum(y < x for _, x, y in both)
        better = None if of_a == of_b else a if of_a > of_b else b
        numbers = whole(of_a), whole(of_b)
        return Verdict(self.name, (a, b), better, numbers, self._sentence(a, b, better, both))

    def _places(self, event: str, a: str, b: str, season: Season) -> tuple[str, int, int] | None:
        x, y = (season.places(event, one, At.ANY_WEIGHT)[:1] for one in (a, b))
        return (event, x[0], y[0]) if x and y and x[0] and y[0] else None

    def _sentence(
        self, a: str, b: str, better: str | None, both: list[tuple[str, int, int]]
    ) -> Sentence:
        turned = better == b or (better is None and a > b)
        one, other = (b, a) if turned else (a, b)
        said = "; ".join(
            f"{event}: {ordinal(y if turned else x)} to {ordinal(x if turned else y)}"
            for event, x, y in both
        )
        people = {"one": one, "other": other}
        if not both:
            return Sentence.of("{one} and {other} placed at no common event.", people)
        word = "placed as often above" if better is None else "placed higher than"
        return Sentence.of(
            f"{{one}} {word} {{other}} at common events ({{said}}).", people, said=said
        )


def ordinal(place: int) -> str:
    """
    >>> [ordinal(place) for place in (0, 1, 2, 3, 4, 11, 12, 21)]
    ['took part', '1st', '2nd', '3rd', '4th', '11th', '12th', '21st']
    """
    if not place:
        return "took part"
    ending = {1: "st", 2: "nd", 3: "rd"}.get(place % 10, "th")
    return f"{place}{'th' if place % 100 in (11, 12, 13) else ending}"
