"""Wrestlers whose names are alike: one person, or two. Nothing is merged but by this act."""

from dataclasses import dataclass

from django.db.models import F, Q, QuerySet

from seeding.core.errors import BothEntered, TwoPeople
from seeding.core.repeats import completed, contradict
from seeding.entries.models import Entry, Tournament, Wrestler
from seeding.entries.permissions import Right, may_found, require
from seeding.journal.core.errors import Invalid, NotFound, Problem
from seeding.journal.services import Call, Deed, act
from seeding.models import NotSame, OtherName, PriorBout


@act
def keep_apart(*, call: Call, tournament: Tournament, one: Wrestler, other: Wrestler) -> Deed:
    """Judge that two wrestlers are two people; they are not proposed again."""
    require(call, tournament.pk, Right.DIRECT)
    _two_of(tournament, one, other)
    first, second = sorted((one, other), key=lambda row: row.pk)
    NotSame.objects.get_or_create(
        one=first,
        other=second,
        defaults={
            "organisation_id": tournament.organisation_id,
            "author_id": call.author,
            "at": call.now,
        },
    )
    return Deed(tournament.log_id, "wrestlers.kept-apart", {"wrestler": [first.pk, second.pk]})


@act
def merge_wrestlers(*, call: Call, tournament: Tournament, keep: Wrestler, gone: Wrestler) -> Deed:
    """Judge that two wrestlers are one person, who goes on under the name of `keep`.

    The bouts and entries of `gone` become those of `keep`, and files that speak of him by his old
    name mean `keep` from now on. This reaches into every tournament of the organisation and cannot
    be undone, so it needs the right to found tournaments for it.
    """
    require(call, tournament.pk, Right.DIRECT)
    may_found(call, tournament.organisation_id)
    _two_of(tournament, keep, gone)
    _refuse_two_people(keep, gone)
    _refuse_both_entered(keep, gone)
    folded = _join_bouts(keep, gone)
    entries = list(Entry.objects.filter(wrestler=gone).values_list("pk", flat=True))
    Entry.objects.filter(pk__in=entries).update(wrestler=keep, version=F("version") + 1)
    _learn_name(keep, gone)
    subject = {"wrestler": keep.pk, "gone": gone.pk, "entry": entries, "folded": folded}
    gone.delete()
    return Deed(tournament.log_id, "wrestlers.merged", subject)


def _two_of(tournament: Tournament, *wrestlers: Wrestler) -> None:
    for row in wrestlers:
        if row.organisation_id != tournament.organisation_id:
            raise NotFound(what="wrestler", name=row.uid)
    if len({row.pk for row in wrestlers}) < len(wrestlers):
        raise Invalid([Problem("other", "Choose two different wrestlers.")])


def _refuse_two_people(keep: Wrestler, gone: Wrestler) -> None:
    met = PriorBout.objects.filter(struck_at=None).filter(
        Q(winner=keep, loser=gone) | Q(winner=gone, loser=keep)
    )
    bout = met.select_related("winner", "loser").first()
    if bout:
        raise TwoPeople(one=keep.name, other=gone.name, bout=bout.value)


def _refuse_both_entered(keep: Wrestler, gone: Wrestler) -> None:
    weights = Entry.objects.filter(wrestler=gone).values("weight_class")
    twice = Entry.objects.filter(wrestler=keep, weight_class__in=weights)
    row = twice.select_related("weight_class", "tournament").first()
    if row:
        raise BothEntered(
            one=keep.name,
            other=gone.name,
            weight=row.weight_class.label,
            tournament=row.tournament.name,
        )


@dataclass(frozen=True, slots=True)
class _Joined:
    """A bout of the one who goes, as one of the other's; and the same bout if it is known."""

    row: PriorBout
    twin: PriorBout | None

    @property
    def clashes(self) -> bool:
        """Whether the two reports of the bout contradict; one that is struck says nothing."""
        if self.twin is None or self.row.struck_at or self.twin.struck_at:
            return False
        return contradict(self.row.value, self.twin.value)


def _join_bouts(keep: Wrestler, gone: Wrestler) -> int:
    """Give the bouts over; how many were told of both and are folded into one."""
    _of(gone).filter(Q(winner=keep) | Q(loser=keep)).delete()  # struck, or the merge is refused
    joined = [_joined(row, keep, gone) for row in _of(gone)]
    clashes = [one for one in joined if one.clashes]
    if clashes:
        raise Invalid([_clash(one) for one in clashes])
    for one in joined:
        if one.twin:
            _fold(one.row, one.twin)
        else:
            one.row.save()
    return sum(one.twin is not None for one in joined)


def _of(wrestler: Wrestler) -> QuerySet[PriorBout]:
    rows = PriorBout.objects.filter(Q(winner=wrestler) | Q(loser=wrestler))
    return rows.select_related("winner", "loser")


def _joined(row: PriorBout, keep: Wrestler, gone: Wrestler) -> _Joined:
    if row.winner_id == gone.pk:
        row.winner = keep
    else:
        row.loser = keep
    row.tell(row.value)
    twins = _of(keep).exclude(pk=row.pk)
    return _Joined(row, twins.filter(identity=row.identity).first())


def _fold(row: PriorBout, twin: PriorBout) -> None:
    """Make one bout of two reports; a tournament of ours that gave it is remembered."""
    row.delete()
    twin.tell(completed(twin.value, row.value))
    if row.given_by_id and not twin.given_by_id:
        twin.given_by_id, twin.given_as = row.given_by_id, row.given_as
    twin.save()


def _clash(one: _Joined) -> Problem:
    row, twin = one.row, one.twin or one.row
    told = (f"{bout.winner.name} over {bout.loser.name}, {bout.value}" for bout in (row, twin))
    message = (
        f"one bout is told in two ways: {' and '.join(told)}; strike the wrong one, then merge"
    )
    return Problem(f"{row.date.isoformat()}, {row.weight}", message)


def _learn_name(keep: Wrestler, gone: Wrestler) -> None:
    """Files call `keep` also by the name of `gone`, and by all that `gone` was called."""
    OtherName.objects.filter(wrestler=gone).update(wrestler=keep)
    OtherName.objects.get_or_create(
        organisation_id=keep.organisation_id,
        given=gone.given,
        family=gone.family,
        home=gone.home,
        defaults={"wrestler": keep},
    )
    for row in NotSame.objects.filter(Q(one=gone) | Q(other=gone)):
        _judge_anew(row, keep, gone)


def _judge_anew(row: NotSame, keep: Wrestler, gone: Wrestler) -> None:
    """Who is not the one who goes is not the one who stays either."""
    third = row.other_id if row.one_id == gone.pk else row.one_id
    first, second = sorted((keep.pk, third))
    row.delete()
    if first != second:
        NotSame.objects.get_or_create(
            one_id=first,
            other_id=second,
            defaults={
                "organisation_id": row.organisation_id,
                "author_id": row.author_id,
                "at": row.at,
            },
        )
