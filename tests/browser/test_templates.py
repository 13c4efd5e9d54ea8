"""A template on a phone and on a desk: a manager changes the order of the work and archives it, an advisor reads it."""

from decimal import Decimal
from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from shop.models import LabourTemplate, Operation, OperationPair, TemplateStep
from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.cast import make_cast
from tests.factories import OperationFactory

pytestmark = pytest.mark.browser


def test_a_manager_changes_the_order_of_the_work(transactional_db: None, live_server: Any, browser: Browser) -> None:
    cast = make_cast()
    template = LabourTemplate.objects.create(shop=cast.shop, code="TK")
    for position, code in enumerate(("STRIP", "TURBO", "BUILD"), 1):
        row = OperationFactory(shop=cast.shop, code=code, title=f"Work on {code.lower()}")
        TemplateStep.objects.create(
            shop=cast.shop, template=template, operation=row, position=position, hours=Decimal("1.5"), stage="Front"
        )
    fill = OperationFactory(shop=cast.shop, code="FILL", title="Fill the coolant")
    turbo = Operation.objects.get(shop=cast.shop, code="TURBO")
    OperationPair.objects.create(shop=cast.shop, operation=fill, other=turbo, kind="includes")
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    acts.signed_in(page, live_server.url, "manager@saltmarsh.example", "/saltmarsh/office")
    page.get_by_role("link", name="Labour templates").click()
    expect(page.get_by_text("version 1, 3 steps")).to_be_visible()
    assert look_at_both(page, "templates") == []
    page.get_by_role("link", name="TK").click()
    page.get_by_label("Find an operation").fill("fill")
    page.get_by_role("button", name="FILL").click()
    expect(page.get_by_text("waits for step 3")).to_be_visible()
    page.get_by_text("The order as a picture").click()
    expect(page.get_by_text("Step 4, Fill the coolant, includes step 2, Work on turbo.")).to_be_visible()
    page.get_by_role("link", name="Step 4, 1 h: Fill the coolant; includes 2; waits for step 3").click()
    expect(page.get_by_role("heading", name="FILL")).to_be_visible()
    page.go_back()
    expect(page.get_by_text("waits for step 3")).to_be_visible()  # what was typed is still there
    page.get_by_text("The order as a picture").click()
    page.get_by_role("button", name="Change: FILL").click()
    page.get_by_label("Waits for", exact=True).fill("GHOST")
    assert look_at_both(page, "a template") == []
    page.get_by_role("button", name="Save as the next version").click()
    expect(page.get_by_text("GHOST is not a step of template TK.").first).to_be_visible()
    page.get_by_label("Waits for", exact=True).fill("TURBO")
    up = page.get_by_role("button", name="Up: TURBO")
    up.focus()
    page.keyboard.press("Enter")
    expect(up).to_be_disabled()
    page.get_by_role("button", name="Remove: BUILD").click()
    page.get_by_role("button", name="Save as the next version").click()
    expect(page.get_by_text("BUILD was removed")).to_be_visible()
    expect(page.get_by_text("TURBO follows: STRIP → nothing")).to_be_visible()
    newest = LabourTemplate.objects.get(code="TK", number=2)
    steps = list(newest.steps.order_by("position").values_list("operation__code", "after"))
    assert steps == [("TURBO", []), ("STRIP", []), ("FILL", ["TURBO"])]
    assert look_at_both(page, "the next version") == []
    page.get_by_role("button", name="Archive it").click()
    expect(page.get_by_text("Archived: it is kept, and no longer offered.")).to_be_visible()
    expect(page.get_by_role("button", name="Up: TURBO")).to_have_count(0)
    page.get_by_role("button", name="Bring it back").click()
    expect(page.get_by_role("button", name="Archive it")).to_be_visible()
    acts.signed_in(page, live_server.url, "advisor@saltmarsh.example", f"/saltmarsh/office/template/{newest.pk}")
    expect(page.get_by_text("Only a manager changes templates.")).to_be_visible()
    expect(page.get_by_role("button", name="Save as the next version")).to_have_count(0)
    page.get_by_role("link", name="version 1").click()
    expect(page.get_by_text("This is an earlier version; it never changes.")).to_be_visible()
    assert look_at_both(page, "a template to read") == []
    context.close()
