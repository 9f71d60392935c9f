"""A random tournament from its entries to its last bout, through the program's own services."""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from random import Random

from brackets.core.graph import Section
from brackets.models import Bout, Drawn
from brackets.services import number_bouts
from results.core.outcomes import Kind, Outcome, Side
from results.models import Withdrawal
from results.queries.facts import rules_of
from results.services import adjust, draw_weight
from results.services.load import load_tournament
from seeding.entries.models import Entry, Organisation, Team, Tournament, WeightClass
from seeding.entries.services import found_organisation, scratch_entry
from seeding.journal.services import OPERATOR, Call
from tests.audit.case import Case
from tests.audit.events import CHOICES, SEATS, Event
from tests.audit.files import BESIDE, WEIGHT, begin
from tests.audit.hall import FIRST, Hall
from tests.audit.late import change_late
from tests.audit.mending import correct, double_disqualification, dropped, make_ruling
from tests.audit.outcomes import any_outcome, side, unwon, won

CORRECTIONS = (Event.CORRECTED, *CHOICES)
RULINGS = (*SEATS, Event.RULED_RESULT, Event.RULED_PLACE)
BETWEEN = (Event.LATE_CHANGE, *CORRECTIONS, *RULINGS)
LATE, FEW = 0.5, 3
LEAVING = [str(one) for one in Withdrawal.Kind if one is not Withdrawal.Kind.MISCONDUCT]


@dataclass
class Day:
    """`level`: in pools wins are evenly spread. `happened`: how often what happened. `rounds`: how
    many left before which round; none where a bout of it was ready and nobody did."""

    case: Case
    chance: Random
    hall: Hall
    waiting: list[Event]
    targets: list[str]
    level: bool
    happened: Counter[Event] = field(default_factory=Counter)
    rounds: Counter[str] = field(default_factory=Counter)

    @classmethod
    def of(cls, case: Case) -> "Day":
        """The tournament drawn, before its first bout."""
        chance = case.chance()
        more = chance.choice((1, 1, 2)) if Event.SCRATCH in case.events else 0
        tournament = _begun(case, chance, more)
        _scratch(tournament, chance, more)
        drawn = _drawn(tournament, f"{case.seed}/{case.number}")
        waiting: list[Event] = [one for one in case.events if one is not Event.SCRATCH]
        hall = Hall(tournament, drawn, case.singly)
        day = cls(case, chance, hall, waiting, [], level=chance.random() < 0.5)
        day.happened[Event.SCRATCH] += more
        codes = list(dict.fromkeys(key.round for key in hall.built.bouts))
        day.targets = _targets(chance, hall, codes, case.row.leavers)
        if Event.NO_SHOW in waiting:
            waiting.remove(Event.NO_SHOW)
            day._no_show()
        return day

    def wrestle(self, look: Callable[[], None]) -> None:
        """To the end: bouts as they become ready, and between them what shall happen.

        `look` is called each time before it goes on.
        """
        turn = 0
        while True:
            look()
            self._between(at_end=False, often=0.15 if turn else 0.05)
            ready = self.hall.ready()
            if not ready and not self._between(at_end=True, often=1.0):
                break
            self.rounds.update(dict.fromkeys((bout.round for bout in ready), 0))
            if ready:
                self._wave(ready)
            turn += 1
        if self.chance.random() < 0.2:
            self._adjust()

    def _wave(self, ready: list[Bout]) -> None:
        count = len(ready) if self.chance.random() < 0.6 else self.chance.randint(1, len(ready))
        told = [(bout, self._outcome(bout)) for bout in self.chance.sample(ready, count)]
        self.hall.enter(told)
        for bout, outcome in told:
            self._after(bout, outcome)

    def _outcome(self, bout: Bout) -> Outcome:
        if Event.NOBODY_WINS_A_FINAL in self.waiting and self._is_final(bout):
            self._happened(Event.NOBODY_WINS_A_FINAL)
            return double_disqualification()
        if Event.MISCONDUCT in self.waiting and self.chance.random() < self._often:
            self._happened(Event.MISCONDUCT)
            if self.chance.random() < 0.15:
                return Outcome(Kind.DOUBLE_DISQUALIFICATION, None, misconduct=True)
            return Outcome(Kind.DISQUALIFICATION, side(self.chance), misconduct=True)
        if self._dropping(bout):
            return unwon(self.chance, self.hall.rules)
        if self.level and self.hall.round_of(bout.key).section is Section.POOL:
            return won(self.chance, self.hall.rules, self._behind(bout))
        return any_outcome(self.chance, self.hall.rules)

    def _dropping(self, bout: Bout) -> bool:
        """Where both drop and a ruling is to come, more bouts are without winner."""
        if Event.RULED_ADVANCEMENT not in self.waiting or not self.hall.drops:
            return False
        section = self.hall.round_of(bout.key).section
        return section is Section.CHAMPIONSHIP and self.chance.random() < 0.2

    def _behind(self, bout: Bout) -> Side:
        """The side that has won less so far."""
        top, bottom = (Bout.objects.filter(winner=one).count() for one in (bout.top, bout.bottom))
        return side(self.chance) if top == bottom else (1 if top > bottom else 0)

    @property
    def _often(self) -> float:
        """How likely one of the bouts is the one of which something is to happen."""
        return max(0.25, 3 / len(self.hall.built.bouts))

    def _is_final(self, bout: Bout) -> bool:
        """The bout for 1st; in a pool one of its last two rounds."""
        last = [one.code for one in self.hall.built.rounds][-2:]
        found = self.hall.round_of(bout.key)
        pooled = found.section is Section.POOL and bout.round in last
        return pooled or bool(found.places and 1 in found.places)

    def _after(self, bout: Bout, outcome: Outcome) -> None:
        """Who lost by what the rule book says may be taken out by the head table."""
        if outcome.winner is None or outcome.kind not in self.hall.rules.out_after:
            return
        loser = bout.bottom if outcome.winner == 0 else bout.top
        if loser and loser.pk not in self.hall.gone() and self.chance.random() < 0.4:
            self.hall.leave(loser, self.chance.choice(LEAVING))

    def _between(self, *, at_end: bool, often: float) -> bool:
        """What shall happen between two waves; whether anything did."""
        done = self._leave(at_end=at_end)
        for event in list(self.waiting):
            early = event is Event.RULED_PLACE and (done or not at_end)
            soon = 0.8 if event is Event.LATE_CHANGE else often
            if event is Event.RULED_ADVANCEMENT and any(dropped(self.hall, self.chance)):
                soon = 0.8
            if event not in BETWEEN or early or self.chance.random() > soon:
                continue
            if self._act(event):
                self._happened(event)
                done = True
            elif at_end:
                self.waiting.remove(event)
        return done

    def _act(self, event: Event) -> bool:
        if event is Event.LATE_CHANGE:
            return change_late(self.hall, self.chance)
        act = correct if event in CORRECTIONS else make_ruling
        return act(self.hall, self.chance, event)

    def _leave(self, *, at_end: bool) -> bool:
        """Somebody who stands in a bout of a round that is aimed at leaves before it."""
        if Event.WITHDRAWAL not in self.waiting or at_end:
            return False
        gone, done = self.hall.gone(), False
        for bout in self.hall.ready():
            sides = [one for one in (bout.top, bout.bottom) if one and one.pk not in gone]
            if bout.round in self.targets and sides and self.chance.random() < 0.6:
                kind = self.chance.choice([*LEAVING, *LEAVING, str(Withdrawal.Kind.MISCONDUCT)])
                if not self.hall.leave(self.chance.choice(sides), kind):
                    continue
                self.targets.remove(bout.round)
                self.happened[Event.WITHDRAWAL] += 1
                self.rounds[bout.round] += 1
                done = True
                gone = self.hall.gone()
        return done

    def _no_show(self) -> None:
        """Somebody does not appear: his first bout is a forfeit, or he is out from the start."""
        bout = self.chance.choice(self.hall.ready() or self.hall.all())
        absent = self.chance.choice([one for one in (bout.top, bout.bottom) if one])
        if bout.status == Bout.Status.READY and self.chance.random() < 0.5:
            here = 0 if bout.bottom == absent else 1
            self.hall.enter([(bout, Outcome(Kind.FORFEIT, 1 if here else 0))])
        self.hall.leave(absent, self.chance.choice(LEAVING))
        self.happened[Event.NO_SHOW] += 1

    def _adjust(self) -> None:
        team = Team.objects.filter(tournament=self.hall.tournament).order_by("pk").first()
        division = self.hall.drawn.weight_class.division
        if team:
            points = Decimal(self.chance.choice(("-1", "-0.5", "2")))
            adjust(call=self.hall.call, division=division, team=team, points=points, reason="bench")

    def _happened(self, event: Event) -> None:
        self.happened[event] += 1
        self.waiting.remove(event)


