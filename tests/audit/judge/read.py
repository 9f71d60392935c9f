"""Reading the document: the facts of each weight, and the plan of its bracket."""

from __future__ import annotations

from collections.abc import Iterator

from tests.audit.judge.changes import form_of
from tests.audit.judge.crossings import masks
from tests.audit.judge.elimination import Task, true_places
from tests.audit.judge.facts import Doc, Facts, read_key, read_result, read_rulings
from tests.audit.judge.model import Key, Plan
from tests.audit.judge.play import Pass
from tests.audit.judge.repechage import eliminate
from tests.audit.judge.small import best_of_three, round_robin, two_pools


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
            division=weight["division"],
            label=f"{weight['label']} ({weight['division']})",
            settings=settings,
            places=weight.get("places", settings["bracket"]["places"]),
            format=bracket.get("format") or form_of(bracket["lines"], settings["bracket"]),
            lines=bracket["lines"],
            entries=entries,
            crossings=bracket.get("crossings", []),
        )
        if not facts.fits:
            yield facts  # nothing can be worked out
            continue
        mine = [r for r in document.get("rulings", []) if r["weight_class"] == weight["id"]]
        facts.rulings = read_rulings(mine)
        usual = [r for r in mine if r.get("bout") not in ("2nd-1", "4th-1", "6th-1")]
        facts.rulings_on_format = read_rulings(usual)
        withdrawals(document, facts)
        plan = plan_of(facts, challenged(facts))
        facts.times = {key: node.time for key, node in plan.nodes.items()}
        results(document, facts, plan)
        last_results(document, facts, plan)
        yield facts


def plan_of(facts: Facts, challenges: list[int]) -> Plan:
    """The plan of a weight's bracket with these challenges, and no deeper than they need."""
    rules = facts.settings["bracket"]
    size = len(facts.lines)
    depth = max([facts.given, *(place + 1 for place in challenges)])
    if facts.format == "round-robin":
        return round_robin(size)
    if facts.format == "best-of-three":
        return best_of_three()
    if facts.format == "two-pools":
        plan = two_pools(size, depth)
    else:
        rounds = size.bit_length() - 1
        chosen = masks(rules["crossings"].get(str(size), []), rounds, facts.crossings)
        plan = eliminate(task_of(facts, chosen, depth))
    true_places(plan, challenges)
    return plan


def challenged(facts: Facts) -> list[int]:
    """The places whose holders are challenged."""
    rules = facts.settings["bracket"]
    if facts.format == "elimination" and rules["wrestleback"] == "double-elimination":
        return []
    most = min(facts.given, len(facts.holders()) - 1)  # who is just below must be there
    return [place for place in rules["true_places"] if place <= most]


def task_of(facts: Facts, chosen: list[int], depth: int) -> Task:
    """The elimination of a weight, with these crossings, to this place.

    Where the rule book names no partner for a pigtail, the first bout of the other half.
    """
    rules, size = facts.settings["bracket"], len(facts.lines)
    return Task(
        lines=size,
        doubles=tuple(i for i, line in enumerate(facts.lines) if isinstance(line, list)),
        masks=tuple(chosen),
        partner=rules["pigtail"].get(str(size), size // 4 + 1),
        depth=depth,
        wrestleback=rules["wrestleback"],
        thirds=rules["thirds"],
    )


def results(document: Doc, facts: Facts, plan: Plan) -> None:
    """The results of a weight, in order: by the number of the bout, or between whom."""
    numbers = {
        bout["number"]: (bout["round"], bout["position"])
        for bout in document.get("bouts", [])
        if bout["weight_class"] == facts.weight and bout.get("number")
    }
    for raw in document.get("results", []):
        if raw["weight_class"] != facts.weight:
            continue
        result = read_result(raw)
        known = "bout" in raw
        key = numbers.get(raw["bout"]) if known else open_bout(plan, facts, raw["between"])
        if key is not None:
            facts.results.pop(key, None)  # in the order of the results that count
            facts.results[key] = result
    thrown_out(facts, plan)


def open_bout(plan: Plan, facts: Facts, between: list[str]) -> Key | None:
    """The first bout of two without a result as things stand."""
    standing = Pass(plan, facts).play()
    for key, state in standing.states.items():
        stands = set(state.sides) == set(between) and state.status in ("ready", "decided")
        if stands and key not in facts.results:
            return key
    return None


def thrown_out(facts: Facts, plan: Plan) -> None:
    """Who was disqualified for flagrant misconduct is out of the tournament."""
    order = list(plan.nodes)
    for key in order:
        result = facts.results.get(key)
        if result is None or not result.misconduct:
            continue
        for entry in Pass(plan, facts).play().states[key].sides:
            if entry and entry != result.winner:
                facts.removed.add(entry)
                facts.vacating.add(entry)
                last = facts.left.get(entry, key)
                earlier = last is None or order.index(last) < order.index(key)
                facts.left[entry] = last if earlier else key


def withdrawals(document: Doc, facts: Facts) -> None:
    """Who left, after which bout, and whether he may place."""
    for entry in facts.holders().values():
        if facts.entries.get(entry, {}).get("status") == "scratched":
            facts.left[entry] = None  # he leaves a forfeit on his line
            facts.absent.add(entry)
    mine = [raw for raw in document.get("withdrawals", []) if raw["entry"] in facts.entries]
    facts.left |= {
        r["entry"]: read_key(r["after"]) if r["after"] else None for r in mine if "after" in r
    }
    facts.removed |= {raw["entry"] for raw in mine if raw["kind"] == "misconduct"}
    facts.absent |= {raw["entry"] for raw in mine if raw["kind"] == "absent"}
    facts.vacating |= facts.removed | facts.absent
    if facts.settings["results"]["withdrawal_place"] == "vacates":
        facts.vacating |= {raw["entry"] for raw in mine}


def last_results(document: Doc, facts: Facts, plan: Plan) -> None:
    """Who left without a word after which bout: after his last one in the results."""
    for raw in document.get("withdrawals", []):
        entry: str = raw["entry"]
        if entry in facts.entries and "after" not in raw:
            states = Pass(plan, facts).play().states
            mine = [key for key in facts.results if key in states and entry in states[key].sides]
            facts.left[entry] = mine[-1] if mine else None
