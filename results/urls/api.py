"""Addresses of the API."""

from django.urls import path, re_path

from results.api import (
    brackets,
    draws,
    files,
    groups,
    late,
    nowhere,
    people,
    points,
    qualifying,
    record,
    rulings,
    season,
    teams,
)

API = "api/v1"
HERE = f"{API}/tournaments/<slug:slug>"
WEIGHT = f"{HERE}/weights/<str:weight>"
BOUT = f"{HERE}/bouts/<str:bout>"
ENTRY = f"{HERE}/entries/<str:key>"
TEAM = f"{HERE}/teams/<str:team>"

urlpatterns = [
    path(f"{API}/tournament-files/", files.Files.as_view(), name="api-files"),
    path(f"{API}/tournament-files/schema/", files.FileSchema.as_view(), name="api-file-schema"),
    path(f"{HERE}/file/", files.OneFile.as_view(), name="api-file"),
    path(f"{HERE}/sheets/", files.Sheets.as_view(), name="api-sheets"),
    path(f"{HERE}/jobs/<uuid:uid>/product/", files.JobProduct.as_view(), name="api-job-product"),
    path(f"{HERE}/entries/", people.Entries.as_view(), name="api-entries"),
    path(f"{WEIGHT}/seeds/", people.Seeds.as_view(), name="api-seeds"),
    path(f"{HERE}/wrestlers/<str:uid>/", people.Wrestler.as_view(), name="api-wrestler"),
    path(f"{HERE}/draws/", draws.Draws.as_view(), name="api-draws"),
    path(f"{WEIGHT}/draw/", draws.WeightDraw.as_view(), name="api-draw"),
    path(
        f"{WEIGHT}/draw/taken-back/",
        draws.WeightDrawTakenBack.as_view(),
        name="api-draw-taken-back",
    ),
    path(
        f"{HERE}/draws/verification/",
        draws.DrawsVerification.as_view(),
        name="api-draws-verification",
    ),
    path(f"{HERE}/commitment/", draws.Commitment.as_view(), name="api-commitment"),
    path(
        f"{HERE}/commitment/secret/", draws.CommitmentSecret.as_view(), name="api-commitment-secret"
    ),
    path(f"{WEIGHT}/bracket/", brackets.WeightBracket.as_view(), name="api-bracket"),
    path(f"{WEIGHT}/regrouping/", groups.WeightRegrouping.as_view(), name="api-regrouping"),
    path(
        f"{WEIGHT}/regrouping/preview/",
        groups.RegroupingPreview.as_view(),
        name="api-regrouping-preview",
    ),
    path(f"{HERE}/weigh-in/", late.WeighIn.as_view(), name="api-weigh-in"),
    path(f"{HERE}/cut-off/", late.CutOff.as_view(), name="api-cut-off"),
    path(
        f"{HERE}/weigh-in/application/",
        late.WeighInApplication.as_view(),
        name="api-weigh-in-apply",
    ),
    path(
        f"{HERE}/weigh-in/application/preview/",
        late.WeighInApplicationPreview.as_view(),
        name="api-weigh-in-apply-preview",
    ),
    path(f"{ENTRY}/removal/", late.EntryRemoval.as_view(), name="api-removal"),
    path(
        f"{ENTRY}/removal/preview/", late.EntryRemovalPreview.as_view(), name="api-removal-preview"
    ),
    path(f"{WEIGHT}/late-entries/", late.LateEntries.as_view(), name="api-late-entries"),
    path(
        f"{WEIGHT}/late-entries/preview/",
        late.LateEntryPreview.as_view(),
        name="api-late-entries-preview",
    ),
    path(f"{WEIGHT}/swap/", late.LineSwap.as_view(), name="api-swap"),
    path(f"{WEIGHT}/swap/preview/", late.LineSwapPreview.as_view(), name="api-swap-preview"),
    path(f"{WEIGHT}/redraw/", late.WeightRedraw.as_view(), name="api-redraw"),
    path(
        f"{WEIGHT}/redraw/preview/", late.WeightRedrawPreview.as_view(), name="api-redraw-preview"
    ),
    path(f"{HERE}/bouts/", brackets.Bouts.as_view(), name="api-bouts"),
    path(f"{BOUT}/", brackets.OneBout.as_view(), name="api-bout"),
    path(f"{BOUT}/result/", record.BoutResult.as_view(), name="api-result"),
    path(f"{BOUT}/result/state/", record.ResultState.as_view(), name="api-result-state"),
    path(f"{BOUT}/result/correction/", record.ResultCorrection.as_view(), name="api-correction"),
    path(f"{BOUT}/result/preview/", record.ResultPreview.as_view(), name="api-preview"),
    path(f"{HERE}/official/", record.Official.as_view(), name="api-official"),
    path(f"{HERE}/qualifiers/", qualifying.Qualifiers.as_view(), name="api-qualifiers"),
    path(
        f"{HERE}/qualifiers/preview/",
        qualifying.QualifiersPreview.as_view(),
        name="api-qualifiers-preview",
    ),
    path(f"{HERE}/season/results/", season.SeasonResults.as_view(), name="api-season-results"),
    path(f"{HERE}/rulings/", rulings.Rulings.as_view(), name="api-rulings"),
    path(f"{HERE}/rulings/preview/", rulings.RulingsPreview.as_view(), name="api-rulings-preview"),
    path(f"{HERE}/rulings/<int:ruling>/", rulings.OneRuling.as_view(), name="api-ruling"),
    path(
        f"{HERE}/rulings/<int:ruling>/preview/",
        rulings.RulingPreview.as_view(),
        name="api-ruling-preview",
    ),
    path(
        f"{HERE}/rulings/<int:ruling>/taking-back/",
        rulings.RulingTakingBack.as_view(),
        name="api-ruling-taking-back",
    ),
    path(f"{HERE}/places/", brackets.Places.as_view(), name="api-places"),
    path(f"{HERE}/team-points/", points.TeamPoints.as_view(), name="api-points"),
    path(f"{TEAM}/points/", points.TeamLedger.as_view(), name="api-ledger"),
    path(f"{TEAM}/merge/", teams.TeamMerge.as_view(), name="api-merge"),
    path(f"{TEAM}/split/", teams.TeamSplit.as_view(), name="api-split"),
    path(f"{HERE}/adjustments/", points.Adjustments.as_view(), name="api-adjustments"),
    path(
        f"{HERE}/adjustments/<int:adjustment>/",
        points.OneAdjustment.as_view(),
        name="api-adjustment",
    ),
    path(f"{ENTRY}/team/", teams.EntryTeam.as_view(), name="api-entry-team"),
    path(f"{HERE}/withdrawals/", teams.Withdrawals.as_view(), name="api-withdrawals"),
    path(f"{ENTRY}/withdrawal/", teams.EntryWithdrawal.as_view(), name="api-withdrawal"),
    path(
        f"{ENTRY}/withdrawal/preview/",
        late.EntryWithdrawalPreview.as_view(),
        name="api-withdrawal-preview",
    ),
    path(f"{ENTRY}/return/", teams.EntryReturn.as_view(), name="api-return"),
    path(f"{ENTRY}/return/preview/", teams.EntryReturnPreview.as_view(), name="api-return-preview"),
    re_path(r"^api/.*$", nowhere.Nowhere.as_view(), name="api-nowhere"),
]
