#!/bin/sh
# Write the next migration of each app whose models have changed. What was released is never rewritten.
set -eu
cd "$(dirname "$0")/.."
DEBUG=1 .venv/bin/python manage.py makemigrations shop kitting quotes
