"""The minutes of a weight: a page, a file for paper, and signatures under them."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _

from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import weight as weight_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.forms.order import SignForm
from seeding.queries.minutes import signable
from seeding.services import sign_minutes


@desk(Right.SEED)
def minutes(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """Everything that the order rests on; sign it."""
    at = weight_of(tournament, weight)
    found = signable(at)
    held = {"digest": found.digest}
    form = SignForm(posted(request, "sign"), initial=held, auto_id="sign_%s")
    if carried(
        request,
        form,
        lambda call: sign_minutes(
            call=call,
            weight=at,
            name=form.cleaned_data["name"],
            digest=form.cleaned_data["digest"],
        ),
    ):
        messages.success(request, _("Signed."))
        return redirect("desk-minutes", tournament.slug, at.key)
    if form.is_bound:
        form.data = dict(form.data.items()) | {"digest": found.digest}
    shown = {"tournament": tournament, "weight": at, "found": found, "form": form}
    return render(request, "seeding/minutes.html", shown | {"minutes": found.minutes})


@desk(Right.SEED)
def paper(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """The minutes as PDF; `?paper=a4` or `letter` asks for a size."""
    # Only who prints waits for reportlab: it takes half a second to load.
    from seeding.paper.minutes import printed  # noqa: PLC0415

    at = weight_of(tournament, weight)
    made = printed(signable(at), timezone.now(), request.GET.get("paper", ""))
    name = f"{tournament.slug}-{at.key}-minutes.pdf"
    headers = {"Content-Disposition": f'inline; filename="{name}"', "Cache-Control": "no-store"}
    return HttpResponse(made, content_type="application/pdf", headers=headers)
