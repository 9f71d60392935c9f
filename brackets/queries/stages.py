"""How far the weights and the mats are: the one count of bouts."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Count

from brackets.core.formats import Shape
from brackets.core.graph import BoutKey
from brackets.core.standing import AHEAD, Status, to_wrestle
from brackets.models import Bout, Drawn
from brackets.queries import bracket, shape_for, shape_of
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.queries.groups import is_waiting


@dataclass(frozen=True, slots=True)
class Counted:
    """A bout that is or was to be wrestled (`to_wrestle`); `planned`: the lines alone make it one.

    `wrestled`: it is decided, and not because somebody is out.
    """

    status: Status
    numbered: bool
    mat: str
    wrestled: bool
    planned: bool

    @property
    def unnumbered(self) -> bool:
        """Whether numbering gives it one: not where only a ruling filled it and it is over."""
        return not self.numbered and (self.planned or self.status is Status.READY)


@dataclass(frozen=True, slots=True)
class Stage:
    """How far a weight is on the way from its entries to numbered bouts.

    `shape`: the format that its field takes, None where there is none for it, and where wrestlers
    wait to be grouped (`waits`), who are drawn in their groups. All counts are of `counted`.
    """

    weight: WeightClass
    entered: int
    seeded: int
    shape: Shape | None
    drawn: Drawn | None
    waits: bool
    counted: tuple[Counted, ...]

    @property
    def bouts(self) -> int:
        return len(self.counted)

    @property
    def wrestled(self) -> int:
        return sum(one.wrestled for one in self.counted)

    @property
    def numbered(self) -> int:
        return sum(one.numbered for one in self.counted)

    @property
    def unnumbered(self) -> int:
        return sum(one.unnumbered for one in self.counted)

    @property
    def byes(self) -> int:
        """How many lines of an elimination stay empty."""
        return max(0, self.shape.lines - self.entered) if self.shape else 0

    def at(self, status: Status) -> int:
        """How many of the numbered bouts stand so."""
        return sum(one.numbered and one.status is status for one in self.counted)


@dataclass(frozen=True, slots=True)
class MatLoad:
    """How many bouts a mat has in all, and how many of them are still to come."""

    name: str
    bouts: int
    left: int


def stages(of: Tournament) -> list[Stage]:
    """Every weight from light to heavy; four queries whatever their number."""
    entered = Entry.objects.filter(tournament=of, status=Entry.Status.ENTERED).order_by()
    field = {
        row["weight_class"]: row
        for row in entered.values("weight_class").annotate(all=Count("pk"), seeded=Count("seed"))
    }
    drawn = {row.weight_class_id: row for row in _drawn(of)}
    counted = _counted(drawn.values())
    found = []
    for weight in WeightClass.objects.filter(tournament=of).select_related("division"):
        made, waits = drawn.get(weight.pk), is_waiting(weight)
        here = field.get(weight.pk, {"all": 0, "seeded": 0})
        found.append(
            Stage(
                weight=weight,
                entered=here["all"],
                seeded=here["seeded"],
                shape=shape_of(made) if made else shape_for(weight, 0 if waits else here["all"]),
                drawn=made,
                waits=waits,
                counted=tuple(counted[made.pk]) if made else (),
            )
        )
    return found


def mat_loads(of: Tournament) -> list[MatLoad]:
    """The mats of a tournament with their bouts; mats that it no longer has come last."""
    on: dict[str, list[Counted]] = {mat: [] for mat in of.mats}
    for bouts in _counted(_drawn(of)).values():
        for one in bouts:
            if one.numbered:
                on.setdefault(one.mat, []).append(one)
    loads = [
        MatLoad(mat, len(bouts), sum(one.status in AHEAD for one in bouts))
        for mat, bouts in on.items()
    ]
    known = len(of.mats)
    return [*loads[:known], *sorted(loads[known:], key=lambda load: load.name)]


def _drawn(of: Tournament) -> Iterable[Drawn]:
    made = Drawn.objects.filter(weight_class__tournament=of)
    return made.select_related("weight_class__division")


def _counted(made: Iterable[Drawn]) -> dict[int, list[Counted]]:
    """The bouts of these brackets that count, by the bracket."""
    planned = {row.pk: frozenset(bracket(row).bouts) for row in made}
    found: dict[int, list[Counted]] = defaultdict(list)
    rows = (
        Bout.objects.filter(drawn__in=planned)
        .order_by()
        .values_list("drawn_id", "round", "position", "status", "number", "mat", "implied")
    )
    for pk, code, position, status, number, mat, implied in rows:
        stands, real = Status(status), BoutKey(code, position) in planned[pk]
        if to_wrestle(stands, planned=real):
            over = stands is Status.DECIDED and not implied
            found[pk].append(Counted(stands, number is not None, mat, over, real))
    return found
