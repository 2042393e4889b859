"""Is the site as a server of web pages calls it."""

import os

from django.core.wsgi import get_wsgi_application

from wholeball.site.checks import debug_findings, refuse, secret_findings
from wholeball.site.environment import environment

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "wholeball.site.settings")
here = environment()
refuse([*secret_findings(here), *debug_findings(here)])
application = get_wsgi_application()
