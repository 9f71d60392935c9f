"""Every setting, read from the environment by the typed readers of `deploy.readers`.

Two ways to run. A public installation (the default) is HTTPS only and has to be given `SECRET_KEY`
and `ALLOWED_HOSTS`. `VENUE_HTTP=1` is for plain HTTP on the network of a hall or on one's own
machine: the same program with cookies that travel without TLS, and a secret made once in DATA_DIR.
"""

from pathlib import Path
from typing import Any

import structlog
from csp.constants import NONE, SELF
from django.core.exceptions import ImproperlyConfigured
from django.utils.translation import gettext_lazy as _

from deploy.readers import database, env, flag, one_of, secret

BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = Path(env.str("DATA_DIR", default=str(BASE_DIR / ".local"))).absolute()
DEBUG = flag("DEBUG", default=False)
VENUE_HTTP = flag("VENUE_HTTP", default=False)
HTTPS = not (DEBUG or VENUE_HTTP)
SECRET_KEY = secret(DATA_DIR, may_make=not HTTPS)
# In a hall nobody knows beforehand by which name or number the machine will be called.
ALLOWED_HOSTS = env.list("ALLOWED_HOSTS", default=[] if HTTPS else ["*"])
if not ALLOWED_HOSTS:
    raise ImproperlyConfigured("ALLOWED_HOSTS is missing: the names of this site, with commas.")
CSRF_TRUSTED_ORIGINS = env.list("CSRF_TRUSTED_ORIGINS", default=[])

INSTALLED_APPS = [
    "deploy",
    "results",
    "brackets",
    "seeding",
    "seeding.entries",
    "seeding.journal",
    "rest_framework",
    "drf_spectacular",
    "drf_spectacular_sidecar",
    "django_structlog",
    "corsheaders",
    "csp",
    "django.contrib.admin",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "corsheaders.middleware.CorsMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_structlog.middlewares.RequestMiddleware",
]
ROOT_URLCONF = "deploy.urls"
ASGI_APPLICATION = "deploy.asgi.application"
WSGI_APPLICATION = "deploy.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ],
        },
    },
]

DATABASES = {"default": database(DATA_DIR)}
REDIS_URL = env.str("REDIS_URL", default="")
REDIS_PREFIX = env.str("REDIS_PREFIX", default="headtable:")
CACHES = {
    "default": {
        "BACKEND": "django.core.cache.backends.redis.RedisCache",
        "LOCATION": REDIS_URL,
        "KEY_PREFIX": REDIS_PREFIX,
    }
    if REDIS_URL
    else {"BACKEND": "django.core.cache.backends.locmem.LocMemCache"}
}

AUTH_USER_MODEL = "entries.User"
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": f"django.contrib.auth.password_validation.{name}"}
    for name in (
        "UserAttributeSimilarityValidator",
        "MinimumLengthValidator",
        "CommonPasswordValidator",
    )
]
LOGIN_URL = "sign-in"
LOGIN_REDIRECT_URL = "desk"
LOGOUT_REDIRECT_URL = "/"

USE_TZ = True
TIME_ZONE = "UTC"
USE_I18N = True
LANGUAGE_CODE = "en"
LANGUAGES = [("en", _("English"))]

# What the printers of the hall hold; a single print may ask for the other size.
PAPER = one_of("PAPER", "letter", "a4")

STATIC_URL = "/static/"
STATIC_ROOT = DATA_DIR / "static"
MEDIA_ROOT = DATA_DIR / "media"
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {
        "BACKEND": "servestatic.storage.CompressedManifestStaticFilesStorage"
        if flag("STATIC_HASHED", default=not DEBUG)
        else "django.contrib.staticfiles.storage.StaticFilesStorage"
    },
}

SECURE_SSL_REDIRECT = HTTPS
SECURE_REDIRECT_EXEMPT = [r"^livez$", r"^readyz$"]
SECURE_HSTS_SECONDS = env.int("HSTS_SECONDS", default=31_536_000) if HTTPS else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = HTTPS
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = HTTPS
SESSION_COOKIE_HTTPONLY = True
SECURE_REFERRER_POLICY = "same-origin"
# Without TLS browsers ignore it and complain of it on every page.
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin" if HTTPS else None
X_FRAME_OPTIONS = "DENY"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF],
        "font-src": [SELF],
        "connect-src": [SELF],
        "manifest-src": [SELF],
        "worker-src": [SELF],
        "form-action": [SELF],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
    }
}
# Anyone's page may read the public interface; no cookie and no authorisation goes along.
CORS_URLS_REGEX = r"^/api/v1/"
CORS_ALLOW_ALL_ORIGINS = True
CORS_ALLOW_CREDENTIALS = False
CORS_ALLOW_METHODS = ["GET", "HEAD", "OPTIONS"]
CORS_ALLOW_HEADERS = ["accept", "if-none-match"]
CORS_EXPOSE_HEADERS = ["etag", "link"]

