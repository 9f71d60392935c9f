"""Planted bugs: which there are, and whether a short run notices one."""

import json
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache
from pathlib import Path
from random import Random
from time import monotonic

from tests.audit.operators import Change, changes
from tests.audit.place import ROOT, environment
from tests.audit.worker import Told

BRACKETS = (
    "assembly", "crossings", "draw", "drops", "elimination", "formats", "graph", "known", "latest",
    "lines", "numbering", "placing", "plan", "pools", "progress", "repechage", "rulings", "sources",
    "standing", "walk", "wiring",
)  # fmt: skip
"""What makes, plays and numbers brackets. Left out: drawings (`layout`, `rows`, `names`), words
(`errors`, `reading`, `rules`), the page of rematches (`rematch`), which of many equally right lots
is drawn (`apart`, `slots`, `commitment`), what people want and choose (`drafting`, `replay`: a
document has only the ruling that came of it), and `laws`, which only refuse what is broken."""

RESULTS = ("points", "placement", "placings")
"""Left out: what is entered and refused (`outcomes`, `rules`, `errors`), and which win made a place
certain (`certain`: the words beside a sum)."""

MODULES = (
    *(f"brackets.core.{name}" for name in BRACKETS),
    *(f"results.core.{name}" for name in RESULTS),
)
UNSEEN = (
    "formats:_check_line_up", "formats:_pairs",  # which line-ups are refused
    "formats:build statement: _check_line_up",
    "plan:Plan.running number:",  # the columns of drawings begin with 1
    "graph:Bracket.onward",  # words of a sheet, and what is refused
    "graph:Bracket.awaited", "graph:Bracket._brings", "graph:Bracket.chance",  # words of a sheet
    "wiring:_chances",  # for these, the page of rematches, and as `drafting`
    "assembly:_graph", "assembly:_waited_for",  # words of a sheet
    "assembly:assemble statement: check",  # which brackets are refused
    "assembly:assemble statement: byes.append",  # drawings
    "assembly:assemble branch: if sum(sides) ==",  # the same
    "results.core.placings:rank_pool and/or: weights or {}",  # no document tells what people weigh
    # Scores and times are left out by files alone: a table is asked for them.
    "results.core.placings:_split branch:", "results.core.placings:_split filter:  for value",
    "results.core.placings:_times filter:", "results.core.placings:_classification branch:",
    "results.core.placings:_classification filter:  for bout in lost",
    "latest:_most number: 2 -> 3",  # from 128 lines on
    "latest:_every pair:",  # which of several that are equally late
    "latest:_every arguments: Exchange",  # 256 lines alone need it, which no tournament here has
    "draw:ranked branch: if seeded.get",  # which fields are refused
    "draw:draw_by_region",  # none of the tournaments is drawn by a map of regions
    "numbering:mats",  # mats are arranged, not determined
    "standing:Standing.behind",  # a document gives it with the withdrawal
    "crossings:Exchange.name", "latest:certify", "latest:reached", "latest:Certificate.proven",
    "rulings:adrift", "rulings:in_two", "rulings:placed_twice",  # words of a preview
    "rulings:out_of_turn",  # which rulings are refused
    "rulings:taking", "rulings:seats", "rulings:stands", "rulings:_last",  # as `drafting`
    "sources:Round.placing",  # which brackets are refused, and drawings
    # Of a field that is no elimination a draw asks whether there are two pools; which round robin
    # it is, and how many pigtails, are words of a page. Of one entrant: which fields are refused.
    "formats:shape branch: if entrants == 2", "formats:shape number: 0 -> -1",
    "formats:shape comparison: rules.of_two is OfTwo.BEST_OF_THREE",
    "formats:shape arguments: Shape(Format.BEST_OF_THREE,",
    "formats:shape arguments: Shape(Format.ROUND_ROBIN,",
    "formats:shape number: 2 -> 1 #1", "formats:shape number: 2 -> 1 #2",
    "formats:shape number: 2 -> 1 #3", "formats:shape number: 2 -> 3 #2",
    # Which win made a place certain: words beside a sum, as `certain`.
    "results.core.placement:Placement.__init__ branch: if bracket.format is",
    "results.core.placement:Placement.steps comparison: self.final.get",
    "results.core.placement:Placement.steps comparison: entry in self.final",
    "results.core.placement:Placement.steps plus/minus: self._for",
    "results.core.placement:Placement._stages",
    "results.core.points:_placed branches:",
    "results.core.points:ledger filter:",  # parts of a sum that are nothing
)  # fmt: skip
"""What of these no document of a random tournament can show: its tests answer for it."""

EQUIVALENT = ROOT / "fixtures" / "mutants.json"
LEAST_PATIENCE = 300


class Fate(StrEnum):
    """How a planted bug was noticed, if it was."""

    BROKEN = "the program broke or refused"
    DIFFERS = "the checker differs"
    HANGS = "no end in time"
    EQUIVALENT = "equivalent, with proof"
    SURVIVED = "survived"