def _targets(chance: Random, hall: Hall, codes: list[str], leavers: int) -> list[str]:
    """The rounds before which somebody leaves: of all, or a few behind the first loss.

    Behind many who left, few bouts for the lower places are wrestled at all.
    """
    rounds = (hall.round_of(key) for key in hall.built.bouts)
    late = {one.code: 0 for one in rounds if one.section is Section.CONSOLATION or one.needed}
    if late and chance.random() < LATE:
        return chance.sample(list(late), min(len(late), FEW))
    return chance.sample(codes, min(len(codes), leavers))


def _begun(case: Case, chance: Random, more: int) -> Tournament:
    organisation = Organisation.objects.filter(slug="audit").first() or found_organisation(
        slug="audit", name="Audit"
    )
    file = begin(case, chance, more)
    load_tournament(call=Call(OPERATOR, FIRST), organisation=organisation, document=file)
    return Tournament.objects.get(organisation=organisation, slug=f"t{case.number}")


def _scratch(tournament: Tournament, chance: Random, more: int) -> None:
    rows = list(
        Entry.objects.filter(tournament=tournament, weight_class__key=WEIGHT).order_by("pk")
    )
    for entry in chance.sample(rows, more):
        scratch_entry(call=Call(OPERATOR, FIRST), entry=Entry.objects.get(pk=entry.pk))


def _drawn(tournament: Tournament, seed: str) -> Drawn:
    for weight in WeightClass.objects.filter(tournament=tournament).order_by("position"):
        draw_weight(call=Call(OPERATOR, FIRST), weight=weight, lot_seed=f"{seed}/{weight.key}")
    number_bouts(call=Call(OPERATOR, FIRST), tournament=tournament)
    rows = Drawn.objects.select_related("weight_class__division", "weight_class__tournament")
    return rows.get(weight_class__tournament=tournament, weight_class__key=WEIGHT)


def wrestle_beside(tournament: Tournament, chance: Random) -> None:
    """The first of the weights beside, where there is one: to its end, without accidents."""
    rows = Drawn.objects.select_related("weight_class__division", "weight_class__tournament")
    drawn = rows.filter(weight_class__tournament=tournament, weight_class__key=BESIDE[0]).first()
    if not drawn:
        return
    hall, rules = Hall(tournament, drawn, singly=False), rules_of(drawn.weight_class.division)
    while ready := hall.ready():
        hall.enter([(bout, any_outcome(chance, rules.results)) for bout in ready])
