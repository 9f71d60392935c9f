"""What happens at River Cup, and what it is worth, added up without the program.

Placement 16 12 10 9 7 6 4 for 1st to 7th: published, NCAA Wrestling Rules Book, Rule 4.
A win on the championship side 1, in the consolations 0.5, in a bout for a place nothing; bonus 2
for a fall, an injury default or a forfeit, 1.5 for a technical fall, 1 for a major decision; a
bye is worth a win of its side if the next bout is won: association page. A win in a round robin
1: assumption of the rule book.
"""

import re
from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal

PLACEMENT = tuple(map(Decimal, (16, 12, 10, 9, 7, 6, 4)))
ONE, HALF = Decimal(1), Decimal("0.5")
WINS = {"QF": ONE, "SF": ONE, "RR": ONE, "C1": HALF, "C2": HALF}
KINDS = {
    "Dec": ("decision", Decimal(0)),
    "MD": ("major decision", Decimal(1)),
    "TF": ("technical fall", Decimal("1.5")),
    "Fall": ("fall", Decimal(2)),
    "Def.": ("injury default", Decimal(2)),
    "For.": ("forfeit", Decimal(2)),
}

TEAMS = {
    "Calder Hathersley": "Brindle Harbor", "Kendrick Donnabhain": "Grayling Point",
    "Ren Xiongwen": "Fallow Ridge", "Jasper Brackwell": "Copper Mesa",
    "Søren Björkdahl": "Eskdale Sound", "Gwilym Vauquelin": "Alder Valley",
    "Emmett Ashcombe": "Dunmarrow", "Emre Farahvash": "Eskdale Sound",
    "Hryhoriy Chumachok": "Alder Valley", "Nehemiah Rivershaw": "Brindle Harbor",
    "Zion Ghazanfar": "Fallow Ridge", "Abelardo Peñaloza": "Grayling Point",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Bout:
    """Who beat whom in which round, and how, as the rule book writes it."""

    round: str
    winner: str
    loser: str
    written: str

    @property
    def kind(self) -> str:
        """The kind in the words of the pad."""
        return KINDS.get(self.written.split()[0], KINDS["Dec"])[0]

    @property
    def bonus(self) -> Decimal:
        return KINDS.get(self.written.split()[0], KINDS["Dec"])[1]

    @property
    def score(self) -> tuple[str, str] | None:
        found = re.search(r"(\d+)-(\d+)", self.written)
        return (found[1], found[2]) if found else None

    @property
    def time(self) -> str:
        found = re.search(r"\d+:\d\d", self.written)
        return found[0] if found else ""

    @property
    def overtime(self) -> str:
        found = re.search(r"\((..-\d)\)", self.written)
        return found[1] if found else ""


POOL = (
    Bout("RR", "Hryhoriy Chumachok", "Abelardo Peñaloza", "MD 10-1"),
    Bout("RR", "Nehemiah Rivershaw", "Zion Ghazanfar", "Dec 2-0"),
    Bout("RR", "Emre Farahvash", "Abelardo Peñaloza", "Fall 0:59"),
    Bout("RR", "Hryhoriy Chumachok", "Zion Ghazanfar", "TF 16-0 3:00"),
    Bout("RR", "Emre Farahvash", "Zion Ghazanfar", "MD 9-1"),
    Bout("RR", "Hryhoriy Chumachok", "Nehemiah Rivershaw", "Fall 1:30"),
    Bout("RR", "Emre Farahvash", "Nehemiah Rivershaw", "Dec 4-1"),
    Bout("RR", "Zion Ghazanfar", "Abelardo Peñaloza", "Dec 1-0"),
    Bout("RR", "Hryhoriy Chumachok", "Emre Farahvash", "Dec 3-2"),
    Bout("RR", "Nehemiah Rivershaw", "Abelardo Peñaloza", "Dec 8-2"),
)
BRACKET = (
    Bout("QF", "Søren Björkdahl", "Jasper Brackwell", "6-6 RT (TB-2)"),
    Bout("QF", "Ren Xiongwen", "Gwilym Vauquelin", "TF 19-4 4:25"),
    Bout("QF", "Kendrick Donnabhain", "Emmett Ashcombe", "Fall 2:16"),
    Bout("SF", "Calder Hathersley", "Søren Björkdahl", "MD 12-2"),
    Bout("SF", "Ren Xiongwen", "Kendrick Donnabhain", "Dec 5-2"),
    Bout("C1", "Emmett Ashcombe", "Gwilym Vauquelin", "Dec 4-3"),
    Bout("C2", "Kendrick Donnabhain", "Jasper Brackwell", "MD 11-1"),
    Bout("C2", "Søren Björkdahl", "Emmett Ashcombe", "Def. (inj.) 3:10"),
    Bout("5th", "Jasper Brackwell", "Emmett Ashcombe", "For."),
    Bout("3rd", "Søren Björkdahl", "Kendrick Donnabhain", "3-1 (SV-1)"),
    Bout("1st", "Calder Hathersley", "Ren Xiongwen", "Fall 4:51"),
)
BYES = (("QF", "Calder Hathersley", "SF"), ("C1", "Jasper Brackwell", "C2"))
PLACES = {
    "133": (
        "Calder Hathersley", "Ren Xiongwen", "Søren Björkdahl", "Kendrick Donnabhain",
        "Jasper Brackwell", "Emmett Ashcombe", "Gwilym Vauquelin",
    ),
    "149": (
        "Hryhoriy Chumachok", "Emre Farahvash", "Nehemiah Rivershaw", "Zion Ghazanfar",
        "Abelardo Peñaloza",
    ),
}  # fmt: skip

# Reckoned on paper: placement, then wins and byes, then bonus.
ON_PAPER = {
    "Brindle Harbor": Decimal(33),  # 16 + 1 bye + 1 + (1 + 2); 10 + 2 wins
    "Eskdale Sound": Decimal("31.5"),  # 10 + 1 + 0.5 + 2; 12 + 3 + (2 + 1)
    "Alder Valley": Decimal("28.5"),  # 4; 16 + 4 + (1 + 1.5 + 2)
    "Fallow Ridge": Decimal("25.5"),  # 12 + 2 + 1.5; 9 + 1
    "Grayling Point": Decimal("20.5"),  # 9 + 1 + 2 + 0.5 + 1; 7
    "Copper Mesa": Decimal(9),  # 7 + 2, and nothing for the bye: his next bout was lost
    "Dunmarrow": Decimal("6.5"),  # 6 + 0.5
}


def added_up() -> dict[str, Decimal]:
    """Every team's points from what was entered."""
    sums: dict[str, Decimal] = defaultdict(Decimal)
    for bout in (*BRACKET, *POOL):
        sums[TEAMS[bout.winner]] += WINS.get(bout.round, Decimal(0)) + bout.bonus
    for side, wrestler, then in BYES:
        if any(bout.round == then and bout.winner == wrestler for bout in BRACKET):
            sums[TEAMS[wrestler]] += WINS[side]
    for placed in PLACES.values():
        for wrestler, points in zip(placed, PLACEMENT, strict=False):
            sums[TEAMS[wrestler]] += points
    return dict(sums)
