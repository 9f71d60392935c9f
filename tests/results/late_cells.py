"""The part of late changes in the matrix of rights by the API."""

from typing import Any

from seeding.entries.permissions import Right

HERE = "/tournaments/spring"
D = Right.DIRECT
MISSED = {"items": [{"entry": "141-1", "state": "missed"}]}
CASE = {"remedy": "scratch"}
LATE = {"team": "t1", "given": "Late", "family": "Comer"}
SWAP = {"one": 1, "other": 2}
WHY = {"reason": "x"}
CELLS: dict[str, tuple[Right, str, Any]] = {
    "getWeighIn": (D, f"{HERE}/weigh-in/", None),
    "putWeighIn": (D, f"{HERE}/weigh-in/", MISSED),
    "putCutOff": (D, f"{HERE}/cut-off/", {"division": None, "at": "2026-03-19T14:00:00Z"}),
    "postWeighInApplication": (
        D,
        f"{HERE}/weigh-in/application/",
        {"items": [{"entry": "141-1", **CASE}]},
    ),
    "postWeighInApplicationPreview": (
        D,
        f"{HERE}/weigh-in/application/preview/",
        {"items": [{"entry": "141-1", **CASE}]},
    ),
    "postEntryRemoval": (D, f"{HERE}/entries/141-1/removal/", CASE),
    "postEntryRemovalPreview": (D, f"{HERE}/entries/141-1/removal/preview/", CASE),
    "postLateEntries": (D, f"{HERE}/weights/141/late-entries/", LATE),
    "postLateEntryPreview": (D, f"{HERE}/weights/141/late-entries/preview/", LATE),
    "postLineSwap": (D, f"{HERE}/weights/125/swap/", SWAP | WHY),
    "postLineSwapPreview": (D, f"{HERE}/weights/125/swap/preview/", SWAP),
    "postWeightRedraw": (D, f"{HERE}/weights/125/redraw/", WHY),
    "postWeightRedrawPreview": (D, f"{HERE}/weights/125/redraw/preview/", None),
}
NOT_NOW = {"postLineSwap", "postLineSwapPreview", "postWeightRedraw", "postWeightRedrawPreview"}
"""Refused to everybody once a bout of the weight has a result."""
PAGES = (
    "weigh-in/",
    "weigh-in/?weight=125",
    "weigh-in/apply/",
    "entry/125-3/out/",
    "draw/weights/125/late/",
    "draw/weights/125/swap/",
    "draw/weights/125/anew/",
)
DONE = {"do": "do-it", "reason": "x"}
SENT = (
    ("weigh-in/", {"do": "weigh", "125-1.state": "missed"}),
    ("weigh-in/", {"do": "cut-off", "at": "2040-01-01T10:00"}),
    ("weigh-in/apply/", DONE),
    ("entry/125-3/out/?125-3.remedy=bye", DONE),
    ("draw/weights/125/late/?family=x&team=t1&where=lot", DONE),
    ("draw/weights/125/swap/?one=3&other=5", DONE),
    ("draw/weights/125/anew/", DONE),
)
"""What is posted to pages by those who may not."""
