"""Numbers of bouts: through the tournament by time, within a time by weights, then top down."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from tests.audit.judge.changes import carried_out, form_of
from tests.audit.judge.draw import Draw
from tests.audit.judge.facts import Doc, Facts
from tests.audit.judge.model import Key
from tests.audit.judge.read import challenged, plan_of

Lines = list[Any]
Where = tuple[str, Key]  # a weight and a bout of it


def numbers(document: Doc, weights: list[Facts]) -> Iterator[str]:
    """What is wrong with the numbers of all bouts.

    When they were given, before or after lines were changed, is not in the file: they must fit the
    lines as they were at one moment.
    """
    said = {
        (raw["weight_class"], (raw["round"], raw["position"])): int(raw["number"])
        for raw in document.get("bouts", [])
        if raw.get("number")
    }
    void = {
        int(raw["number"]): (raw["weight_class"], (raw["round"], raw["position"]))
        for raw in document.get("void_bouts", [])
        if raw.get("number")
    }
    yield from twice(document)
    known = list(stages(document, weights))
    orders = [running_order(stage) for stage in known]
    late = [set(order) | late_ones(stage) for order, stage in zip(orders, known, strict=True)]
    later = [set[Where]().union(*late[at:]) for at in range(len(late))]
    there = planned(weights)
    gone = len({where for stage in known for where in planned(stage)} - there)
    tries = [
        list(fits(said, void, there, order, rest, gone))
        for order, rest in zip(orders, later, strict=True)
    ]
    wrong = min(tries, key=len)
    yield from wrong
    weights_numbered = {weight for weight, _ in said}
    due = [where for where in come_about(document) if where[0] in weights_numbered]
    for where in dict.fromkeys([*orders[-1], *due]):
        if where not in said and not any(line.startswith(f"{name(where)}:") for line in wrong):
            yield f"{name(where)}: no number, by the rules it has one"


def planned(weights: list[Facts]) -> set[Where]:
    """All bouts of the brackets."""
    return {(one.weight, key) for one in weights for key in plan_of(one, challenged(one)).nodes}


def late_ones(weights: list[Facts]) -> set[Where]:
    """The bouts that rulings of the file may have filled, none of them in a pool."""
    found: set[Where] = set()
    for one in weights:
        plan = plan_of(one, challenged(one))
        draw = Draw(plan, one.holders(), one.rulings.seated)
        outside = (key for key, node in plan.nodes.items() if node.side != "pool")
        found |= {(one.weight, key) for key in outside if draw.wrestled(key)}
    return found


def come_about(document: Doc) -> list[Where]:
    """The bouts that can be wrestled now or were, so that each has been ready."""
    return [
        (raw["weight_class"], (raw["round"], raw["position"]))
        for raw in document.get("bouts", [])
        if raw.get("status") == "ready" or wrestled(raw)
    ]


def wrestled(raw: Doc) -> bool:
    """Whether a bout has a result of its own, and both sides."""
    own = raw.get("status") == "decided" and raw.get("kind") and not raw.get("implied")
    return bool(own) and None not in raw["sides"]


def name(where: Where) -> str:
    """A bout in words."""
    return f"{where[0]} {where[1][0]}-{where[1][1]}"


def twice(document: Doc) -> Iterator[str]:
    """No number is given twice, and none of a void bout to another."""
    seen: set[int] = set()
    for raw in [*document.get("void_bouts", []), *document.get("bouts", [])]:
        number = raw.get("number")
        if number in seen:
            at = f"{raw['weight_class']} {raw['round']}-{raw['position']}"
            yield f"{at}: number {number} is that of another bout too"
        if number:
            seen.add(number)


def stages(document: Doc, weights: list[Facts]) -> Iterator[list[Facts]]:
    """The weights with their lines as drawn, after one change, after two, ... and as they are."""
    brackets = {raw["weight_class"]: raw for raw in document.get("brackets", [])}
    made = sorted(
        (
            (change["at"], facts.weight, change)
            for facts in weights
            for change in brackets[facts.weight].get("line_changes", [])
        ),
        key=lambda row: row[0],
    )
    lines = {
        facts.weight: list(brackets[facts.weight].get("drawn_lines") or facts.lines)
        for facts in weights
    }
    yield [with_lines(facts, list(lines[facts.weight])) for facts in weights]
    rules = {facts.weight: facts.settings["bracket"] for facts in weights}
    forms = {facts.weight: facts.format for facts in weights}
    for _, weight, change in made:
        carried_out(lines[weight], change, rules[weight], forms[weight])
        yield [with_lines(facts, list(lines[facts.weight])) for facts in weights]


def with_lines(facts: Facts, lines: Lines) -> Facts:
    """The weight with other lines; as it is where there were none that can be wrestled."""
    form = form_of(lines, facts.settings["bracket"], facts.format)
    if len(lines) == len(facts.lines):
        form = facts.format
    other = replace(facts, lines=lines, format=form)
    return other if other.fits else facts


def running_order(weights: list[Facts]) -> list[Where]:
    """All bouts that can be wrestled if everyone on the lines appears."""
    found = []
    for index, facts in enumerate(weights):
        plan = plan_of(facts, challenged(facts))
        draw = Draw(plan, facts.holders())
        found += [
            (node.time, index, key[1], (facts.weight, key))
            for key, node in plan.nodes.items()
            if draw.wrestled(key)
        ]
    return [row[3] for row in sorted(found)]


def fits(
    said: dict[Where, int],
    void: dict[int, Where],
    there: set[Where],
    order: list[Where],
    later: set[Where],
    gone: int,
) -> Iterator[str]:
    """Where numbers are not those of this order, and new ones after them.

    New ones are of bouts that came with `later` lines or were filled by rulings, and of those of
    which one is void: it has kept the number. A bout that is no more, as a pool has closed up, is
    not among those `there` and has taken its number away; so many are `gone`.
    """
    owner = {number: where for where, number in said.items()}
    for number, where in enumerate(order, 1):
        if said.get(where) == number:
            continue
        if void.get(number) == where and said.get(where, number + len(order)) > len(order):
            continue
        has = owner.get(number) or void.get(number)
        if has or where in there:
            other = f", that of {name(has)}" if has else ""
            yield f"{name(where)}: number {number} by the rules{other}"
    for where, number in said.items():
        if number > len(order) and where not in later and where not in void.values():
            yield f"{name(where)}: number {number}, by the rules none"
    taken = set(owner) | set(void) | set(range(1, len(order) + 1))
    for number in sorted(set(range(1, max(taken, default=0) + 1)) - taken)[gone:]:
        yield f"number {number} was left out"
