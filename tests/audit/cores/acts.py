"""What happens to a weight: results, withdrawals, corrections, rulings, and what is taken back."""

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from random import Random

from brackets.core.drafting import (
    Wanted,
    WantedAdvance,
    WantedPlace,
    WantedResult,
    WantedSides,
    draft,
)
from brackets.core.errors import BoutNotReady
from brackets.core.graph import BoutKey
from brackets.core.replay import Choice, replay
from brackets.core.rulings import PlaceRuling, Rulings, in_two, placed_twice
from brackets.core.sources import Exit, Seat
from brackets.core.standing import AHEAD, Standing, Status
from results.core.outcomes import Kind, Outcome
from results.models import Withdrawal
from results.queries.facts import Facts, Left
from seeding.journal.core.errors import Refusal
from tests.audit.cores.held import differences, standing
from tests.audit.cores.made import Made, made
from tests.audit.outcomes import any_outcome, unwon, won

LENGTHS = (8, 16, 30, 45)
TRIES = 5
NOBODY_WINS, OPEN_ONES = 0.2, 0.5
"""How often nobody wins a bout, and how often what is ruled is about one that is open: there they
meet what is not known yet.
"""
ALIKE = 0.4
"""Of the weights with pools, those in which all wins are of one kind: who is level there stays so
down to the last criteria. Their losers score little, or nothing."""
LITTLE = (0, 1, 2)
ONWARD, EARLY = 0.4, 0.2
"""How often the next ruling is about the bout to which the winner of the last ruled bout goes on,
and how often any bout that is ready is wrestled, not one of the first: so much is wrestled behind
what is ruled while the bouts before are open.
"""
LEAVE = (Withdrawal.Kind.MEDICAL, Withdrawal.Kind.INJURY, Withdrawal.Kind.ABSENT)


