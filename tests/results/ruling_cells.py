"""The rulings' part of the matrix of rights by the API."""

from collections.abc import Mapping
from typing import Any

from brackets.core.drafting import WantedResult
from brackets.models import Bout
from results.models import Ruling
from results.services import rule, withdraw
from seeding.entries.models import Entry
from seeding.entries.permissions import Right
from tests.results.championship import CALL

HERE = "/tournaments/spring"
FALL = {"kind": "fall", "winner": "top", "time": "1:05"}
ON = {"weight": "125", "kind": "result", "bout": "125.RR1-1", "winner": "top"}
CHOSEN = {"choices": [], "mark": "", "reason": "x"}
CELLS: dict[str, tuple[Right | str, str, Any]] = {
    "postResultCorrection": (
        Right.RECORD,
        f"{HERE}/bouts/1/result/correction/",
        {"outcome": FALL, **CHOSEN},
    ),
    "getRulings": ("public", f"{HERE}/rulings/", None),
    "postRulings": (Right.DIRECT, f"{HERE}/rulings/", {**ON, **CHOSEN}),
    "postRulingsPreview": (Right.DIRECT, f"{HERE}/rulings/preview/", ON),
    "deleteOneRuling": (Right.DIRECT, f"{HERE}/rulings/{{ruling}}/", None),
    "postRulingPreview": (Right.DIRECT, f"{HERE}/rulings/{{ruling}}/preview/", {"choices": []}),
    "postRulingTakingBack": (Right.DIRECT, f"{HERE}/rulings/{{ruling}}/taking-back/", CHOSEN),
}


def prepare() -> Mapping[str, str]:
    """Somebody who is out; a ruling that says what bout 1 says anyway, its name in addresses."""
    withdraw(call=CALL, entry=Entry.objects.get(key="157-4"), kind="injury")
    bout = Bout.objects.select_related("drawn__weight_class__division").get(number=1)
    rule(call=CALL, drawn=bout.drawn, wanted=WantedResult(bout.key, 0), reason="x")
    return {"ruling": str(Ruling.objects.get().pk)}
