"""What the document says was worked out, against what the rules give."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from tests.audit.judge.changes import changes
from tests.audit.judge.crossings import faults
from tests.audit.judge.details import details, strays
from tests.audit.judge.facts import Doc, Facts
from tests.audit.judge.given import margins, settings
from tests.audit.judge.kept import kept
from tests.audit.judge.ledger import PARTS, Ledger, Score, number, ranked
from tests.audit.judge.lineup import lineup
from tests.audit.judge.model import UNKNOWN, Key, Plan, Seat
from tests.audit.judge.numbers import numbers
from tests.audit.judge.places import Places, Placing
from tests.audit.judge.play import Pass
from tests.audit.judge.read import challenged, plan_of, weights
from tests.audit.judge.standing import Standing, State


class Weight:
    """A weight worked out."""

    def __init__(self, facts: Facts) -> None:
        self.facts = facts
        self.plan: Plan = plan_of(facts, challenged(facts))
        self.passed = Pass(self.plan, facts)
        self.at: Standing = self.passed.play()
        self.placed: Places = Placing(self.at, facts).work()
        by = self.placed
        standing = self.at
        if not facts.settings["team_points"]["true_placement_scores"]:
            met = {key: state.sides for key, state in standing.states.items()}
            facts = replace(facts, rulings=facts.rulings_on_format, met=met)
            standing = Pass(plan_of(facts, []), facts).play()
            by = Placing(standing, facts).work()
        self.scores: dict[str, Score] = Ledger(standing, facts, by).work()


def differences(document: Doc) -> Iterator[str]:
    """Every difference, in plain words."""
    yield from settings(document)
    drawn = list(weights(document))
    done = [Weight(facts) for facts in drawn if facts.fits]
    for facts in drawn:
        if not facts.fits:
            yield f"{facts.label}: {facts.format} on {len(facts.lines)} lines, which there is not"
    brackets = {b["weight_class"]: b for b in document.get("brackets", [])}
    for weight in done:
        facts = weight.facts
        entries = list(facts.entries.values())
        yield from changes(facts.label, brackets[facts.weight], facts.settings["bracket"])
        yield from lineup(facts.label, brackets[facts.weight], entries, facts.settings)
        yield from kept(document, facts, brackets[facts.weight])
        yield from crossings(facts)
        yield from bouts(document, weight)
        yield from strays(document, facts)
        yield from margins(document, facts)
        yield from places(document, weight)
    yield from repeated(document, {facts.weight for facts in drawn})
    yield from numbers(document, [weight.facts for weight in done])
    yield from points(document, done)


def repeated(document: Doc, drawn: set[str]) -> Iterator[str]:
    """Bouts and lines of the tables that are there twice, or of nothing that was drawn."""
    bouts_of = [(b["weight_class"], b["round"], b["position"]) for b in document.get("bouts", [])]
    teams_of = [(row["division"], row["team"]) for row in document.get("team_points", [])]
    for what, times in Counter[tuple[str, ...]]([*bouts_of, *teams_of]).items():
        if times > 1:
            yield f"{' '.join(map(str, what))}: {times} times in the document"
    placed = {row["weight_class"] for row in document.get("places", [])}
    for weight in sorted(({row[0] for row in bouts_of} | placed) - drawn):
        yield f"{weight}: bouts or places, and not drawn"
    for division in sorted({row[0] for row in teams_of} - {d["id"] for d in document["divisions"]}):
        yield f"{division}: points of teams, and no such division"


def crossings(facts: Facts) -> Iterator[str]:
    """Where the crossings that are told are not what they should be."""
    rules = facts.settings["bracket"]
    if facts.format == "elimination":
        size = len(facts.lines)
        setting, rounds = rules["crossings"].get(str(size), []), size.bit_length() - 1
        for fault in faults(setting, rounds, facts.crossings, rules["wrestleback"]):
            yield f"{facts.label}: {fault}"
    elif facts.crossings:
        yield f"{facts.label}: crossings, and no elimination"


def name(key: Key) -> str:
    """A bout in words."""
    return f"{key[0]}-{key[1]}"


def seat(entry: Seat) -> str | None:
    """A side as the document writes it: nothing where nobody stands yet or ever."""
    return None if entry == UNKNOWN else entry


def bouts(document: Doc, weight: Weight) -> Iterator[str]:
    """Who stands in each bout, where it stands and who won it."""
    said = {
        (b["round"], b["position"]): b
        for b in document.get("bouts", [])
        if b["weight_class"] == weight.facts.weight
    }
    where = weight.facts.label
    for key, state in weight.at.states.items():
        raw = said.pop(key, None)
        if raw is None:
            if weight.passed.draw.wrestled(key) or state.status != "vacant":
                yield f"{where} {name(key)}: not in the document, the rules have {state.sides}"
            continue
        yield from bout(where, key, raw, state)
        yield from details(weight.facts, key, raw, state)
    for key in said:
        yield f"{where} {name(key)}: in the document, the rules have no such bout"


def bout(where: str, key: Key, raw: Doc, state: State) -> Iterator[str]:
    """One bout."""
    sides = [seat(entry) for entry in state.sides]
    if raw["sides"] != sides:
        yield f"{where} {name(key)}: sides {raw['sides']}, by the rules {sides}"
    status = raw.get("status")
    if status != state.status:
        yield f"{where} {name(key)}: {status}, by the rules {state.status}"
    winner = seat(state.winner) if state.status in ("decided", "bye") else None
    if status in ("decided", "bye") and raw.get("winner") != winner:
        yield f"{where} {name(key)}: winner {raw.get('winner')}, by the rules {winner}"
    if bool(raw.get("implied")) != state.implied:
        yield f"{where} {name(key)}: implied {raw.get('implied')}, by the rules {state.implied}"


def places(document: Doc, weight: Weight) -> Iterator[str]:
    """The final places."""
    said = {
        (p["entry"], p["place"])
        for p in document.get("places", [])
        if p["weight_class"] == weight.facts.weight
    }
    given = set(weight.placed.final.items())
    listed = [p["entry"] for p in document.get("places", [])]
    for entry in sorted({entry for entry, _ in said if listed.count(entry) > 1}):
        yield f"{weight.facts.label}: {entry} has two places"
    for entry, place in sorted(said - given):
        yield f"{weight.facts.label}: place {place} for {entry}, not by the rules"
    for entry, place in sorted(given - said):
        yield f"{weight.facts.label}: by the rules place {place} for {entry}, not in the document"


def points(document: Doc, done: list[Weight]) -> Iterator[str]:
    """Team points by part, totals and ranks."""
    for division in document["divisions"]:
        ident = division["id"]
        said = {r["team"]: r for r in document.get("team_points", []) if r["division"] == ident}
        yield from compare_table(ident, said, table(document, done, ident))


def table(document: Doc, done: list[Weight], division: str) -> dict[str, Score]:
    """The points of a division's teams, of all that have an entry there or an adjustment."""
    into = {t["id"]: t.get("merged_into") for t in document["teams"]}
    lines: dict[str, Score] = {}
    for named, score in shares(document, done, division):
        team = named
        for _ in into:  # as often as it can have been taken in
            team = str(into.get(team) or team)
        line = lines.setdefault(team, Score())
        for part, value in score.parts.items():
            line.add(part, value)
    return lines


