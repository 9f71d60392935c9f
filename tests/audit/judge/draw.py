"""What the draw alone can bring: which bouts are wrestled if everyone on the lines appears."""

from __future__ import annotations

from collections.abc import Collection

from tests.audit.judge.model import Exit, Key, Line, Plan, Rank, Source


class Draw:
    """A plan, who starts on which half of which line, and the `seated`: whom rulings bring."""

    def __init__(
        self,
        plan: Plan,
        holders: dict[tuple[int, int], str],
        seated: Collection[tuple[Key, int]] = (),
    ) -> None:
        self.plan, self.holders, self.seated = plan, holders, seated
        self.users = plan.users()
        self.known: dict[Key, bool] = {}

    def wrestled(self, key: Key) -> bool:
        """Whether a bout is wrestled if everyone appears."""
        if key not in self.known:
            self.known[key] = all(self.sides(key))
        return self.known[key]

    def sides(self, key: Key) -> list[bool]:
        """Whether somebody can come to each side of a bout, by the format or by a ruling."""
        sources = self.plan.nodes[key].sources
        return [(key, slot) in self.seated or self.brings(s) for slot, s in enumerate(sources)]

    def brings(self, source: Source) -> bool:
        """Whether somebody can come from a source."""
        if isinstance(source, Line):
            return (source.index, source.half) in self.holders
        if isinstance(source, Rank):
            return source.rank <= len(self.plan.pools[source.pool])
        if isinstance(source, Exit):
            return any(self.sides(source.key)) if source.won else self.wrestled(source.key)
        return any(
            self.wrestled(key)
            for key in self.plan.nodes
            if key[0] == source.code and self.leads(key, source.leader)
        )

    def leads(self, key: Key, leader: Key) -> bool:
        """Whether the winner of a bout can be in a later championship bout."""
        while key != leader:
            onward = self.users.get(Exit(key, True))
            if onward is None:
                return False
            key = onward[0]
        return True
