"""A tournament under way: what stands in the tables, and the acts of a day."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from django.db.models import QuerySet

from brackets.core.graph import BoutKey, Bracket, Round
from brackets.core.rules import DoubleLoss
from brackets.models import Bout, Drawn
from brackets.queries import bracket
from brackets.queries import rules_of as bracket_rules
from results.core.errors import ResultsRest
from results.core.outcomes import Outcome
from results.core.rules import ResultRules
from results.models import Result, Withdrawal
from results.queries.facts import rules_of
from results.services import enter_result, withdraw
from results.services.record import save_result
from results.services.settle import settle
from seeding.entries.models import Entry, Tournament
from seeding.journal.services import OPERATOR, Call

FIRST = datetime(2026, 3, 19, 15, 0, tzinfo=UTC)


@dataclass
class Hall:
    """A tournament with a drawn weight. Every act comes a minute after the one before."""

    tournament: Tournament
    drawn: Drawn
    singly: bool
    minutes: int = 0
    columns: list[int] = field(default_factory=list)

    @property
    def call(self) -> Call:
        self.minutes += 1
        return Call(OPERATOR, FIRST + timedelta(minutes=self.minutes))

    @property
    def rules(self) -> ResultRules:
        return rules_of(self.drawn.weight_class.division).results

    @property
    def drops(self) -> bool:
        """Whether both go on as losers from a championship bout that nobody won."""
        return bracket_rules(self.drawn.weight_class.division).double_loss is DoubleLoss.DROP

    @property
    def built(self) -> Bracket:
        return bracket(self.drawn)

    def round_of(self, key: BoutKey) -> Round:
        return self.built.round_of(key)

    @property
    def bouts(self) -> QuerySet[Bout]:
        rows = Bout.objects.filter(drawn=self.drawn)
        return rows.select_related("top", "bottom").order_by("column", "position")

    def all(self) -> list[Bout]:
        return self._with_drawn(self.bouts)

    def ready(self) -> list[Bout]:
        return self._with_drawn(self.bouts.filter(status=Bout.Status.READY))

    def _with_drawn(self, rows: Iterable[Bout]) -> list[Bout]:
        """The rows, all of the one bracket that is known already."""
        found = list(rows)
        for row in found:
            row.drawn = self.drawn
        return found

    def results(self) -> list[Result]:
        rows = Result.objects.filter(bout__drawn=self.drawn)
        return list(rows.order_by("bout__column", "bout__position"))

    def enter(self, told: Iterable[tuple[Bout, Outcome]]) -> None:
        """Enter the results of bouts that are ready."""
        if self.singly:
            for bout, outcome in told:
                if Bout.objects.filter(pk=bout.pk, status=Bout.Status.READY).exists():
                    enter_result(call=self.call, bout=bout, outcome=outcome)
            return
        for bout, outcome in told:
            save_result(self.call, bout, outcome)
        settle(self.drawn)

    def leave(self, entry: Entry, kind: str) -> bool:
        """Whether he leaves; who cannot as never having been there does for another reason.

        Nobody leaves an open bout before one that he has wrestled and that would change hands.
        """
        for reason in (kind, Withdrawal.Kind.MEDICAL):
            try:
                withdraw(call=self.call, entry=entry, kind=reason)
            except ResultsRest:
                continue
            return True
        return False

    def gone(self) -> set[int]:
        rows = Withdrawal.objects.filter(entry__weight_class=self.drawn.weight_class_id)
        return set(rows.values_list("entry_id", flat=True))