def shares(document: Doc, done: list[Weight], division: str) -> Iterator[tuple[str, Score]]:
    """What comes to a team's line. An adjustment without a division is of the first."""
    classes = {w["id"] for w in document["weight_classes"] if w["division"] == division}
    for raw in document["entries"]:
        if raw["weight_class"] in classes:
            yield raw["team"], Score()
    for weight in (w for w in done if w.facts.division == division):
        for entry, score in weight.scores.items():
            yield weight.facts.entries[entry]["team"], score
    first = document["divisions"][0]["id"]
    for raw in document.get("adjustments", []):
        if raw.get("division", first) == division:
            extra = Score()
            extra.add("adjustments", number(raw["points"]))
            yield raw["team"], extra


def compare_table(division: str, said: dict[str, Doc], lines: dict[str, Score]) -> Iterator[str]:
    """The table of a division."""
    ranks = ranked({team: score.total() for team, score in lines.items()})
    for team, score in lines.items():
        raw = said.get(team)
        if raw is None:
            yield f"{division} {team}: not in the table, by the rules {score.total()}"
            continue
        for part in (*PARTS, "total"):
            given = score.total() if part == "total" else score.parts[part]
            if abs(Decimal(raw[part]) - given) >= Decimal("0.001"):
                yield f"{division} {team}: {part} {raw[part]}, by the rules {given}"
        if raw["place"] != ranks[team]:
            yield f"{division} {team}: rank {raw['place']}, by the rules {ranks[team]}"
    for team in said.keys() - lines.keys():
        yield f"{division} {team}: in the table, without an entry or an adjustment"
