"""Loaded before Django's settings (`-p tests.environment`): what they want from the environment."""

import gc
import os

os.environ.setdefault("SECRET_KEY", "only-for-tests")
os.environ.setdefault("SECURE_COOKIES", "0")
os.environ.setdefault("OPENPYXL_LXML", "False")  # lxml validates documents here, and is not in production
gc.set_threshold(50_000, 20, 50)  # a run keeps its syntax trees and rows: looking through them so often takes a tenth
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "1")  # the browser's event loop runs in the test's thread
