"""What the committee did, taken out of a tournament file."""

from datetime import datetime

from seeding.entries.models import User
from seeding.entries.services.document import Document, Ground, look_up
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import OPERATOR, Call
from seeding.models import Challenge, Override, OwnTeam, SeedOrder, Signature


def load_committee(
    call: Call, ground: Ground, order: SeedOrder, item: Document, where: str
) -> None:
    """Adoption, moves, challenges and signatures of a weight.

    Signatures are kept only where the operator of the machine loads the file: out of anybody
    else's hands they would be no more than a claim. People are known by their sign-in names;
    what somebody unknown did has no author.
    """
    SeedOrder.objects.filter(pk=order.pk).update(
        adopted_at=_moment(item, "adopted_at", where)
        or (call.now if item.get("adopted") else None),
        adopted_by=_user(item.get("adopted_by", "")),
        challenges_until=_moment(item, "challenges_until", where),
    )
    moves = [
        _move(call, ground, order, move, f"{where}.overrides[{at}]")
        for at, move in enumerate(item.get("overrides", ()))
    ]
    for at, one in enumerate(item.get("challenges", ())):
        _challenge(call, ground, order, one, moves, f"{where}.challenges[{at}]")
    if call.actor == OPERATOR:
        for at, one in enumerate(item.get("signatures", ())):
            _signature(call, order, one, f"{where}.signatures[{at}]")


def load_own_teams(ground: Ground, document: Document) -> None:
    """Who of the committee belongs to which team; who cannot sign in here is passed over."""
    for at, item in enumerate(document.get("own_teams", ())):
        user = _user(item["user"])
        for number, key in enumerate(item["teams"]):
            team = look_up(ground.teams, key, f"own_teams[{at}].teams[{number}]")
            if user:
                OwnTeam.objects.get_or_create(tournament=ground.tournament, user=user, team=team)


def _move(call: Call, ground: Ground, order: SeedOrder, item: Document, where: str) -> Override:
    return Override.objects.create(
        order=order,
        entry=look_up(ground.entries, item["entry"], f"{where}.entry"),
        before=item.get("before", 0),
        to=item["to"],
        reason=item["reason"],
        author=_user(item.get("author", "")),
        at=_moment(item, "at", where) or call.now,
    )


def _challenge(
    call: Call, ground: Ground, order: SeedOrder, item: Document, moves: list[Override], where: str
) -> None:
    number = item.get("move")
    if number is not None and number >= len(moves):
        raise Invalid([Problem(f"{where}.move", f"There is no move {number} in `overrides`.")])
    Challenge.objects.create(
        order=order,
        entry=look_up(ground.entries, item["entry"], f"{where}.entry"),
        over=look_up(ground.entries, item["over"], f"{where}.over"),
        by=item["by"],
        reason=item["reason"],
        author=_user(item.get("author", "")),
        at=_moment(item, "at", where) or call.now,
        state=item["state"],
        answer=item.get("answer", ""),
        answered_by=_user(item.get("answered_by", "")),
        answered_at=_moment(item, "answered_at", where),
        move=None if number is None else moves[number],
    )


def _signature(call: Call, order: SeedOrder, item: Document, where: str) -> None:
    user = _user(item["user"])
    if user:
        Signature.objects.update_or_create(
            order=order,
            user=user,
            digest=item["digest"],
            defaults={"name": item["name"], "at": _moment(item, "at", where) or call.now},
        )


def _user(name: str) -> User | None:
    return User.objects.filter(username=name).first() if name else None


def _moment(item: Document, field: str, where: str) -> datetime | None:
    text = item.get(field)
    if text is None:
        return None
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        found = None
    if found is None or found.tzinfo is None:
        hint = "Write day, time and offset, such as 2026-03-19T15:00:00Z."
        raise Invalid([Problem(f"{where}.{field}", hint)])
    return found
