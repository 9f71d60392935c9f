"""Reading criteria of a list.

Keys of every criterion
    name       what people read; unique in its list; overrides and second lists go by it
    criterion  which one (below), and its settings, all of them:

    head-to-head      bouts; rule = "majority" | "most-recent" | "majority-then-recent" | "sweep"
    common-opponents  bouts; rule = "more-wins" | "percentage" | "beat-one-who-beat"; repeats;
                      minimum_opponents; own_bouts = "left-out" | "counted" (those of the two)
    win-percentage    bouts; minimum_bouts; equal = "more-wins" | "nobody"; missing
    wins              bouts; missing
    strong-record     win percentage against good opponents: over; bouts; minimum_bouts; equal;
                      missing
    quality-wins      wins over good opponents: over; bouts; repeats
    rpi               bouts; parts = three numbers; reading = "without-the-wrestler" | "all-bouts";
                      minimum_bouts; missing
    rating            bouts; rating = "colley" | "massey" | "bradley-terry" | "pagerank" |
                      "glicko-2"; minimum_bouts; missing
    ranking           ranking = name of a ranking put in by form or file; missing
    earlier-place     event = name of a table of places put in; places_at; missing
    returning-placer  event; places_at; groups = lists of places, best group first, equal inside
                      a group; 0 = took part without placing
    place-points      tables = list of tables of event, points (first place first), took_part (for
                      whoever was there without one of these places) and factor; places_at; take =
                      "highest" | "sum"; missing
    common-events     events = names of tables of places: who placed higher in more of those in
                      which both placed
    ballots           ranks on the ballots: take = "mean" | "sum"; drop_best; drop_worst; missing
    ballots-of-others the same without the ranks that level wrestlers gave each other
    points            terms (below) added: who has more is better

    over              "ranked" (then also ranking, top) | "field" (entered in this weight) |
                      "winning" (then also percentage, minimum_bouts, of the opponent)
    bouts             where: "this-weight" | "adjacent-weights" (this and those beside it) |
                      "other-weights" | "any-weight"; or a table of at and days: only the last days
    places_at         as bouts, without days
    repeats           "every-bout" | "each-opponent-once"
    missing           how a wrestler without a number (too few bouts, not ranked, did not place)
                      stands against one who has one: "worse", or "nobody" (decides nothing)

Keys of every term
    name (unique among the terms), term = "linear" | "shortfall" | "bands"
    of        the table of a criterion that gives everybody a number
    factor    the number is taken so many times
    full_bouts, each (shortfall)  points lost for each bout missing to a full record
    bands (bands)  list of pairs: up to this difference, points for the better; the last may begin
              with "more"
"""

from collections.abc import Callable, Mapping

from seeding.core.counting_rules import Counting, bad, choice, where_counted
from seeding.core.criteria import Criterion, Repeats
from seeding.core.measured_rules import MEASURED
from seeding.core.meetings import CommonOpponents, CommonRule, HeadToHead, HeadToHeadRule, OwnBouts
from seeding.core.point_rules import points
from seeding.core.season import At
from seeding.core.tables import CommonEvents, ReturningPlacer
from seeding.entries.core.rulebook import Section


def criterion(table: Section, kinds: Counting) -> Criterion:
    """Read one table of criteria; the keys that nobody reads are refused by leaving it."""
    return READERS[table.text("criterion", among=tuple(READERS))](table, kinds)


def head_to_head(table: Section, kinds: Counting) -> HeadToHead:
    """Read the meetings of two."""
    counted = where_counted(table, kinds.head_to_head, kinds)
    return HeadToHead(table.text("name"), counted, choice(table, "rule", HeadToHeadRule))


def returning_placer(table: Section, kinds: Counting) -> ReturningPlacer:
    """Read groups of places at an earlier event."""
    return ReturningPlacer(
        table.text("name"), table.text("event"), choice(table, "places_at", At), _groups(table)
    )


def _common_opponents(table: Section, kinds: Counting) -> Criterion:
    rule, own = choice(table, "rule", CommonRule), choice(table, "own_bouts", OwnBouts)
    if rule is CommonRule.BEAT_ONE_WHO_BEAT and own is OwnBouts.COUNTED:
        raise bad(table, "own_bouts", f"{OwnBouts.LEFT_OUT} with this rule")
    return CommonOpponents(
        table.text("name"),
        where_counted(table, kinds.common_opponents, kinds),
        rule,
        choice(table, "repeats", Repeats),
        table.whole("minimum_opponents", 1),
        own,
    )


def _common_events(table: Section, kinds: Counting) -> Criterion:
    events = table.texts("events")
    if not events or len(set(events)) < len(events):
        raise bad(table, "events", "a list of names of tables of places, each once")
    return CommonEvents(table.text("name"), events)


def _groups(table: Section) -> tuple[tuple[int, ...], ...]:
    wanted = "a list of lists of places from 0, each place once"
    groups = table.raw("groups")
    if not isinstance(groups, list | tuple) or not groups:
        raise bad(table, "groups", wanted)
    places = [place for group in groups if isinstance(group, list | tuple) for place in group]
    known = all(type(place) is int and place >= 0 for place in places)
    filled = all(isinstance(group, list | tuple) and group for group in groups)
    if not known or not filled or len(set(places)) < len(places):
        raise bad(table, "groups", wanted)
    return tuple(tuple(group) for group in groups)


READERS: Mapping[str, Callable[[Section, Counting], Criterion]] = {
    "head-to-head": head_to_head,
    "common-opponents": _common_opponents,
    "returning-placer": returning_placer,
    "common-events": _common_events,
    "points": points,
    **MEASURED,
}
