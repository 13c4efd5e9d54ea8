"""One settings file; what differs between machines comes from the environment and fails loudly."""

import os
import re
import secrets
from pathlib import Path

import environ
from django.core.exceptions import ImproperlyConfigured

from shop import sqlite


def kept_secret(path: Path) -> str:
    """The installation's own key, made at random on first use and readable by its owner only."""
    if not path.exists():
        fresh = path.with_name(f"{path.name}.{os.getpid()}")
        fresh.touch(mode=0o600)
        fresh.write_text(secrets.token_urlsafe(50), "utf-8")
        fresh.replace(path)  # whole or not at all, even if another process starts now
    return path.read_text("utf-8")


BASE_DIR = Path(__file__).resolve().parent.parent
FRONT = BASE_DIR / "frontend" / "dist"

env = environ.Env()
VAR_DIR = sqlite.private_folder(env("VAR_DIR", cast=Path, default=BASE_DIR / "var").absolute())
DEBUG = env.bool("DEBUG", default=False)
SECRET_KEY = env("SECRET_KEY", default="") or kept_secret(VAR_DIR / "secret-key")
ALLOWED_HOSTS = env.list("ALLOWED_HOSTS", default=["127.0.0.1", "localhost"])
CSRF_TRUSTED_ORIGINS = env.list("CSRF_TRUSTED_ORIGINS", default=[])
SECURE_COOKIES = env.bool("SECURE_COOKIES", default=not DEBUG)
HTTPS_ONLY = env.bool("HTTPS_ONLY", default=False)  # the proxy says by X-Forwarded-Proto what came over HTTPS
TRUSTED_PROXY = env("TRUSTED_PROXY", default="")  # its address; only then X-Forwarded-For and -Proto are believed
METRICS_FOR = env.list("METRICS_FOR", default=[])  # the addresses that may read /metrics; none: it is not there
PUBLIC_ADDRESS = env("PUBLIC_ADDRESS", default="")  # what a customer's link begins with; empty: as the request came in

# Mail is written to the server's output until a mail server is named.
SMTP_HOST = env("SMTP_HOST", default="")
MAIL_IS_SENT = bool(SMTP_HOST)
EMAIL_BACKEND = "shop.outbox.smtp.Backend" if MAIL_IS_SENT else "shop.outbox.console.ConsoleBackend"
EMAIL_HOST = SMTP_HOST
SMTP_SECURITY = env("SMTP_SECURITY", default="starttls")
EMAIL_USE_TLS, EMAIL_USE_SSL = SMTP_SECURITY == "starttls", SMTP_SECURITY == "tls"
SMTP_PORTS = {"starttls": 587, "tls": 465, "none": 25}
if SMTP_SECURITY not in SMTP_PORTS:
    raise ImproperlyConfigured(f"SMTP_SECURITY is starttls, tls or none, not {SMTP_SECURITY!r}")
EMAIL_PORT = env.int("SMTP_PORT", default=SMTP_PORTS[SMTP_SECURITY])
EMAIL_HOST_USER = env("SMTP_USER", default="")
EMAIL_HOST_PASSWORD = env("SMTP_PASSWORD", default="")
EMAIL_TIMEOUT = 10
MAIL_FROM = env("MAIL_FROM") if MAIL_IS_SENT else env("MAIL_FROM", default="kitwright@localhost")  # an address alone
MAIL_RETRY_MINUTES = env.list("MAIL_RETRY_MINUTES", cast=int, default=[1, 5, 15, 60, 240])  # before each further try

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.staticfiles",
    "rest_framework",
    "drf_spectacular",
    "shop",
    "kitting",
    "quotes",
]
MIDDLEWARE = [
    "shop.serving.probes.probes",
    "shop.logs.request_lines",
    "django.middleware.security.SecurityMiddleware",
    "shop.api.middleware.content_security",
    "shop.api.middleware.in_a_language",
    "shop.api.middleware.no_store",
    "shop.api.middleware.body_limits",
    "shop.api.middleware.cookies_of_text",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "shop.api.compression.Compression",
    "shop.sessions.only_acts_remove_the_cookie",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "shop.sessions.acts_extend_the_session",
    "django.middleware.http.ConditionalGetMiddleware",
    "django.middleware.common.CommonMiddleware",
    "shop.api.middleware.problems_for_the_api",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
]
ROOT_URLCONF = "shop.urls"
WSGI_APPLICATION = "shop.wsgi.application"
APPEND_SLASH = False
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {"builtins": ["shop.templatetags.words"]},
    }
]

