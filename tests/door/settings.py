"""The project's settings with a few addresses that only the server's tests need."""

import os

from shop.settings import *  # noqa: F403

ROOT_URLCONF = "tests.door.urls"
TRUSTED_PROXY = os.environ["TRUSTED_PROXY"]
