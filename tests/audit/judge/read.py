"""Reading the document: the facts of each weight, and the plan of its bracket."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from .crossings import masks
from .elimination import Task
from .facts import Doc, Facts, Result, read_key, read_result, read_rulings
from .model import Key, Plan
from .play import Pass
from .repechage import best_of_three, eliminate, round_robin, two_pools

Number = tuple[str, Key]


def weights(document: Doc) -> Iterator[Facts]:
    """The facts of each weight that has a bracket."""
    divisions = {d["id"]: d["snapshot"] for d in document["divisions"] if "snapshot" in d}
    brackets = {b["weight_class"]: b for b in document.get("brackets", [])}
    for weight in document["weight_classes"]:
        bracket = brackets.get(weight["id"])
        if bracket is None or weight["division"] not in divisions or "lines" not in bracket:
            continue
        settings = divisions[weight["division"]]
        entries = {e["id"]: e for e in document["entries"] if e["weight_class"] == weight["id"]}
        facts = Facts(
            weight=weight["id"],
            label=f"{weight['label']} ({weight['division']})",
            settings=settings,
            places=weight.get("places", settings["bracket"]["places"]),
            format=bracket.get("format") or "",
            lines=bracket["lines"],
            entries=entries,
        )
        mine = [r for r in document.get("rulings", []) if r["weight_class"] == weight["id"]]
        facts.rulings = read_rulings(mine)
        results(document, facts)
        withdrawals(document, facts)
        yield facts


def plan_of(facts: Facts, true_places: bool = True) -> Plan:
    """The plan of a weight's bracket."""
    rules = facts.settings["bracket"]
    entered = len(facts.holders())
    if facts.format == "round-robin":
        return round_robin(len(facts.lines))
    if facts.format == "best-of-three":
        return best_of_three()
    if facts.format == "two-pools":
        return two_pools(len(facts.lines), min(facts.places, entered))
    size = len(facts.lines)
    rounds = size.bit_length() - 1
    task = Task(
        lines=size,
        doubles=tuple(i for i, line in enumerate(facts.lines) if isinstance(line, list)),
        masks=tuple(masks(rules["crossings"][str(size)], rounds)),
        partner=rules["pigtail"].get(str(size), size // 4 + 1),
        depth=facts.places,
        wrestleback=rules["wrestleback"],
        thirds=rules["thirds"],
    )
    return eliminate(task, rules["true_places"] if true_places else [])


def results(document: Doc, facts: Facts) -> None:
    """The results of a weight, in order: by the number of the bout, or between whom."""
    numbers = {
        bout["number"]: (bout["round"], bout["position"])
        for bout in document.get("bouts", [])
        if bout["weight_class"] == facts.weight and bout.get("number")
    }
    plan = plan_of(facts)
    for raw in document.get("results", []):
        if raw["weight_class"] != facts.weight:
            continue
        result = read_result(raw)
        if "bout" in raw:
            key = numbers.get(raw["bout"])
        else:
            key = open_bout(plan, facts, raw["between"])
        if key is not None:
            facts.results[key] = result
            thrown_out(document, facts, plan, key, result)


def open_bout(plan: Plan, facts: Facts, between: list[str]) -> Key | None:
    """The first bout of two without a result as things stand."""
    standing = Pass(plan, facts).play()
    for key, state in standing.states.items():
        if set(state.sides) == set(between) and key not in facts.results:
            if state.status in ("ready", "decided"):
                return key
    return None


def thrown_out(document: Doc, facts: Facts, plan: Plan, key: Key, result: Result) -> None:
    """Who was disqualified for flagrant misconduct is out of the tournament."""
    if not result.misconduct:
        return
    sides = Pass(plan, facts).play().states[key].sides
    for entry in sides:
        if entry and entry != result.winner:
            facts.removed.add(entry)
            facts.vacating.add(entry)
            facts.left.setdefault(entry, key)


def withdrawals(document: Doc, facts: Facts) -> None:
    """Who left, after which bout, and whether he may place."""
    vacates = facts.settings["results"]["withdrawal_place"] == "vacates"
    for raw in document.get("withdrawals", []):
        entry: str = raw["entry"]
        if entry not in facts.entries:
            continue
        if "after" in raw:
            after = read_key(raw["after"]) if raw["after"] else None
        else:
            after = last_result(facts, entry)
        facts.left[entry] = after
        if raw["kind"] == "misconduct":
            facts.removed.add(entry)
        if vacates or raw["kind"] == "misconduct":
            facts.vacating.add(entry)


def last_result(facts: Facts, entry: str) -> Key | None:
    """The last bout of an entry in the results."""
    standing = Pass(plan_of(facts), facts).play()
    mine: list[Any] = [k for k in facts.results if entry in standing.states[k].sides]
    return mine[-1] if mine else None
