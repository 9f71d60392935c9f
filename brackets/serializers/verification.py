"""Every draw of a tournament file, drawn again from the file alone and compared."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Any

from brackets.core.apart.basis import Basis, drawn
from brackets.core.apart.result import Draw
from brackets.core.apart.separated import DRAW_VERSIONS
from brackets.core.commitment import commitment, seed_of
from brackets.queries import line_up
from brackets.queries.draw_file import DrawFile
from seeding.core.lot import LOT_VERSION
from seeding.journal.core.errors import Refusal

Item = Mapping[str, Any]


class Fault(StrEnum):
    """What does not fit."""

    LINES = "the lines are not those that this draw gives"
    FIELD = "what it was drawn from is not what the file tells"
    RECORD = "what is recorded of the draw is not what it comes to"
    VERSION = "it was drawn in a way that is not known here"
    SEED = "the seed is not the one that the commitment gives"
    OTHER = "it does not name the commitment of the tournament"
    LATE = "it was drawn before the commitment was published"
    NUMBER = "the draws that were taken back are not all told"
    COMMITMENT = "the secret does not give the published commitment"


class Outcome(StrEnum):
    """What drawing again came to; GIVEN: the lines came with a file, nothing is compared."""

    SAME = "same"
    DIFFERENT = "DIFFERENT"
    GIVEN = "given"


class Sealed(StrEnum):
    """Whether the seed was committed to; UNREVEALED: by its record, the secret is not told yet."""

    YES = "yes"
    NO = "no"
    UNREVEALED = "not yet revealed"


@dataclass(frozen=True, slots=True)
class Checked:
    """One weight drawn again.

    `certified`: it is proven that no draw keeps apart better. `changed`: the lines are others now
    than they were drawn. `refusal`: why it could not be drawn again, if so.
    """

    weight: str
    label: str
    lines: int
    seed: str
    number: int
    sealed: Sealed
    given: bool
    certified: bool
    changed: bool
    faults: tuple[Fault, ...]
    refusal: str = ""

    @property
    def outcome(self) -> Outcome:
        if self.faults:
            return Outcome.DIFFERENT
        return Outcome.GIVEN if self.given else Outcome.SAME


@dataclass(frozen=True, slots=True)
class Verification:
    """All drawn weights, and what is wrong with the commitment itself."""

    weights: tuple[Checked, ...]
    commitment: str
    faults: tuple[Fault, ...]

    @property
    def holds(self) -> bool:
        """Whether nothing differs."""
        return not self.faults and not any(one.faults for one in self.weights)


def verify(document: Item) -> Verification:
    """Draw every drawn weight of a checked file again; reads nothing but the file.

    `document`: `tournament`, `divisions`, `weight_classes`, `entries`, `brackets`, and where there
    are such `prior_bouts`, `qualifying`, `draw_commitment`.
    """
    file = DrawFile(document)
    sealed: Item = document.get("draw_commitment", {})
    secret = sealed.get("secret")
    wrong = secret is not None and commitment(secret) != sealed["digest"]
    return Verification(
        tuple(
            _checked(file, one, sealed) for one in document.get("brackets", ()) if "lines" in one
        ),
        sealed.get("digest", ""),
        (Fault.COMMITMENT,) if wrong else (),
    )


def _checked(file: DrawFile, item: Item, sealed: Item) -> Checked:
    weight, told = item["weight_class"], item.get("draw", {})
    lines = line_up(item.get("drawn_lines", item["lines"]))
    faults, refusal, found = list(_seal(weight, told, sealed)), "", None
    if "draw_version" in told:
        try:
            found = _again(file, weight, told, faults)
        except Refusal as refused:
            refusal = str(refused)
        if found is None or found.lines != lines:
            faults.append(Fault.LINES)
        if found and found.record != {name: told.get(name) for name in ("kept", "patterns")}:
            faults.append(Fault.RECORD)
    return Checked(
        weight=weight,
        label=file.weights[weight]["label"],
        lines=len(lines),
        seed=told.get("seed", ""),
        number=told.get("number", 1),
        sealed=_sealed(told, sealed, faults),
        given="draw_version" not in told,
        certified=found is not None and found.certified,
        changed="drawn_lines" in item,
        faults=tuple(faults),
        refusal=refusal,
    )


def _again(file: DrawFile, weight: str, told: Item, faults: list[Fault]) -> Draw | None:
    """The draw made again; None where it was made in another way than is known here."""
    if told["draw_version"] not in DRAW_VERSIONS or told.get("version") != LOT_VERSION:
        faults.append(Fault.VERSION)
        return None
    basis: Basis = file.basis(weight).overlaid(told.get("as_drawn", {}))
    seed = told.get("seed", "")
    if told.get("basis") != basis.mark(seed):
        faults.append(Fault.FIELD)
    return drawn(basis, file.rules(weight), file.fill(weight), seed, told["draw_version"])


def _seal(weight: str, told: Item, sealed: Item) -> Iterator[Fault]:
    """What contradicts the commitment; nothing where there is none."""
    if told.get("commitment") != sealed.get("digest"):
        yield Fault.OTHER
    if not sealed:
        return
    number = told.get("number", 1)
    if sealed.get("secret") and told.get("seed") != seed_of(sealed["secret"], weight, number):
        yield Fault.SEED
    back = [one["number"] for one in sealed.get("taken_back", ()) if one["weight_class"] == weight]
    if back != list(range(1, number)):
        yield Fault.NUMBER
    if "at" in told and _moment(told["at"]) < _moment(sealed["at"]):
        yield Fault.LATE


def _sealed(told: Item, sealed: Item, faults: list[Fault]) -> Sealed:
    broken = {Fault.OTHER, Fault.SEED, Fault.LATE} & set(faults)
    if broken or not sealed or commitment(sealed.get("secret", "")) != sealed["digest"]:
        waits = sealed and not broken and "secret" not in sealed
        return Sealed.UNREVEALED if waits and told.get("commitment") else Sealed.NO
    return Sealed.YES


def _moment(text: str) -> datetime:
    return datetime.fromisoformat(text)
