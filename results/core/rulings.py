"""Rulings as they are written down: the shape that tables and tournament files share.

sides        {"bout", "ways": [{"bout", "side" or "exit", "entry"}, ...]}
advancement  the same
result       {"bout", "sides": [top, bottom], "winner": entry or null}
place        {"places": [{"entry", "place" or null}, ...], "shared"}
"""

from collections.abc import Iterable, Mapping
from typing import Any

from brackets.core.rulings import (
    PlaceRuling,
    ResultRuling,
    Ruling,
    RulingKind,
    Seating,
    SeatRuling,
    Way,
)
from brackets.core.sources import BoutKey, Exit, From, Seat

Item = Mapping[str, Any]
SIDES = ("top", "bottom")


def write_ruling(ruling: Ruling) -> dict[str, Any]:
    """A ruling as plain values; its kind is written beside them."""
    if isinstance(ruling, PlaceRuling):
        places = [{"entry": entry, "place": place} for entry, place in ruling.places.items()]
        return {"places": places, "shared": ruling.shared}
    if isinstance(ruling, ResultRuling):
        winner = None if ruling.winner is None else ruling.sides[ruling.winner]
        return {"bout": str(ruling.bout), "sides": list(ruling.sides), "winner": winner}
    return {"bout": str(ruling.bout), "ways": [_way(one) for one in ruling.ways]}


def entries_named(ruling: Ruling) -> Iterable[str]:
    """The entries that a ruling is about."""
    if isinstance(ruling, PlaceRuling):
        return ruling.places
    if isinstance(ruling, ResultRuling):
        return ruling.sides
    return (one.entry for one in ruling.ways if one.entry)


def bouts_named(ruling: Ruling) -> Iterable[BoutKey]:
    """The bouts that a ruling is about."""
    if isinstance(ruling, PlaceRuling):
        return ()
    if isinstance(ruling, ResultRuling):
        return (ruling.bout,)
    return (ruling.bout, *(one.way.bout for one in ruling.ways))


def _way(seating: Seating) -> dict[str, Any]:
    way = seating.way
    there = {"side": SIDES[way.slot]} if isinstance(way, Seat) else {"exit": str(way.exit)}
    return {"bout": str(way.bout), **there, "entry": seating.entry}


def read_ruling(kind: RulingKind, item: Item) -> Ruling:
    """Read what `write_ruling` writes."""
    if kind is RulingKind.PLACE:
        return PlaceRuling({one["entry"]: one["place"] for one in item["places"]}, item["shared"])
    bout = BoutKey.parse(item["bout"])
    if kind is RulingKind.RESULT:
        top, bottom = item["sides"]
        won = {top: 0, bottom: 1, None: None}[item["winner"]]
        return ResultRuling(bout, (top, bottom), won)  # type: ignore[arg-type]
    ways = tuple(Seating(_read_way(one), one["entry"]) for one in item["ways"])
    return SeatRuling(bout, ways, whole=kind is RulingKind.SIDES)


def _read_way(item: Item) -> Way:
    bout = BoutKey.parse(item["bout"])
    return (
        From(bout, Exit(item["exit"])) if "exit" in item else Seat(bout, SIDES.index(item["side"]))
    )
