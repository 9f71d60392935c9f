"""The sheet of a weight as PDF: its drawing, where need be in parts, or its cross tables."""

from collections.abc import Collection, Iterator

from django.utils.text import Truncator
from django.utils.translation import gettext as _
from reportlab.platypus import PageBreak

from brackets.queries.words import round_name
from results.paper.drawn import Drawn
from results.queries.cross import Between, Cross
from results.queries.drawing import Drawing
from results.queries.papers import Paper
from results.queries.people import Person
from results.queries.ruled import Ruled
from results.queries.seen import Seen, Side
from results.queries.sheets import Sheet as WeightSheet
from results.queries.words import awaited, needed_words, overruled_words, span_words
from seeding.entries.models import Tournament, User
from seeding.journal.paper import (
    Block,
    Column,
    Sheet,
    heading_of_table,
    pdf,
    room_for,
    size_of,
    table,
    text,
    title,
)

LINE, SMALL, WRESTLER = 12.0, 16.0, 60.0
LEAST = 110.0  # millimetres: so high a drawing is legible at least
REASON = 100  # letters of a reason that a line of the legend has room for


def printed(
    tournament: Tournament, paper: Paper, seq: int, size: str, *, reasons: bool = False
) -> bytes:
    """The sheet as PDF on pages of that size, as of that act.

    `reasons`: with why each ruling was made and by whom, which is for the desk only.
    """
    weight = paper.sheet.weight
    state = _("official") if paper.sheet.official else _("provisional")
    frame = Sheet(
        title=f"{tournament.name}, {weight.label}",
        head=f"{tournament.name} · {weight.division.name} · {weight.label}",
        foot=_("%(state)s, act %(seq)s") % {"state": state, "seq": seq},
        size=size_of(size),
        landscape=True,
    )
    name = _("Weight %(weight)s") % {"weight": weight.label}
    if reasons:
        name = _("%(sheet)s, for the desk only") % {"sheet": name}
    return pdf(frame, [title(name), *blocks(paper, frame.width, reasons=reasons)])


def blocks(paper: Paper, width: float, *, reasons: bool = False) -> Iterator[Block]:
    """What stands on the pages below the title."""
    sheet = paper.sheet
    if sheet.places:
        taken = " · ".join(_with_mark(f"{at} {who.name}", sheet, who) for at, who in sheet.places)
        yield text(taken, bold=_("Places:"))
    drawn = [_marked_in(one) for one in paper.drawings]
    elsewhere = {one.number for one in sheet.rulings} - set().union(*drawn)
    yield from _legend(sheet, elsewhere, reasons)
    yield from _void(sheet, reasons)
    for cross in paper.crosses:
        yield from _cross(sheet, cross, width)
    for at, drawing in enumerate(paper.drawings):
        if at:
            yield PageBreak()
        if drawing.span:
            yield text(span_words(drawing.span), bold=_("Part %(n)s.") % {"n": at + 1})
        yield from _legend(sheet, drawn[at], reasons)
        yield room_for(LEAST)
        yield Drawn(drawing)
    if not paper.drawings:
        yield from _listed(paper, width)


def _marked_in(drawing: Drawing) -> set[int]:
    return {number for one in drawing.boxes for number in one.bout.rulings}


def _legend(sheet: WeightSheet, numbers: Collection[int], reasons: bool) -> Iterator[Block]:
    """What the marks stand for: what was ruled."""
    for one in sheet.rulings:
        if one.number in numbers:
            yield text(_ruled(one, reasons), bold=one.mark, small=True)


def _ruled(one: Ruled, reasons: bool) -> str:
    says = _("Ruling: %(what)s") % {"what": " ".join(one.says)}
    return f"{says} {_why(one.row.reason, one.row.author)}" if reasons else says


def _void(sheet: WeightSheet, reasons: bool) -> Iterator[Block]:
    """What was wrestled and counts for nothing."""
    for one in sheet.void:
        why = _why(one.row.reason, one.row.voided_by) if reasons else ""
        yield text(f"{one.says} {why}", bold=_("Void."), small=True)


def _why(reason: str, by: User | None) -> str:
    who = by.username if by else _("operator")
    return f"“{Truncator(reason).chars(REASON)}” ({who})"


def _with_mark(words: str, sheet: WeightSheet, who: Person | None) -> str:
    mark = sheet.place_mark(who.key) if who else ""
    return f"{words} {mark}".strip()


def _cross(sheet: WeightSheet, cross: Cross, width: float) -> Iterator[Block]:
    where = _("Pool %(letter)s") % {"letter": cross.letter}
    name = _("Best of three") if cross.best_of_three else _("Round robin")
    yield from heading_of_table(where if cross.letter else name)
    columns = [
        Column(_("Line"), LINE, number=True),
        Column(_("Wrestler"), WRESTLER),
        *(Column(str(one.line)) for one in cross.members),
        Column(_("Won"), SMALL, number=True),
        Column(_("Rank") if cross.letter else _("Place"), SMALL, number=True),
    ]
    rows = [
        [
            str(one.line),
            _with_team(one.person) if one.person else _("not published"),
            *(", ".join(map(_told, cell.bouts)) for cell in one.cells),
            f"{one.won} / {one.wrestled}",
            _with_mark(str(one.place or ""), sheet, None if cross.letter else one.person),
        ]
        for one in cross.members
    ]
    yield table(columns, rows, width)


def _told(one: Between) -> str:
    return f"{_between(one)} {one.bout.mark}".strip()


def _between(one: Between) -> str:
    if one.bout.decided:
        word = _("won") if one.won else _("lost")
        return f"{word} {one.bout.decision}" if one.bout.decision else _("nobody won")
    if one.bout.spared:
        return _("not needed")
    return _("bout %(number)s") % {"number": one.bout.number} if one.bout.number else ""


def _listed(paper: Paper, width: float) -> Iterator[Block]:
    """The bouts in their order: what stands instead of a drawing."""
    yield from heading_of_table(_("Bouts"))
    columns = [
        Column(_("Bout"), LINE, number=True),
        Column(_("Round"), 30),
        Column(_("Red")),
        Column(_("Green")),
        Column(_("Result"), 45),
    ]
    sheet = paper.sheet
    yield table(columns, [_row(sheet.bouts[key]) for key in sheet.bracket.bouts], width)


def _with_team(who: Person) -> str:
    return f"{who.name} ({who.team.short})"


def _stands(side: Side) -> str:
    who = _with_team(side.person) if side.person else awaited(side)
    return _("%(name)s, won") % {"name": who} if side.won else who


def _row(bout: Seen) -> list[str]:
    names = [_stands(side) for side in bout.sides]
    result = " ".join(filter(None, (bout.decision, overruled_words(bout))))
    if bout.spared:
        result = _("not needed")
    elif bout.unsure and bout.round.needed:
        result = needed_words(bout.round.needed)
    told = f"{result} {bout.mark}".strip()
    return [str(bout.number or ""), round_name(bout.round.code), *names, told]
