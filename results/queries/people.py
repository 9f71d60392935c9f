"""The wrestlers of a tournament as the public may see them."""

import unicodedata
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from django.utils.crypto import salted_hmac
from django.utils.translation import gettext as _

from results.queries.gates import Gates
from results.queries.leavers import is_out
from seeding.entries.core.names import Publish, Shown, initial, shown
from seeding.entries.models import Entry, Team, Tournament, WeightClass

STRICTEST = (Publish.HIDDEN, Publish.INITIALS, Publish.FULL)


@dataclass(frozen=True, slots=True)
class Person:
    """An entry as published.

    `handle` names him in addresses: his own id, or where his name is not shown in full a code of
    this tournament, because his own id would lead to other tournaments that name him. `brief` fits
    a box of the sheet on screen; paper takes the longest of `forms` that fits. `seed` is None
    where seeds are not published. `out`: he wrestles no more, as far as results are published.
    """

    entry: int
    key: str
    weight: WeightClass
    handle: str
    name: str
    brief: str
    forms: tuple[str, ...]
    seed: int | None
    team: Team
    scoring: bool
    scratched: bool
    out: bool


@dataclass(frozen=True, slots=True)
class People:
    """Everyone entered, by primary key and by key of the entry; nobody while entries are closed.

    In order of weight and of the numbers, since the order of a file may be that of the names.
    """

    by_pk: Mapping[int, Person]
    by_key: Mapping[str, Person]

    @classmethod
    def of(cls, tournament: Tournament, gates: Gates) -> "People":
        """One query."""
        found = list(_persons(tournament, gates)) if gates.entries else []
        return cls({one.entry: one for one in found}, {one.key: one for one in found})

    def where(
        self, *, handle: str = "", team: int | None = None, weight: int | None = None
    ) -> list[Person]:
        """Those who wrestle under a handle, for a team, in a weight, from light to heavy."""
        return [
            one
            for one in self.by_pk.values()
            if (not handle or one.handle == handle)
            and (team is None or one.team.pk == team)
            and (weight is None or one.weight.pk == weight)
        ]


def _persons(tournament: Tournament, gates: Gates) -> Iterator[Person]:
    rows = list(
        Entry.objects.filter(tournament=tournament)
        .exclude(status=Entry.Status.STANDBY)
        .select_related("wrestler", "team", "weight_class")
        .annotate(out=is_out(tournament))
        .order_by()
    )
    levels, numbers = _levels(rows), _numbers(rows)
    for row in sorted(rows, key=lambda one: (one.weight_class.position, numbers[one.pk])):
        who, level = row.wrestler, levels[row.wrestler_id]
        name = shown(
            who.given,
            who.family,
            level,
            number=numbers[row.pk],
            team=row.team.short,
            fallback=_("Wrestler {number} of {team}"),
        )
        yield Person(
            entry=row.pk,
            key=row.key,
            weight=row.weight_class,
            handle=who.uid if level is Publish.FULL else _code(tournament, who.uid),
            name=name.text,
            brief=_brief(name, numbers[row.pk], row.team.short),
            forms=_forms(name, numbers[row.pk]),
            seed=row.seed if gates.seeds else None,
            team=row.team,
            scoring=row.scoring,
            scratched=row.status != Entry.Status.ENTERED,
            out=bool(row.out) and gates.results,
        )


def _levels(rows: Iterable[Entry]) -> dict[int, Publish]:
    """How each wrestler is shown: as the strictest of his entries says."""
    levels: dict[int, Publish] = {}
    for row in rows:
        known = levels.get(row.wrestler_id, Publish.FULL)
        levels[row.wrestler_id] = min(known, Publish(row.publish), key=STRICTEST.index)
    return levels


def _numbers(rows: Iterable[Entry]) -> dict[int, int]:
    """A number for each entry in its weight, by the ids: not by name, seed or place in a file."""
    weights: dict[int, list[Entry]] = defaultdict(list)
    for row in rows:
        weights[row.weight_class_id].append(row)
    return {
        row.pk: number
        for field in weights.values()
        for number, row in enumerate(sorted(field, key=_code_of), start=1)
    }


def _code_of(row: Entry) -> str:
    return salted_hmac("results.people.number", row.wrestler.uid).hexdigest()


def _code(tournament: Tournament, uid: str) -> str:
    return salted_hmac("results.people", f"{tournament.log.key}/{uid}").hexdigest()[:12]


def _forms(name: Shown, number: int) -> tuple[str, ...]:
    """A name from its longest form to its shortest."""
    if not (name.given or name.family):
        return (_("Wrestler %(number)s") % {"number": number},)
    return name.text, f"{initial(name.given)} {name.family}".strip(), name.family or name.text


def _brief(name: Shown, number: int, short: str) -> str:
    """The longest form of a name that fits a box of the sheet beside its team."""
    forms = _forms(name, number)
    if len(forms) == 1:
        return forms[0]
    room = max(8, ROOM - len(short[:TEAM]))
    fits = [form for form in forms if _width(form) <= room]
    return fits[0] if fits else _cut(forms[-1], room)


def _cut(text: str, room: float) -> str:
    while _width(text) > room - 1:
        text = text[:-1].rstrip()
    return f"{text}…"


def _width(text: str) -> float:
    """How wide a text is drawn, in letters of middle width."""
    bases = (unicodedata.normalize("NFD", letter)[0] for letter in text)
    return sum(0.55 if one in NARROW else 1.45 if one in WIDE else 1 for one in bases)


ROOM, TEAM = 13, 6  # letters
NARROW, WIDE = frozenset("fijlrtIJ.,'- "), frozenset("mwMW")
