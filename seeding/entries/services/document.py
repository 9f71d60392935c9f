"""The ground floor's sections of a tournament file, written into the tables."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from seeding.entries.models import (
    Division,
    Entry,
    Organisation,
    Role,
    Team,
    Tournament,
    WeightClass,
    Wrestler,
)
from seeding.entries.rulebooks import readable, with_settings
from seeding.entries.services.division import scored_places
from seeding.entries.services.tournament import GATES, frame
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import OPERATOR, Call

Document = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Ground:
    """What the file's ids stand for, once its first sections are in the tables."""

    tournament: Tournament
    divisions: dict[str, Division] = field(default_factory=dict)
    teams: dict[str, Team] = field(default_factory=dict)
    weights: dict[str, WeightClass] = field(default_factory=dict)
    entries: dict[str, Entry] = field(default_factory=dict)
    wrestlers: dict[str, Wrestler] = field(default_factory=dict)


def load_ground(call: Call, organisation: Organisation, document: Document) -> Ground:
    """Tournament, divisions, teams, weights, entries and the season's other wrestlers.

    The document has passed its schema; ids that name nothing are refused with their path.
    """
    ground = Ground(_tournament(call, organisation, document["tournament"]))
    for item in document["divisions"]:
        ground.divisions[item["id"]] = _division(ground.tournament, item)
    for item in document["teams"]:
        ground.teams[item["id"]] = _team(ground.tournament, item)
    _join_merged(ground, document["teams"])
    for position, item in enumerate(document["weight_classes"], start=1):
        ground.weights[item["id"]] = _weight(ground, position, item)
    known = Wrestlers(organisation)
    for position, item in enumerate(document["entries"]):
        ground.entries[item["id"]] = _entry(ground, known, f"entries[{position}]", item)
    for item in document.get("wrestlers", ()):
        ground.wrestlers[item["id"]] = known.find(item["id"], item, item.get("team", ""))
    return ground


def _tournament(call: Call, organisation: Organisation, item: Document) -> Tournament:
    made = frame(
        organisation=organisation,
        slug=item["slug"],
        name=item["name"],
        starts_on=date.fromisoformat(item["starts_on"]),
        time_zone=item["time_zone"],
        mats=item["mats"],
    )
    gates = item.get("publish", {})
    shown = {f"shows_{kind}": gates.get(kind, False) for kind in GATES}
    Tournament.objects.filter(pk=made.pk).update(**shown)
    if call.actor != OPERATOR:
        Role.objects.create(tournament=made, user_id=call.actor, name=Role.Name.OWNER)
    return made


def _division(tournament: Tournament, item: Document) -> Division:
    settings = item.get("settings", {})
    kept = item.get("snapshot")
    return Division.objects.create(
        tournament=tournament,
        key=item["id"],
        name=item["name"],
        rulebook=item["rulebook"],
        settings=settings,
        snapshot=readable(kept) if kept else with_settings(item["rulebook"], settings),
    )


def _team(tournament: Tournament, item: Document) -> Team:
    return Team.objects.create(
        tournament=tournament,
        key=item["id"],
        name=item["name"],
        short=item["short"],
        members=item.get("members", []),
    )


def _join_merged(ground: Ground, items: list[Document]) -> None:
    for position, item in enumerate(items):
        if heir := item.get("merged_into"):
            team = look_up(ground.teams, heir, f"teams[{position}].merged_into")
            Team.objects.filter(pk=ground.teams[item["id"]].pk).update(merged_into=team)


def _weight(ground: Ground, position: int, item: Document) -> WeightClass:
    where = f"weight_classes[{position - 1}]"
    division = look_up(ground.divisions, item["division"], f"{where}.division")
    return WeightClass.objects.create(
        tournament=ground.tournament,
        division=division,
        key=item["id"],
        label=item["label"],
        position=position,
        places=scored_places(division, item.get("places"), f"{where}.places"),
    )


def _entry(ground: Ground, known: "Wrestlers", where: str, item: Document) -> Entry:
    team = look_up(ground.teams, item["team"], f"{where}.team")
    weight = look_up(ground.weights, item["weight_class"], f"{where}.weight_class")
    return Entry.objects.create(
        tournament=ground.tournament,
        weight_class=weight,
        team=team,
        wrestler=known.find(item.get("wrestler", ""), item, item.get("home") or team.name),
        key=item["id"],
        seed=item.get("seed"),
        scoring=item.get("scoring", True),
        status=item.get("status", Entry.Status.ENTERED),
        publish=item.get("publish", Entry.Publish.FULL),
        weigh_in=item.get("weighed_in", Entry.WeighIn.NOT_YET),
        rank=item.get("rank"),
        qualifying_place=item.get("qualifying_place"),
    )


class Wrestlers:
    """The organisation's wrestlers by opaque id and by name, read once."""

    def __init__(self, organisation: Organisation) -> None:
        self.organisation = organisation
        rows = list(Wrestler.objects.filter(organisation=organisation))
        self.by_uid = {row.uid: row for row in rows}
        self.by_name = {(row.given, row.family, row.home): row for row in rows}

    def find(self, uid: str, names: Document, home: str) -> Wrestler:
        """The wrestler with that id, else of that name and team, else a new one with that id."""
        name = (names.get("given", ""), names["family"], home)
        found = self.by_uid.get(uid) or self.by_name.get(name)
        if not found:
            given, family, home = name
            found = Wrestler(organisation=self.organisation, given=given, family=family, home=home)
            found.uid = uid or found.uid
            found.save()
            self.by_uid[found.uid] = self.by_name[name] = found
        return found


def look_up(known: Mapping[str, Any], name: str, where: str) -> Any:
    """What the file's id stands for; refused with its path where it stands for nothing."""
    if name not in known:
        raise Invalid([Problem(where, f"“{name}” is not an id of this file.")])
    return known[name]
