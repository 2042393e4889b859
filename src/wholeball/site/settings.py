"""Is Django's settings; what differs between machines comes from the environment."""

from importlib.resources import files

from csp.constants import NONE, SELF
from django.core.management.utils import get_random_secret_key

from wholeball.site.environment import environment

HERE = environment()
ID_KEY = HERE.id_key
SECRET_KEY = HERE.secret or get_random_secret_key()
DEBUG = HERE.is_debug
ALLOWED_HOSTS = list(HERE.hosts)
DATABASES = {"default": dict(HERE.database)}
AUTH_USER_MODEL = "store.Account"
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
ROOT_URLCONF = "wholeball.site.urls"
WSGI_APPLICATION = "wholeball.site.wsgi.application"
SITE_NAME = "Wholeball"

INSTALLED_APPS = [
    "wholeball.site",  # first, so that its templates stand before those of allauth
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "allauth",
    "allauth.account",
    "allauth.mfa",
    "allauth.usersessions",
    "csp",
    "django_htmx",
    "django_tasks",
    "django_tasks_db",
    "rules",
    "wholeball.store",
    "wholeball.desk",
    "wholeball.noticeboard",
    "wholeball.study",
]

MIDDLEWARE = [
    "wholeball.site.refusals.Refusals",
    "django.middleware.security.SecurityMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "csp.middleware.CSPMiddleware",
    "wholeball.site.bounds.bounded",  # before what reads: what is too large is not read
    "wholeball.site.keeping.kept_by_nobody",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "allauth.account.middleware.AccountMiddleware",
    "allauth.usersessions.middleware.UserSessionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "wholeball.site.staff.staff_sessions",
    "wholeball.site.refusals.not_this_way",
]

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "wholeball.site.context.places",
            ],
        },
    }
]

AUTHENTICATION_BACKENDS = [
    "rules.permissions.ObjectPermissionBackend",
    "django.contrib.auth.backends.ModelBackend",
    "allauth.account.auth_backends.AuthenticationBackend",
]
PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 12},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
]
ACCOUNT_ADAPTER = "wholeball.site.adapter.AccountAdapter"
ACCOUNT_EMAIL_SUBJECT_PREFIX = "Wholeball: "
ACCOUNT_LOGIN_METHODS = {"email"}
ACCOUNT_SIGNUP_FIELDS = ["email*", "password1*", "password2*"]
ACCOUNT_USER_MODEL_USERNAME_FIELD = None
ACCOUNT_EMAIL_VERIFICATION = "optional"
ACCOUNT_SESSION_REMEMBER = False
ACCOUNT_LOGOUT_REDIRECT_URL = "/"
ACCOUNT_RATE_LIMITS = {"login_failed": "10/m/ip,5/5m/key"}  # the key: account and address
ALLAUTH_TRUSTED_PROXY_COUNT = HERE.proxies
MFA_ADAPTER = "wholeball.site.adapter.PasskeyAdapter"
MFA_SUPPORTED_TYPES = ["totp", "webauthn", "recovery_codes"]
MFA_PASSKEY_LOGIN_ENABLED = True
MFA_ALLOW_UNVERIFIED_EMAIL = True  # staff need it at once, also where no mail is sent yet
LOGIN_REDIRECT_URL = "/"
LOGIN_URL = "account_login"

SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = HERE.is_https
CSRF_COOKIE_SECURE = HERE.is_https
CSRF_COOKIE_HTTPONLY = True
CSRF_FAILURE_VIEW = "wholeball.site.views.refused.without_token"
SECURE_SSL_REDIRECT = HERE.is_https
SECURE_HSTS_SECONDS = 31_536_000 if HERE.is_https else 0
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if HERE.proxies else None
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [SELF],
        "base-uri": [NONE],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
        "object-src": [NONE],
    }
}

STATIC_URL = "static/"
DATA_FOLDER = HERE.data
SEARCHES = HERE.searches
STATIC_ROOT = HERE.data / "static"
STATICFILES_DIRS = [("pages", str(files("wholeball.reports").joinpath("assets")))]
WHITENOISE_USE_FINDERS = True
DATA_UPLOAD_MAX_MEMORY_SIZE = 2_500_000
FILE_UPLOAD_MAX_MEMORY_SIZE = 2_500_000

CACHES = {
    "default": {
        "BACKEND": "django.core.cache.backends.locmem.LocMemCache"
        if HERE.is_sqlite
        else "django.core.cache.backends.db.DatabaseCache",  # guesses count in every process
        "LOCATION": "site_cache",
    }
}
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "filters": {"hide_words": {"()": "wholeball.site.masking.HideWords"}},
    "formatters": {
        "plain": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}
    },
    "handlers": {
        "console": {
            "class": "logging.StreamHandler",
            "filters": ["hide_words"],  # at the handler: it sees what every logger passes on
            "formatter": "plain",
        }
    },
    "root": {"handlers": ["console"], "level": "WARNING"},
    "loggers": {
        "django": {"handlers": [], "level": "INFO"},
        "django.request": {"level": "ERROR"},  # a page that is not there is no news
        "django.server": {"handlers": [], "propagate": True},
    },
}
TASKS = {"default": {"BACKEND": "django_tasks_db.DatabaseBackend"}}
SENDS_MAIL = HERE.mail is not None
EMAIL_BACKEND = (
    f"django.core.mail.backends.{'smtp' if SENDS_MAIL else 'filebased'}.EmailBackend"
)
EMAIL_FILE_PATH = HERE.data / "mail"
DEFAULT_FROM_EMAIL = "league@localhost"
if HERE.mail is not None:
    EMAIL_HOST, EMAIL_PORT = HERE.mail.host, HERE.mail.port
    EMAIL_HOST_USER, EMAIL_HOST_PASSWORD = HERE.mail.user, HERE.mail.password
    EMAIL_USE_TLS, EMAIL_USE_SSL = HERE.mail.tls == "starttls", HERE.mail.tls == "tls"
    EMAIL_TIMEOUT = 20
    DEFAULT_FROM_EMAIL = SERVER_EMAIL = HERE.mail.sender

LANGUAGE_CODE = "en"
USE_I18N = True
USE_TZ = True
TIME_ZONE = "UTC"
