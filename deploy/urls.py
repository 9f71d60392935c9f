"""Where everything is: each app brings its own addresses, the site's own are here."""

from importlib.util import find_spec

from csp.decorators import csp_update
from django.contrib import admin
from django.contrib.auth.views import LoginView, LogoutView
from django.urls import include, path
from drf_spectacular.views import SpectacularAPIView, SpectacularSwaggerSplitView

from deploy import views
from deploy.forms import SignInForm

APPS = ("seeding.journal", "seeding.entries", "seeding", "brackets", "results")

# The documentation page of the interface draws its icons from data in its style sheet.
docs = csp_update({"img-src": ["data:"]})(
    SpectacularSwaggerSplitView.as_view(url_name="schema", template_name="deploy/api_docs.html")
)
sign_in = LoginView.as_view(template_name="deploy/sign_in.html", authentication_form=SignInForm)

urlpatterns = [
    path("livez", views.livez, name="livez"),
    path("readyz", views.readyz, name="readyz"),
    path("sign-in/", sign_in, name="sign-in"),
    path("sign-out/", LogoutView.as_view(), name="sign-out"),
    path("admin/", admin.site.urls),
    path("api/v1/schema/", SpectacularAPIView.as_view(), name="schema"),
    path("api/v1/docs/", docs, name="api-docs"),
    *(path("", include(f"{app}.urls")) for app in APPS if find_spec(f"{app}.urls")),
]
