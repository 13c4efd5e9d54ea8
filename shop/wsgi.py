import atexit
import os

from django.core.wsgi import get_wsgi_application

from shop.sqlite import start_checkpoints
from shop.words import catalogue

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shop.settings")
application = get_wsgi_application()
catalogue().parse_all()  # so that no request does
start_checkpoints()  # under whatever server; nothing else moves the log of SQLite

from shop.outbox import webhook_worker, worker  # noqa: E402  models are there once the application is

for sender in (worker.worker, webhook_worker.worker):
    sender.start()  # under whatever server; commands and tests never send
    atexit.register(sender.stop)
