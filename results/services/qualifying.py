"""The places of finished tournaments, taken into the next one."""

import secrets
from collections.abc import Iterable
from dataclasses import dataclass

from django.utils.text import slugify

from results.queries.qualifying import Look, look
from seeding.core.errors import NoPlan
from seeding.core.qualifiers import Coming
from seeding.entries.core.spelling import folded
from seeding.entries.models import Entry, Team, Tournament
from seeding.entries.permissions import Right, require
from seeding.entries.services.entry import admit, open_weight
from seeding.entries.services.team import make_team
from seeding.journal.core.errors import Stale
from seeding.journal.services import Call, Deed, act
from seeding.services.qualifying import write_berth


@act
def take_places(*, call: Call, tournament: Tournament, mark: str = "") -> Deed:
    """Enter who placed at the regions' events: who advances, and all others as candidates.

    Who is here already is not entered again; a place that was corrected since moves him. Nothing
    of a drawn weight is touched. `mark`: that of what was looked at; refused where it would do
    something else now.
    """
    require(call, tournament.pk, Right.DIRECT)
    seen = look(tournament)
    if seen.plan is None:
        raise NoPlan
    if mark and mark != seen.mark:
        raise Stale(what="What the regions' places would do")
    teams = Teams.of(tournament)
    entered = [_take(one, seen, teams) for one in seen.found.coming]
    return Deed(tournament.log_id, "places.taken-in", {"entry": entered})


@dataclass(frozen=True, slots=True)
class Teams:
    """The teams of the tournament by folded name; a merged one stands for its heir."""

    tournament: Tournament
    known: dict[str, Team]

    @classmethod
    def of(cls, tournament: Tournament) -> "Teams":
        rows = Team.objects.filter(tournament=tournament).select_related("merged_into")
        return cls(tournament, {folded(row.name): row.merged_into or row for row in rows})

    def like(self, theirs: Team) -> Team:
        """The team of that name here, made where there is none."""
        name = folded(theirs.name)
        if name not in self.known:
            key = _free_key(theirs, self.known.values())
            self.known[name] = make_team(
                self.tournament, theirs.name, theirs.short, theirs.members, key
            )
        return self.known[name]


def _free_key(team: Team, others: Iterable[Team]) -> str:
    taken = {other.key for other in others}
    wanted = slugify(team.name)[:40]
    return wanted if wanted and wanted not in taken else f"t{secrets.token_hex(5)}"


def _take(one: Coming, seen: Look, teams: Teams) -> int:
    weight = seen.weights[one.placed.weight]
    open_weight(weight)
    region = next(at for at in seen.regions if at.letter == one.placed.region)
    if one.here is not None:
        entry = Entry.objects.get(pk=one.here.entry)
    else:
        theirs = seen.entries[one.placed.entry]
        details = {"publish": theirs.publish, "scoring": theirs.scoring}
        entry = admit(weight, teams.like(theirs.team), theirs.wrestler, details, "")
    write_berth(entry, region, one.placed.place, one.how)
    return entry.pk
