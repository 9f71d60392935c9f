"""The addresses of this app: its pages and its part of the API."""

from results.urls import api
from results.urls import desk
from results.urls import public

urlpatterns = [*public.urlpatterns, *desk.urlpatterns, *api.urlpatterns]