DB = env.db("DATABASE_URL", default=f"sqlite:///{VAR_DIR / 'kitwright.sqlite3'}")
if DB["ENGINE"].endswith("sqlite3"):
    if "memory" not in DB["NAME"]:
        sqlite.private_database(Path(DB["NAME"]))
    DB.setdefault("OPTIONS", {}).update(sqlite.OPTIONS)
    DB["CONN_MAX_AGE"] = None
    DB["TEST"] = {"NAME": str(VAR_DIR / f"test-{env('TEST_RUN', default=str(os.getpid()))}.sqlite3")}
else:
    DB["CONN_MAX_AGE"] = 60
    DB["CONN_HEALTH_CHECKS"] = True
DATABASES = {"default": DB}

AUTH_USER_MODEL = "shop.User"
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "shop.passwords.NotTooLong"},
    {"NAME": "shop.passwords.NotAlwaysTheSame"},
    {"NAME": "shop.passwords.NotThePersons"},
]
PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = SECURE_COOKIES
# A browser takes __Host- only from this very host over HTTPS; the link's cookie has a path, which __Host- forbids.
SESSION_COOKIE_NAME = "__Host-sessionid" if SECURE_COOKIES else "sessionid"
CSRF_COOKIE_NAME = "__Host-csrftoken" if SECURE_COOKIES else "csrftoken"
DEVICE_COOKIE_NAME = "__Host-device" if SECURE_COOKIES else "device"
LINK_COOKIE_NAME = "__Secure-quote" if SECURE_COOKIES else "quote"
SECURE_SSL_REDIRECT = HTTPS_ONLY
SECURE_HSTS_SECONDS = env.int("HSTS_SECONDS", default=365 * 24 * 3600)  # said over HTTPS only
SESSION_COOKIE_HTTPONLY = True
CSRF_FAILURE_VIEW = "shop.views.app.foreign_form"
SESSION_COOKIE_SAMESITE = CSRF_COOKIE_SAMESITE = "Lax"
SESSION_ENGINE = "shop.sessions"
SESSION_IDLE_HOURS = env.int("SESSION_IDLE_HOURS", default=12)  # without a change that the person made
SESSION_HOURS = env.int("SESSION_HOURS", default=24 * 7)  # whatever the person does
SESSION_COOKIE_AGE = 60 * 60 * SESSION_HOURS  # the server's own limits end it sooner
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CONTENT_TYPE_NOSNIFF = True
# Whether other hosts below this name speak HTTPS only is not ours to promise: no includeSubDomains and no preload.
SILENCED_SYSTEM_CHECKS = ["security.W005", "security.W021"]
PIN_DAYS = env.int("PIN_DAYS", default=30)  # how long a PIN works on the phone where it was set
SIGN_IN_TRIES = env.int("SIGN_IN_TRIES", default=8)  # of one person from one address, within a quarter of an hour
SIGN_IN_TRIES_OF_AN_ADDRESS = env.int("SIGN_IN_TRIES_OF_AN_ADDRESS", default=60)  # of all persons together

TOKEN_REQUESTS_A_MINUTE = env.int("TOKEN_REQUESTS_A_MINUTE", default=240)  # of another program, by one token

# Webhooks go to public addresses over HTTPS, unless the program runs in the workshop's own network.
WEBHOOK_HTTP = env.bool("WEBHOOK_HTTP", default=False)
WEBHOOK_PRIVATE_TARGETS = env.bool("WEBHOOK_PRIVATE_TARGETS", default=False)
WEBHOOK_RETRY_SECONDS = env.list(  # before each further try
    "WEBHOOK_RETRY_SECONDS", cast=int, default=[5, 300, 1800, 7200, 18000, 36000, 36000]
)
WEBHOOK_MESSAGE_DAYS = env.int("WEBHOOK_MESSAGE_DAYS", default=30)  # how long settled messages are listed

