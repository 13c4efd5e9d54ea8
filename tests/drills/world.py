"""Run as a module: fills the database that the environment names, and prints the ids as JSON."""

import json

import tests.environment  # noqa: F401  (before Django's settings)

LISTS = 3


def main() -> None:
    import django

    django.setup()
    from django.test.utils import setup_test_environment

    setup_test_environment()
    from tests.cast import make_cast
    from tests.kitting.stage import list_of
    from tests.quotes.stage import make_stage

    cast = make_cast()
    lists = {str(row.pk): [str(line.pk) for line in lines] for row, lines in (list_of(cast) for _ in range(LISTS))}
    make_stage(cast).sent()
    print(json.dumps({"slug": cast.shop.slug, "email": cast.parts.user.email, "lists": lists}))


if __name__ == "__main__":
    import os

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shop.settings")
    main()
