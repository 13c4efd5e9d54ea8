#!/bin/sh
# Until the first release there is one migration an app: make it anew from the models.
set -eu
cd "$(dirname "$0")/.."
for app in shop kitting quotes; do rm -f "$app"/migrations/0*.py; done
DEBUG=1 .venv/bin/python manage.py makemigrations shop kitting quotes

