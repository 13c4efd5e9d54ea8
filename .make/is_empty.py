"""Ends with 0 when the database holds no shop yet, with 1 when it does."""

import os
import sys
from pathlib import Path

import django

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shop.settings")
django.setup()

from shop.models import Shop  # noqa: E402

sys.exit(Shop.objects.exists())
