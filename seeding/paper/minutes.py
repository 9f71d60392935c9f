"""The minutes of a weight on paper."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from seeding.journal.paper import (
    Block,
    Column,
    Sheet,
    gap,
    heading,
    heading_of_table,
    listed,
    pdf,
    size_of,
    table,
    text,
    title,
    together,
)
from seeding.queries.minutes import Heard, Line, Minutes, Moved, Signable

DIGITS = 16
"""So much of the digest stands at the foot of every page; all of it under the signatures."""


def printed(found: Signable, at: datetime, size: str) -> bytes:
    """The minutes as PDF of that size, printed at that time."""
    minutes = found.minutes
    when = at.astimezone(ZoneInfo(minutes.time_zone))
    name = _("Minutes of the seeding of %(label)s") % {"label": minutes.weight}
    sheet = Sheet(
        title=f"{name}, {minutes.tournament}",
        head=f"{minutes.tournament} · {minutes.division} · {minutes.weight}",
        foot=_("%(at)s %(zone)s · digest %(digest)s")
        % {
            "at": f"{when:%Y-%m-%d %H:%M}",
            "zone": minutes.time_zone,
            "digest": found.digest[:DIGITS],
        },
        size=size_of(size),
    )
    return pdf(sheet, [title(name), *blocks(found, sheet.width)])


def blocks(found: Signable, width: float) -> list[Block]:
    """What stands under the title, over so many millimetres."""
    minutes = found.minutes
    parts = (
        _frame(found),
        _order(minutes, width),
        _decided(minutes),
        _circles(minutes),
        _list(minutes),
        [together(list(_signatures(found, width)))],
    )
    return [block for part in parts for block in part]


def _frame(found: Signable) -> Iterator[Block]:
    minutes = found.minutes
    state = ", ".join(filter(None, (minutes.state, minutes.adopted_at, minutes.adopted_by)))
    lot = _("seed %(seed)s, stream %(version)s") % {
        "seed": minutes.lot_seed,
        "version": minutes.lot_version,
    }
    by_lot = "; ".join(", ".join(group) for group in minutes.drawn) or _("nobody")
    rules = minutes.rules
    book = rules.book and _("of the rule book %(book)s") % {"book": rules.book}
    season = ", ".join(filter(None, (str(rules.bouts), rules.first, rules.last)))
    facts = (
        (_("Tournament"), f"{minutes.tournament}, {minutes.starts_on} ({minutes.time_zone})"),
        (_("State"), f"{state}, {_('drawn')}" if found.locked else state),
        (_("List"), "; ".join(filter(None, (rules.name, book)))),
        (_("Source"), rules.source or _("none named")),
        (_("Its way"), f"{rules.shape}. {rules.totals}"),
        (_("Bouts looked at"), season),
        (_("Lot"), f"{lot}; {_('by lot:')} {by_lot}"),
    )
    for word, value in facts:
        yield text(value, bold=f"{word}:")


def _order(minutes: Minutes, width: float) -> Iterator[Block]:
    yield from heading_of_table(_("Order"))
    columns = (
        Column(_("Place"), 11, number=True),
        Column(_("Seed"), 10, number=True),
        Column(_("Wrestler"), 42),
        Column(_("Team"), 38),
        Column(_("Proposed"), 15, number=True),
        Column(_("Record"), 15),
        Column(_("Numbers")),
    )
    rows = (
        (
            str(line.place),
            str(line.seed or "\N{EN DASH}"),
            line.name,
            line.team,
            str(line.proposed),
            line.record,
            ", ".join(line.numbers),
        )
        for line in minutes.order
    )
    yield table(columns, rows, width)
    yield heading(_("Why, between every two neighbours"))
    for line in minutes.order:
        yield from _why(line)


def _why(line: Line) -> Iterator[Block]:
    flags = listed((f"▲ {flag}" for flag in line.flags), small=True)
    lead = f"{line.place} {line.name}."
    bouts = list(line.bouts)
    if line.more:
        bouts.append(_("and %(n)s more") % {"n": line.more})
    yield together([text(line.why, bold=lead), *flags])
    yield from listed(bouts, small=True)
    yield gap(1.2)


def _decided(minutes: Minutes) -> Iterator[Block]:
    left = [", ".join(group) for group in minutes.undecided]
    if left:
        yield from _section(_("Left to the committee, not decided"), left)
    yield from _section(_("Moves by the committee"), map(_moved, minutes.moves))
    yield from _section(_("Challenges"), map(_heard, minutes.challenges))
    if minutes.challenges_until:
        yield text(_("Heard until %(at)s.") % {"at": minutes.challenges_until})
    recusals = (
        f"{one.member} ({', '.join(one.teams)}): {', '.join(one.wrestlers)}"
        for one in minutes.recusals
    )
    yield from _section(_("Recusals"), recusals)


def _section(words: str, items: Iterable[str]) -> Sequence[Block]:
    lines = listed(items)
    return (heading(words), *(lines or [text(_("None."))]))


def _moved(one: Moved) -> str:
    places = {"before": one.before, "to": one.to}
    if one.before:
        way = _("from place %(before)s to place %(to)s") % places
    else:
        way = _("to place %(to)s") % places
    return f"{one.name} {way}: “{one.reason}” {one.author}, {one.at}"


def _heard(one: Heard) -> str:
    asked = f"{one.name} > {one.over}, {one.by}: “{one.reason}” {one.recorded_by}, {one.at}"
    said = f"“{one.answer}”" if one.answer else ""
    return " ".join(filter(None, (asked, f"· {one.state}", said, one.answered_by, one.answered_at)))


def _circles(minutes: Minutes) -> Iterator[Block]:
    if minutes.circles:
        yield heading(_("Circles"))
    for one in minutes.circles:
        yield text("", bold=", ".join(one.names))
        yield from listed(one.round, small=True)
        yield text(one.settled)
        if one.against:
            yield text(_("The order goes against:"))
            yield from listed(one.against, small=True)


def _list(minutes: Minutes) -> Iterator[Block]:
    proposal = ", ".join(f"{at} {name}" for at, name in enumerate(minutes.proposal, 1))
    yield heading(_("Proposal by the criteria alone"))
    yield text(proposal)
    yield from _section(_("The list"), minutes.rules.criteria)
    yield from listed(minutes.rules.settings, small=True)
    yield from _section(_("Results that count as"), minutes.rules.counted)
    given = minutes.put_in
    yield from _section(_("Put in by people"), (*given.rankings, *given.places, *given.ballots))


def _signatures(found: Signable, width: float) -> Iterator[Block]:
    yield heading(_("Signatures"))
    if found.signatures:
        columns = (Column(_("Name"), 55), Column(_("Signed in as"), 35), Column(_("When"), 30))
        rows = (
            (
                one.name,
                one.username,
                one.at,
                _("stands") if one.stands else _("lapsed: the minutes changed since"),
            )
            for one in found.signatures
        )
        yield table((*columns, Column(_("State"))), rows, width)
    else:
        yield text(_("Nobody has signed yet."))
    yield gap(2)
    words = _("Digest of these minutes (SHA-256): %(digest)s") % {"digest": found.digest}
    yield text(words, small=True)
