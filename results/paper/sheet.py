"""The sheet of a weight as PDF: its drawing, where need be in parts, or its cross tables."""

from collections.abc import Iterator

from django.utils.translation import gettext as _
from reportlab.platypus import PageBreak

from brackets.queries.words import round_name
from results.paper.drawn import Drawn
from results.queries.cross import Between, Cross
from results.queries.papers import Paper
from results.queries.sheets import Seen
from results.queries.words import awaited, needed_words, span_words
from seeding.entries.models import Tournament
from seeding.journal.paper import (
    Block,
    Column,
    Sheet,
    heading_of_table,
    pdf,
    size_of,
    table,
    text,
    title,
)

LINE, SMALL, WRESTLER = 12.0, 16.0, 60.0


def printed(tournament: Tournament, paper: Paper, seq: int, size: str) -> bytes:
    """The sheet as PDF on pages of that size, as of that act."""
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
    return pdf(frame, [title(name), *_blocks(paper, frame.width)])


def _blocks(paper: Paper, width: float) -> Iterator[Block]:
    if paper.sheet.places:
        taken = " · ".join(f"{place} {who.name}" for place, who in paper.sheet.places)
        yield text(taken, bold=_("Places:"))
    for cross in paper.crosses:
        yield from _cross(cross, width)
    for at, drawing in enumerate(paper.drawings):
        if at:
            yield PageBreak()
        if drawing.span:
            yield text(span_words(drawing.span), bold=_("Part %(n)s.") % {"n": at + 1})
        yield Drawn(drawing)
    if not paper.drawings:
        yield from _listed(paper, width)


def _cross(cross: Cross, width: float) -> Iterator[Block]:
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
            one.person.name if one.person else _("not published"),
            *(", ".join(map(_told, cell.bouts)) for cell in one.cells),
            f"{one.won} / {one.wrestled}",
            str(one.place or ""),
        ]
        for one in cross.members
    ]
    yield table(columns, rows, width)


def _told(one: Between) -> str:
    if one.bout.decided:
        word = _("won") if one.won else _("lost")
        return f"{word} {one.bout.result}" if one.bout.result else _("nobody won")
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
    yield table(columns, [_row(bout) for bout in paper.sheet.real], width)


def _row(bout: Seen) -> list[str]:
    names = [side.person.name if side.person else awaited(side) for side in bout.sides]
    result = bout.result
    if bout.spared:
        result = _("not needed")
    elif bout.unsure and bout.round.needed:
        result = needed_words(bout.round.needed)
    return [str(bout.number or ""), round_name(bout.round.code), *names, result]