@dataclass
class Weight:
    """A weight on its day; `kind`: of all its wins, None where they differ; `log`: what happened,
    in words."""

    made: Made
    chance: Random
    known: Facts
    kind: Kind | None
    log: list[str] = field(default_factory=list)

    @classmethod
    def of(cls, seed: int, number: int) -> "Weight":
        chance = Random(f"{seed}/{number}/cores")
        found = made(chance)
        keeps = found.results.withdrawal_keeps_place
        known = Facts(found.bracket.wiring.index, {}, {}, (), keeps=keeps)
        alike = found.bracket.pools and chance.random() < ALIKE
        return cls(found, chance, known, won(chance, found.results, 0).kind if alike else None)

    def day(self) -> Iterator[list[str]]:
        """Act after act; after each where cores and judge differ."""
        yield differences(self.made, self.known)
        most = self.chance.choice(LENGTHS)
        for _ in range(most * TRIES):
            if len(self.log) >= most:
                return
            before = len(self.log)
            self.act()
            if len(self.log) > before:
                yield differences(self.made, self.known)

    def act(self) -> None:
        """Any act; nothing where it would be refused."""
        acts: dict[Callable[[Standing], None], int] = {
            self.result: 66,
            self.leave: 7,
            self.correct: 6,
            self.take_back: 3,
            self.come_back: 2,
            self.rule: 16,
        }
        (one,) = self.chance.choices(list(acts), list(acts.values()))
        one(standing(self.made, self.known))

    def result(self, now: Standing) -> None:
        """The result of one of the first bouts that are ready."""
        ready = [key for key, state in now.bouts.items() if state.status is Status.READY]
        if not ready:
            return
        key = self.chance.choice(ready if self.chance.random() < EARLY else ready[:3])
        outcome = self.any_outcome()
        sides = _sides(now, key)
        known = replace(
            self.known,
            outcomes={**self.known.outcomes, key: outcome},
            sides={**self.known.sides, key: sides},
        )
        self.done(known, f"{key} {sides}: {outcome.kind} {outcome.winner}")

    def any_outcome(self) -> Outcome:
        """How a bout ends; the kinds that take the loser out, without doing so."""
        if self.chance.random() < NOBODY_WINS:
            found = unwon(self.chance, self.made.results)
        else:
            found = any_outcome(self.chance, self.made.results)
            while self.kind and found.kind is not self.kind:
                found = any_outcome(self.chance, self.made.results)
            if self.kind and found.score:
                lost = self.chance.choice(LITTLE)
                found = replace(found, score=(lost + found.score[0] - found.score[1], lost))
        disqualified = found.kind in (Kind.DISQUALIFICATION, Kind.DOUBLE_DISQUALIFICATION)
        return replace(found, misconduct=disqualified and self.chance.random() < 0.3)

    def leave(self, now: Standing) -> None:
        """Somebody leaves, or did not appear; not where a later result rests on him."""
        entry = self.chance.choice(list(self.made.scorers))
        if entry in self.known.out:
            return
        kind = self.chance.choice(LEAVE)
        behind = now.behind(entry, reported=kind is not Withdrawal.Kind.ABSENT)
        left = (*self.known.left, Left(entry, kind, behind))
        self.done(replace(self.known, left=left), f"{entry} leaves, {kind}, after {behind}")

    def come_back(self, _now: Standing) -> None:
        """Somebody who left wrestles on."""
        if self.known.left:
            gone = self.chance.choice(self.known.left)
            left = tuple(one for one in self.known.left if one != gone)
            self.changed(replace(self.known, left=left), f"{gone.entry} is back")

    def correct(self, _now: Standing) -> None:
        """A result was another, or none."""
        if not self.known.outcomes:
            return
        key = self.chance.choice(list(self.known.outcomes))
        outcomes = {**self.known.outcomes, key: self.any_outcome()}
        if self.chance.random() < 0.2:
            del outcomes[key]
        told = outcomes.get(key)
        words = f"{key} corrected: {told.kind} {told.winner}" if told else f"{key} undone"
        self.changed(replace(self.known, outcomes=outcomes), words)

    def take_back(self, _now: Standing) -> None:
        """A ruling is taken back."""
        if self.known.rulings:
            at = self.chance.randrange(len(self.known.rulings))
            left = (*self.known.rulings[:at], *self.known.rulings[at + 1 :])
            self.changed(replace(self.known, rulings=left), f"ruling {at + 1} taken back")

    def rule(self, now: Standing) -> None:
        """Anything is ruled that can be."""

        def played(more: Rulings) -> Standing:
            return standing(self.made, replace(self.known, rulings=(*self.known.rulings, *more)))

        try:
            ruling = draft(self.made.bracket, played, self.wanted(now))
        except Refusal:
            return
        rulings = (*self.known.rulings, ruling)
        self.changed(replace(self.known, rulings=rulings), f"ruled: {ruling}")

    def wanted(self, now: Standing) -> Wanted:
        """What is to be ruled; places only when all is over."""
        chance, key = self.chance, self.bout(now)
        over = not any(state.status is Status.READY for state in now.bouts.values())
        dice = chance.random()
        if over and dice < 0.3:
            place = chance.choice((None, *range(1, self.made.bracket.places + 1)))
            return WantedPlace(chance.choice(list(self.made.scorers)), place, shared=dice < 0.1)
        if dice < 0.6:
            return WantedAdvance(Seat(key, chance.randrange(2)), self.anybody())
        if dice < 0.8:
            return WantedSides(key, (self.anybody(), self.anybody()))
        return WantedResult(key, chance.choice((0, 1, None)))

    def bout(self, now: Standing) -> BoutKey:
        """The bout that a ruling is about: behind the last ruled one, an open one, or any."""
        last = self.known.rulings[-1] if self.known.rulings else None
        if last and not isinstance(last, PlaceRuling) and self.chance.random() < ONWARD:
            behind = self.made.bracket.onward(last.bout, Exit.WINNER)
            if behind:
                return behind.bout
        bouts = list(now.bouts)
        ahead = [key for key in bouts if now.bouts[key].status in AHEAD]
        return self.chance.choice(ahead if ahead and self.chance.random() < OPEN_ONES else bouts)

    def anybody(self) -> str | None:
        """Any entry; sometimes nobody."""
        return None if self.chance.random() < 0.12 else self.chance.choice(list(self.made.scorers))

    def done(self, known: Facts, words: str) -> None:
        """An act that must not touch what was wrestled."""
        try:
            after = standing(self.made, known)
        except BoutNotReady:
            return
        if all(_sides(after, key) == known.sides[key] for key in known.outcomes):
            self.known = known
            self.log.append(words)

    def changed(self, known: Facts, words: str) -> None:
        """An act that may touch what was wrestled: chance chooses about it, as people would."""

        def played(kept: Collection[BoutKey], rulings: Rulings) -> Standing:
            return standing(self.made, _only(known, kept, rulings))

        choices: dict[BoutKey, Choice] = {}
        while True:
            told = {key: known.sides[key] for key in known.outcomes}
            again = replay(self.made.bracket, told, played, known.rulings, choices)
            open_ = [key for key in again.lost if key not in choices]
            if not open_:
                break
            choices[open_[0]] = self.chance.choice(list(Choice))
        rulings = (*known.rulings, *again.made)
        clash = in_two(self.made.bracket, again.standing) or placed_twice(again.standing, rulings)
        if clash or again.lost:
            return
        kept = known.outcomes.keys() - set(again.void)
        self.known = _only(known, kept, rulings)
        told_choices = ", ".join(f"{key} {choice}" for key, choice in again.chosen.items())
        self.log.append(f"{words} ({told_choices})" if told_choices else words)


def _only(known: Facts, kept: Collection[BoutKey], rulings: Rulings) -> Facts:
    outcomes: Mapping[BoutKey, Outcome] = {
        key: one for key, one in known.outcomes.items() if key in kept
    }
    return replace(known, outcomes=outcomes, rulings=rulings)


def _sides(now: Standing, key: BoutKey) -> tuple[str, str]:
    top, bottom = now.bouts[key].sides
    return str(top), str(bottom)
