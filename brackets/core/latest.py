"""The crossing that delays every rematch most, and the proof that none delays more.

A bracket of 2^k lines. The two of a bout of championship round r can meet again once the winner
has dropped too, as a loser of a later round s < k. T(r) is the earliest consolation round in which
any two opponents of round r can meet, the placing bouts counted as one last round 2k - 3. (The two
of a semifinal or a final cannot meet again: r runs from 1 to k - 2.)

What is wanted: T(1), ..., T(k - 2), sorted from the earliest, as late as it can be, compared
number by number. Of equal ones the later round's opponents meet later.

Why `limit` holds for any crossing, permutations of every kind. Cut the consolation side into 2^d
blocks that come together in round 2(k - d) - 3.
* T(r) >= 2(k - d) - 1 needs that no winner of round r drops in rounds r + 1, ..., k - d into the
  block to which the loser dropped. Follow one way through the championship side, from the first
  round to round k - d: the rounds r < k - d of which this is true, and round k - d itself, all drop
  into different blocks. There are 2^d blocks, so 2^d - 1 such rounds at most; and d - 1 rounds,
  k - d to k - 2, come too late to be bound.
* T(r) >= 2(k - d) - 2 needs the same of rounds r + 1, ..., k - d - 1: 2^d - 1 rounds at most, and
  d that come too late.
So for every round of the consolation side there is a most of championship rounds whose opponents
can be kept apart until then, and `limit` lists the best sequence that these numbers leave. A
crossing that reaches it is as good as any, number by number.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import count

from brackets.core.crossings import Exchange, exchange
from brackets.core.rules import Crossing, Size


@dataclass(frozen=True, slots=True)
class Certificate:
    """What a crossing reaches and what any could, for 2^k lines.

    `reached`: T(1), ..., T(k - 2), from the crossing alone. `limit`: the same numbers at their
    latest, ascending, from counting alone. 2k - 3 stands for the placing bouts.
    """

    lines: int
    exchanges: tuple[Exchange, ...]
    reached: tuple[int, ...]
    limit: tuple[int, ...]

    @property
    def proven(self) -> bool:
        """Whether no crossing whatever delays rematches more."""
        return tuple(sorted(self.reached)) == self.limit


def certify(lines: int, exchanges: Sequence[Exchange]) -> Certificate:
    """Hold a crossing against the limit; `exchanges` are of rounds 2, ..., k - 1."""
    return Certificate(lines, tuple(exchanges), reached(lines, exchanges), limit(lines))


def limit(lines: int) -> tuple[int, ...]:
    """The latest consolation rounds that T(1), ..., T(k - 2) can be, ascending; see above.

    >>> limit(32), limit(64)
    ((5, 6, 7), (7, 7, 8, 9))
    """
    rounds = lines.bit_length() - 1
    best = (next(n for n in count() if _most(n) >= rank) for rank in range(rounds - 2, 0, -1))
    return tuple(2 * rounds - 3 - before for before in best)


def _most(before: int) -> int:
    """Of how many championship rounds the opponents can be kept apart until `before` rounds
    before the placing bouts, at most."""
    blocks = before // 2 + 1
    return (1 << blocks) - 1 + blocks - 1 + before % 2


def reached(lines: int, exchanges: Sequence[Exchange]) -> tuple[int, ...]:
    """T(1), ..., T(k - 2) of a crossing, `exchanges` of rounds 2, ..., k - 1.

    >>> reached(8, [Exchange(2, 1)]), reached(8, [Exchange(2, 0)])
    ((3,), (2,))
    """
    last = lines.bit_length() - 2
    masks = (0, *(one.mask for one in exchanges))
    return tuple(
        min(_meeting(r, s, masks[r - 1], masks[s - 1]) for s in range(r + 1, last + 1))
        for r in range(1, last)
    )


def _meeting(lost: int, dropped: int, mask: int, other: int) -> int:
    """When a loser of round `lost` meets the winner who drops in round `dropped`.

    The first round's losers meet neighbours, not losers of another round: mask 0.
    """
    apart = (mask >> (dropped - lost)) ^ other
    return 2 * (dropped + apart.bit_length()) - 3 if apart else 2 * dropped - 2


@lru_cache(maxsize=16)
def latest(lines: int) -> tuple[Exchange, ...]:
    """The exchanges of rounds 2, ..., k - 1 that reach the limit, opponents of later rounds later.

    Of several the first, counted through from the second round, named crossings in the order of
    `Crossing` and then the other exchanges in that of their masks.

    >>> [one.name for one in latest(32)]
    ['reversed', 'within-half', 'reversed']
    """
    return next(_search(lines, ()))


def _search(lines: int, chosen: tuple[Exchange, ...]) -> Iterator[tuple[Exchange, ...]]:
    """Every way to go on from the exchanges chosen so far, in order."""
    dropped = len(chosen) + 2
    bouts = lines >> dropped
    if bouts > 1:
        wanted = limit(lines)
        before = tuple(enumerate((0, *(one.mask for one in chosen)), start=1))
        for one in _every(bouts):
            if all(_meeting(r, dropped, mask, one.mask) >= wanted[r - 1] for r, mask in before):
                yield from _search(lines, (*chosen, one))
    else:
        yield chosen


def _every(bouts: int) -> Iterable[Exchange]:
    named = (exchange(crossing, bouts) for crossing in Crossing)
    return dict.fromkeys((*named, *(Exchange(bouts, mask) for mask in range(bouts))))


def exchanges(size: Size) -> tuple[Exchange, ...]:
    """What a rule book says of a size: its named crossings, or the latest."""
    if isinstance(size.crossings, tuple):
        rounds = enumerate(size.crossings, start=2)
        return tuple(exchange(crossing, size.lines >> number) for number, crossing in rounds)
    return latest(size.lines)
