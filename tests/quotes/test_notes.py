"""A quote has a note to the workshop itself and one to the customer, which stands on page and paper as it was sent."""

import json
from typing import Any

import pytest
from django.db import IntegrityError, transaction

from quotes.documents.quote_pdf import paper_html
from quotes.models import DraftStep, Revision
from tests.quotes.dated import send
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

OURS = "Always late with the deposit"
THEIRS = "Bring the wheel-lock key; <b>the towing kit</b> fits the old bar."
ESCAPED = "Bring the wheel-lock key; &lt;b&gt;the towing kit&lt;/b&gt; fits the old bar."


def noted(stage: Stage, **notes: str) -> dict[str, Any]:
    quote = stage.quote().json()
    answer = stage.client.patch(f"quotes/{quote['id']}", notes, seen=f'"{quote["version"]}"')
    assert answer.status_code == 200, answer.content
    return dict(answer.json())


def page_of(sent: dict[str, Any]) -> str:
    phone = Phone(sent["link"]["url"])
    return str(phone.client.get(phone.page).content.decode())


def test_the_customer_reads_their_note_on_page_and_paper_and_never_ours(stage: Stage) -> None:
    draft = noted(stage, note=OURS, customer_note=THEIRS)
    assert (draft["note"], draft["customer_note"]) == (OURS, THEIRS)
    sent = send(stage, draft)
    revision = Revision.objects.get()
    assert json.loads(revision.snapshot)["note"] == THEIRS and sent["quote"]["customer_note"] == THEIRS
    for text in (page_of(sent), paper_html(revision.snapshot)):
        assert f"A note from us:</b> {ESCAPED}" in text and OURS not in text
    assert OURS not in revision.snapshot


def test_without_a_note_the_frozen_text_and_the_page_say_nothing(stage: Stage) -> None:
    sent = send(stage, stage.quote().json())
    assert "note" not in json.loads(Revision.objects.get().snapshot)
    assert "A note from us" not in page_of(sent)


def test_the_next_version_begins_with_it_and_changes_only_its_own(stage: Stage) -> None:
    first = send(stage, noted(stage, customer_note=THEIRS))["quote"]
    second = stage.client.post(f"quotes/{first['id']}/revise", {}).json()
    assert second["customer_note"] == THEIRS
    stage.client.patch(f"quotes/{first['id']}", {"customer_note": ""}, seen=f'"{second["version"]}"')
    assert list(Revision.objects.order_by("number").values_list("customer_note", flat=True)) == [THEIRS, ""]


def test_a_copy_for_somebody_else_has_none(stage: Stage) -> None:
    quote = noted(stage, customer_note=THEIRS)
    assert stage.client.post(f"quotes/{quote['id']}/copy", {}).json()["customer_note"] == ""


def test_it_is_undone_like_any_other_change(stage: Stage) -> None:
    quote = noted(stage, customer_note=THEIRS)
    assert quote["undo"] == {"words": "Note to the customer changed"}
    back = stage.client.post(f"quotes/{quote['id']}/undo", {"version": quote["version"]}).json()
    assert back["customer_note"] == "" and back["redo"] == quote["undo"]


def test_a_step_from_before_there_were_such_notes_keeps_the_note(stage: Stage) -> None:
    quote = noted(stage, customer_note=THEIRS)
    changed = stage.client.patch(f"quotes/{quote['id']}", {"note": OURS}, seen=f'"{quote["version"]}"').json()
    for step in DraftStep.objects.all():
        del step.state["revision"]["customer_note"]
        step.save(update_fields=["state"])
    back = stage.client.post(f"quotes/{quote['id']}/undo", {"version": changed["version"]}).json()
    assert (back["note"], back["customer_note"]) == ("", THEIRS)


@pytest.mark.parametrize(("text", "tidied"), [("Ring\u200bus\u202e first", "Ringus first"), ("x" * 400, "x" * 400)])
def test_invisible_characters_are_taken_out_of_it(stage: Stage, text: str, tidied: str) -> None:
    assert noted(stage, customer_note=text)["customer_note"] == tidied


@pytest.mark.parametrize("text", ["x" * 401, "two\nlines", "a\x00b"])
def test_it_refuses_what_does_not_fit_on_paper(stage: Stage, text: str) -> None:
    quote = stage.quote().json()
    answer = stage.client.patch(f"quotes/{quote['id']}", {"customer_note": text}, seen=f'"{quote["version"]}"')
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == "/customer_note"


@pytest.mark.both
def test_the_note_of_a_sent_version_never_changes(stage: Stage) -> None:
    send(stage, noted(stage, customer_note=THEIRS))
    with pytest.raises(IntegrityError, match="sent_revision_never_changes"), transaction.atomic():
        Revision.objects.update(customer_note="Another one")