@dataclass(frozen=True, slots=True)
class Mutant:
    """One change of one module. `nth`: of several that read alike in one function."""

    module: str
    change: Change
    nth: int

    @property
    def name(self) -> str:
        """The same as long as the function stays as it is, wherever it moves."""
        text = f"{self.module}:{_read(self.change)}"
        return text if self.nth == 1 else f"{text} #{self.nth}"


def _read(change: Change) -> str:
    return f"{change.function} {change.name}: {change.before} -> {change.after}"


@dataclass(frozen=True, slots=True)
class Run:
    """Tournaments by number; `every`: judged before each of their waves. `cores`: weights in the
    cores alone instead, judged after every act. `seconds`: how long they take one after the other
    as the program is, where that is known.
    """

    numbers: Sequence[int]
    every: bool = False
    cores: bool = False
    seconds: float = 0.0

    @property
    def patience(self) -> float:
        """After how many seconds a planted bug is taken for one without an end."""
        return LEAST_PATIENCE + 4 * self.seconds


@dataclass(frozen=True, slots=True)
class Found:
    """What became of a planted bug, and the first sign of it."""

    mutant: Mutant
    fate: Fate
    sign: str
    played: int


@cache
def mutants() -> tuple[Mutant, ...]:
    """Every planted bug that can be made, module by module, without those in `UNSEEN`."""
    return tuple(one for one in every() if not unseen(one))


def every() -> Iterator[Mutant]:
    """Those in `UNSEEN` too."""
    for module in MODULES:
        alike: Counter[str] = Counter()
        for one in changes(source(module)):
            alike[_read(one)] += 1
            yield Mutant(module, one, alike[_read(one)])


def unseen(mutant: Mutant) -> set[str]:
    """What in `UNSEEN` names this one: its text or how that begins, or its text and number."""
    text = f"{mutant.module}:{_read(mutant.change)} #{mutant.nth} ".removeprefix("brackets.core.")
    return {one for one in UNSEEN if text.startswith((f"{one} ", f"{one}("))}


@cache
def source(module: str) -> str:
    """The text of a module."""
    path = ROOT / Path(*module.split("."))
    return path.with_suffix(".py").read_text(encoding="utf-8")


def some(count: int, seed: int, first: int = 0) -> Sequence[Mutant]:
    """So many of them, the same for a seed; as many as there are at most."""
    order = list(mutants())
    Random(f"{seed}/mutants").shuffle(order)
    return order[first : first + count]


def try_out(mutant: Mutant, database: Path, seed: int, run: Run) -> Found:
    """Play tournaments with the bug in place until it is noticed."""
    file = database.with_suffix(".py")
    file.write_text(mutant.change.made(source(mutant.module)), encoding="utf-8")
    command = _worker(seed, run)
    try:
        ran = subprocess.run(
            [*command, "--planted", mutant.module, str(file)],
            cwd=ROOT, env=environment(database), capture_output=True, text=True,
            timeout=run.patience, check=False,
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        return Found(mutant, Fate.HANGS, f"{run.patience:.0f} s", 0)
    return _fate(mutant, [Told.read(line) for line in ran.stdout.splitlines()], ran)


def _fate(mutant: Mutant, told: Sequence[Told], ran: "subprocess.CompletedProcess[str]") -> Found:
    last = told[-1] if told else None
    if last and last.trouble:
        sign = last.trouble[0]
        broken = sign.startswith(("broken:", "refused:"))
        return Found(mutant, Fate.BROKEN if broken else Fate.DIFFERS, sign, len(told))
    if ran.returncode:
        lines = ran.stderr.strip().splitlines() or [""]
        return Found(mutant, Fate.BROKEN, lines[-1], len(told))
    if mutant.name in proofs():
        return Found(mutant, Fate.EQUIVALENT, proofs()[mutant.name], len(told))
    return Found(mutant, Fate.SURVIVED, "", len(told))


@cache
def proofs() -> dict[str, str]:
    """Why a change changes nothing, by the name of the planted bug."""
    items = json.loads(EQUIVALENT.read_text(encoding="utf-8")) if EQUIVALENT.exists() else []
    return {item["mutant"]: item["proof"] for item in items}


def sound(database: Path, seed: int, run: Run) -> Run:
    """Those of a run in which nothing is found as the program is, and how long it takes."""
    began = monotonic()
    ran = subprocess.run(
        [*_worker(seed, run), "--on"],
        cwd=ROOT, env=environment(database), stdout=subprocess.PIPE, text=True, check=True,
    )  # fmt: skip
    told = (Told.read(line) for line in ran.stdout.splitlines())
    right = [one.number for one in told if not one.trouble]
    return replace(run, numbers=right, seconds=monotonic() - began)


def _worker(seed: int, run: Run) -> list[str]:
    listed = ",".join(map(str, run.numbers))
    command = [sys.executable, "-m", "tests.audit.worker", str(seed), listed]
    return [*command, *(["--every"] if run.every else []), *(["--cores"] if run.cores else [])]
