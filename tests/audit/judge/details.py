"""What a bout of the document says beside who stands in it: its result, and what it leaves out."""

from __future__ import annotations

from collections.abc import Iterator

from tests.audit.judge.facts import Doc, Facts, Result
from tests.audit.judge.model import Key
from tests.audit.judge.standing import State

USUAL: Doc = {"near_fall": True, "misconduct": False}  # what is meant where it is absent
RESULT = (
    "kind",
    "score",
    "time",
    "overtime",
    "decided_by",
    "near_fall",
    "misconduct",
    "state",
    "occurred_at",
)


def details(facts: Facts, key: Key, raw: Doc, state: State) -> Iterator[str]:
    """Where a bout does not have the result that was given for it, or one where it has none."""
    at = f"{facts.label} {key[0]}-{key[1]}"
    result = facts.results.get(key)
    yield from told(facts, at, raw, state, result)
    if state.status == "vacant" and not raw.get("number"):
        yield f"{at}: vacant and without a number, and yet in the document"
    if state.status not in ("decided", "bye") and raw.get("winner"):
        yield f"{at}: {state.status}, and has a winner: {raw['winner']}"
    used = result is not None and state.status == "decided" and not state.implied
    if result and used and result.winner not in (None, *state.sides):
        yield f"{at}: {result.winner} won it, who does not stand in it"
    if result and not used and result.kind != "no contest":
        yield f"{at}: has a result, and is {state.status}"


def told(facts: Facts, at: str, raw: Doc, state: State, result: Result | None) -> Iterator[str]:
    """Where what it says of how it ended is not that of the result; by a ruling it says nothing."""
    if raw.get("ruled", False) != state.ruled:
        yield f"{at}: ruled {raw.get('ruled')}, by the rulings {state.ruled}"
    given = result.raw if result and not (state.implied or state.ruled) else {}
    for part in RESULT[1:] if state.implied else RESULT:
        said, meant = raw.get(part, USUAL.get(part)), given.get(part, USUAL.get(part))
        if said != meant:
            yield f"{at}: {part} {said}, by the results {meant}"
    if state.implied and raw.get("kind") != (kind := implied_kind(facts, state)):
        yield f"{at}: {raw.get('kind')}, by the rules {kind}"


def implied_kind(facts: Facts, state: State) -> str:
    """A forfeit where the loser was absent, else, and where nobody wins, a medical one."""
    losers = [side for side in state.sides if side != state.winner]
    absent = len(losers) == 1 and losers[0] in facts.absent
    return "forfeit" if absent else "medical forfeit"


def strays(document: Doc, facts: Facts) -> Iterator[str]:
    """Results that are of no bout."""
    used = [result.raw for result in facts.results.values()]
    for raw in document.get("results", []):
        if raw["weight_class"] == facts.weight and raw not in used:
            yield f"{facts.label}: a result of no bout, or of one that has another: {raw}"