REST_FRAMEWORK = {
    "DEFAULT_AUTHENTICATION_CLASSES": [
        "rest_framework.authentication.SessionAuthentication",
        "rest_framework.authentication.BasicAuthentication",
    ],
    "DEFAULT_PERMISSION_CLASSES": ["rest_framework.permissions.IsAuthenticatedOrReadOnly"],
    "DEFAULT_RENDERER_CLASSES": ["rest_framework.renderers.JSONRenderer"],
    "DEFAULT_SCHEMA_CLASS": "drf_spectacular.openapi.AutoSchema",
    "EXCEPTION_HANDLER": "seeding.journal.api.handler",
    "TEST_REQUEST_DEFAULT_FORMAT": "json",
    "COERCE_DECIMAL_TO_STRING": True,
}
SPECTACULAR_SETTINGS = {
    "TITLE": "Headtable",
    "DESCRIPTION": "Run a wrestling tournament, and follow one.",
    "VERSION": "1",
    "OAS_VERSION": "3.1.0",
    "SERVE_INCLUDE_SCHEMA": False,
    "SCHEMA_PATH_PREFIX": r"/api/v1",
    "COMPONENT_SPLIT_REQUEST": True,
    "SWAGGER_UI_DIST": "SIDECAR",
    # Open it shows some 120 operations and stops; closed it shows all groups.
    "SWAGGER_UI_SETTINGS": {"deepLinking": True, "docExpansion": "none"},
    "SWAGGER_UI_FAVICON_HREF": "SIDECAR",
    "ENUM_NAME_OVERRIDES": {
        "EntryStatusEnum": "seeding.entries.serializers.entry.STATUS",
        "BoutStatusEnum": "results.serializers.bouts.STATUSES",
        "WeighInEnum": "seeding.entries.serializers.entry.WEIGH_IN",
        "ResultKindEnum": "results.serializers.bouts.KINDS",
        "ResultStateEnum": "results.serializers.bouts.STATES",
        "WithdrawalKindEnum": "results.serializers.acts.REASONS",
        "ReasonStepEnum": "seeding.serializers.evidence.STEPS",
        "ChallengeStateEnum": "seeding.serializers.challenges.CHALLENGE_STATES",
        "BerthHowEnum": "seeding.serializers.qualifying.HOW",
        "JobStateEnum": "seeding.entries.serializers.people.STATES",
        "PutInKindEnum": "seeding.serializers.put_in.KINDS",
        "SideEnum": "results.serializers.bouts.SIDES",
        "WrestledChoiceEnum": "results.serializers.acts.CHOICES",
        "RemedyEnum": "results.serializers.late.REMEDIES",
        "NecessityEnum": "results.serializers.bouts.NEEDED",
        "RulingKindEnum": "results.serializers.rulings.RULING_KINDS",
    },
}

CELERY_BROKER_URL = REDIS_URL or "filesystem://localhost"
CELERY_BROKER_CONNECTION_RETRY_ON_STARTUP = True
CELERY_TASK_SERIALIZER = "json"
CELERY_ACCEPT_CONTENT = ["json"]
CELERY_TASK_ACKS_LATE = True
CELERY_TASK_REJECT_ON_WORKER_LOST = True
CELERY_TASK_IGNORE_RESULT = True
CELERY_WORKER_PREFETCH_MULTIPLIER = 1
CELERY_WORKER_HIJACK_ROOT_LOGGER = False
CELERY_WORKER_ENABLE_REMOTE_CONTROL = bool(REDIS_URL)
CELERY_TASK_ALWAYS_EAGER = flag("JOBS_AT_ONCE", default=False)
CELERY_TASK_EAGER_PROPAGATES = True
if REDIS_URL:
    CELERY_BROKER_TRANSPORT_OPTIONS: dict[str, Any] = {"global_keyprefix": REDIS_PREFIX}
else:
    CELERY_BROKER_TRANSPORT_OPTIONS = {
        "data_folder_in": str(DATA_DIR / "broker" / "queue"),
        "data_folder_out": str(DATA_DIR / "broker" / "queue"),
        "control_folder": str(DATA_DIR / "broker" / "control"),
        "polling_interval": 0.2,
    }
    for folder in ("queue", "control"):
        (DATA_DIR / "broker" / folder).mkdir(parents=True, exist_ok=True)

LOG_LEVEL = env.str("LOG_LEVEL", default="INFO").upper()
# Neither addresses of people nor who is signed in: asking would open the session on public pages.
DJANGO_STRUCTLOG_IP_LOGGING_ENABLED = False
DJANGO_STRUCTLOG_USER_ID_FIELD = None
_shared: list[structlog.typing.Processor] = [
    structlog.contextvars.merge_contextvars,
    structlog.stdlib.add_logger_name,
    structlog.stdlib.add_log_level,
    structlog.processors.TimeStamper(fmt="iso", utc=True),
    structlog.processors.format_exc_info,
]
structlog.configure(
    processors=[*_shared, structlog.stdlib.ProcessorFormatter.wrap_for_formatter],
    logger_factory=structlog.stdlib.LoggerFactory(),
    cache_logger_on_first_use=True,
)
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {
        "line": {
            "()": structlog.stdlib.ProcessorFormatter,
            "foreign_pre_chain": _shared,
            "processor": structlog.processors.JSONRenderer()
            if HTTPS
            else structlog.processors.LogfmtRenderer(),
        }
    },
    "handlers": {"stderr": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {"handlers": ["stderr"], "level": LOG_LEVEL},
}
