from pathlib import Path

import pytest
from django.conf import settings

from tests.architecture.layers import ABOVE, circle, faults, project_faults, project_modules, rooms


def test_imports_point_down_and_calculations_are_pure() -> None:
    assert list(project_faults(settings.BASE_DIR)) == []


@pytest.mark.parametrize(
    ("path", "source"),
    [
        ("shop/views/a.py", "from kitting.models import Part"),
        ("shop/services/a.py", "import quotes.queries.loading"),
        ("kitting/services/a.py", "def late():\n    from quotes.models import Quote"),
        ("kitting/calc/a.py", "from django.utils import timezone"),
        ("quotes/calc/a.py", "from shop.models import Shop"),
        ("shop/calc/a.py", "from decimal import Decimal\nimport orjson"),
        ("quotes/queries/a.py", "from shop.presenters.dates import day_words"),
        ("quotes/services/a.py", "from quotes import presenters"),
        ("quotes/presenters/explanations/a.py", "from quotes.documents import snapshots"),
        ("kitting/views/a.py", "from quotes.pages.link import paper"),
        ("shop/services/a.py", "from shop.words import say"),
    ],
)
def test_a_planted_import_is_found(path: str, source: str) -> None:
    assert faults(Path(path), source)


def test_a_calculation_may_import_a_lower_calculation() -> None:
    assert faults(Path("quotes/calc/a.py"), "from kitting.calc.packs import choose_packs") == []


@pytest.mark.parametrize("app", ABOVE)
def test_the_rooms_of_an_app_form_no_circle(app: str) -> None:
    assert circle(rooms(project_modules(settings.BASE_DIR, app), app)) == []


def test_a_planted_circle_is_found() -> None:
    modules = [
        (Path("shop/access.py"), "from shop.queries.a import b"),
        (Path("shop/queries/a.py"), "from shop import access"),
        (Path("shop/views/a.py"), "from shop.access import Actor\nfrom shop.views.b import B"),
    ]
    assert set(circle(rooms(modules, "shop"))) == {"access", "queries"}
    assert circle(rooms(modules[1:], "shop")) == []
