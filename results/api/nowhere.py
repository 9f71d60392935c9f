"""Where no endpoint is: that too is said in JSON."""

from drf_spectacular.utils import extend_schema
from rest_framework.permissions import AllowAny
from rest_framework.request import Request

from seeding.journal.api.endpoint import Endpoint
from seeding.journal.core.errors import NotFound


@extend_schema(exclude=True)
class Nowhere(Endpoint):
    """Every address of the API that is none."""

    permission_classes = (AllowAny,)

    def initial(self, request: Request, *args: object, **kwargs: object) -> None:
        raise NotFound(what="endpoint", name=request.path)
