"""What the public may see of a tournament."""

from dataclasses import dataclass

from seeding.entries.models import Tournament


@dataclass(frozen=True, slots=True)
class Gates:
    """The publish gates as pages ask for them.

    A fact is shown only where the gates of every kind it belongs to are open: a name is of the
    entries wherever it stands, a seed belongs to an entry, a result to a bout of the draw.
    """

    entries: bool
    seeds: bool
    draw: bool
    results: bool
    points: bool

    @classmethod
    def of(cls, tournament: Tournament) -> "Gates":
        return cls(
            entries=tournament.shows_entries,
            seeds=tournament.shows_entries and tournament.shows_seeds,
            draw=tournament.shows_draw,
            results=tournament.shows_draw and tournament.shows_results,
            points=tournament.shows_team_points,
        )

    @property
    def published(self) -> bool:
        """Whether the public sees anything beyond name and date."""
        return self.entries or self.draw or self.points

    @property
    def explained(self) -> bool:
        """Whether team points may be told bout by bout."""
        return self.points and self.results and self.entries

    def __str__(self) -> str:
        opened = (self.entries, self.seeds, self.draw, self.results, self.points)
        return "".join("1" if one else "0" for one in opened)
