"""Reading terms and points; the keys are explained in `seeding.core.criterion_rules`."""

from seeding.core.counting_rules import Counting, bad, number, positive, unique
from seeding.core.criteria import Criterion
from seeding.core.measured_rules import ledger, measured
from seeding.core.points import Band, Bands, Points, Shortfall, Term, term
from seeding.entries.core.rulebook import Section

LINEAR, SHORTFALL, BANDS = "linear", "shortfall", "bands"


def terms(section: Section, kinds: Counting) -> tuple[Term | Bands, ...]:
    """Read the list `terms`."""
    found: list[Term | Bands] = []
    for table in section.sections("terms"):
        with table:
            found.append(_term(table, kinds))
    if not found:
        raise bad(section, "terms", "a list of at least one table")
    unique(section, "terms", [one.name for one in found])
    return tuple(found)


def linear(section: Section, kinds: Counting) -> tuple[Term, ...]:
    """Read `terms` of which each gives a wrestler points by himself."""
    found = terms(section, kinds)
    kept = tuple(one for one in found if isinstance(one, Term))
    if len(kept) < len(found):
        raise bad(section, "terms", f"a list of terms {LINEAR} or {SHORTFALL}")
    return kept


def _term(table: Section, kinds: Counting) -> Term | Bands:
    name, kind = table.text("name"), table.text("term", among=(LINEAR, SHORTFALL, BANDS))
    with table.section("of") as inner:
        of = measured(inner, kinds)
        less = _shortfall(table, inner, kinds) if kind == SHORTFALL else None
    factor = number(table, "factor")
    return Bands(name, of, factor, _bands(table)) if kind == BANDS else term(name, of, factor, less)


def _shortfall(table: Section, inner: Section, kinds: Counting) -> Shortfall:
    return Shortfall(ledger(inner, kinds), table.whole("full_bouts", 1), positive(table, "each"))


def _bands(table: Section) -> tuple[Band, ...]:
    wanted = 'a list of pairs of a rising difference, the last perhaps "more", and points'
    rows = table.raw("bands")
    if not isinstance(rows, list | tuple) or not rows:
        raise bad(table, "bands", wanted)
    found: list[Band] = []
    for at, row in enumerate(rows):
        if not isinstance(row, list | tuple) or len(row) != 2:
            raise bad(table, "bands", wanted)
        pair = Section(f"{table.path('bands')}.{at}", {"up_to": row[0], "points": row[1]})
        last = at == len(rows) - 1 and row[0] == "more"
        found.append(Band(None if last else number(pair, "up_to"), number(pair, "points")))
    steps = [band.up_to for band in found if band.up_to is not None]
    if steps != sorted(set(steps)):
        raise bad(table, "bands", wanted)
    return tuple(found)


def points(table: Section, kinds: Counting) -> Criterion:
    """Read points as one criterion."""
    return Points(table.text("name"), terms(table, kinds))
