"""Whether the program runs, and whether it can serve."""

from django.db import connection
from django.http import HttpRequest, HttpResponse


def livez(request: HttpRequest) -> HttpResponse:
    """Answers while the process is alive."""
    return HttpResponse("ok\n", content_type="text/plain")


def readyz(request: HttpRequest) -> HttpResponse:
    """Answers when the database does."""
    with connection.cursor() as cursor:
        cursor.execute("SELECT 1")
    return HttpResponse("ok\n", content_type="text/plain")
