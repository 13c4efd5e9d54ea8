import os

from django.core.wsgi import get_wsgi_application

from shop.sqlite import start_checkpoints
from shop.words import catalogue

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shop.settings")
application = get_wsgi_application()
catalogue().parse_all()  # so that no request does
start_checkpoints()  # under whatever server; nothing else moves the log of SQLite
