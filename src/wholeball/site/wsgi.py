"""Is the site as a server of web pages calls it."""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "wholeball.site.settings")
application = get_wsgi_application()