COMMAND_ANSWER_DAYS = env.int("COMMAND_ANSWER_DAYS", default=30)  # how long a repeat gets the first answer

LANGUAGE_CODE = "en-gb"
USE_TZ = True
TIME_ZONE = "UTC"
USE_I18N = False

STATIC_URL = "/static/"
STATIC_ROOT = VAR_DIR / "static"
STATIC_ROOT.mkdir(exist_ok=True)
STATICFILES_DIRS = [("app", FRONT)] if FRONT.exists() else []
STORAGES = {
    "default": {
        "BACKEND": "django.core.files.storage.FileSystemStorage",
        "OPTIONS": {
            "location": sqlite.private_folder(VAR_DIR / "media"),
            "file_permissions_mode": 0o600,
            "directory_permissions_mode": 0o700,
        },
    },
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedStaticFilesStorage"},
}
WHITENOISE_ALLOW_ALL_ORIGINS = False  # else other sites may read the static files
WHITENOISE_MIMETYPES = {".webmanifest": "application/manifest+json"}
WHITENOISE_USE_FINDERS = env.bool("SERVE_UNCOLLECTED", default=DEBUG)
HASHED = re.compile(r"^/static/app/assets/.+-[0-9A-Za-z_-]{7}\.\w+$")
WHITENOISE_IMMUTABLE_FILE_TEST = lambda path, url: HASHED.match(url) is not None  # noqa: E731

DATA_UPLOAD_MAX_MEMORY_SIZE = 6 * 1024 * 1024
FILE_UPLOAD_MAX_MEMORY_SIZE = 6 * 1024 * 1024

REST_FRAMEWORK = {
    "DEFAULT_AUTHENTICATION_CLASSES": ["shop.api.bearer.BearerToken", "shop.api.sign_in.SessionWithCsrf"],
    "DEFAULT_PERMISSION_CLASSES": [],
    "DEFAULT_RENDERER_CLASSES": ["shop.api.renderers.JSONRenderer"],
    "DEFAULT_PARSER_CLASSES": ["rest_framework.parsers.JSONParser"],
    "DEFAULT_SCHEMA_CLASS": "shop.api.openapi.EndpointSchema",
    "EXCEPTION_HANDLER": "shop.api.problems.as_problem",
    "UNAUTHENTICATED_USER": None,
    "COERCE_DECIMAL_TO_STRING": True,
}
SPECTACULAR_SETTINGS = {
    "TITLE": "Kitwright",
    "DESCRIPTION": "Quotes, kits, counting and hand-over for a workshop that fits performance and accessory kits.",
    "VERSION": "1",
    "OAS_VERSION": "3.1.0",
    "SCHEMA_PATH_PREFIX": r"/api/v1",
    "COMPONENT_SPLIT_REQUEST": True,
    "COMPONENT_SPLIT_PATCH": False,  # a change of one field names it; what may be left out says so itself
    "ENUM_GENERATE_CHOICE_DESCRIPTION": False,
    "POSTPROCESSING_HOOKS": ["shop.api.openapi.complete"],
    "SERVE_INCLUDE_SCHEMA": False,
}

LOG_LEVEL = env("LOG_LEVEL", default="WARNING")  # INFO: a line for each request
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"lines": {"()": "shop.logs.Lines", "format": "%(asctime)s %(levelname)s %(name)s %(message)s"}},
    "filters": {"without_secrets": {"()": "shop.logs.WithoutSecrets"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "lines"}},
    "root": {"handlers": ["console"], "level": LOG_LEVEL},
    "loggers": {
        "kitwright.people": {"level": "INFO"},  # who signed in, and whose sign-in failed, whatever the level
        "weasyprint.progress": {"level": "WARNING"},  # else ten lines a page
        "django.request": {"level": "ERROR", "filters": ["without_secrets"]},  # refusals have a line of ours
        "django.security.csrf": {"filters": ["without_secrets"]},
    },
}
