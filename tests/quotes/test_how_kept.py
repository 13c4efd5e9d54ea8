"""Explanations stored with a sent revision, in the present form, in the earlier one, and missing."""

import json
from datetime import timedelta
from decimal import Decimal

import pytest
from django.utils import timezone
from msgspec import to_builtins

from quotes.calc.kept_explanations import pack_explanations
from quotes.documents import snapshots
from quotes.models import Revision
from quotes.presenters.explanations import explanations, kept_explanations
from quotes.queries import frozen
from quotes.queries.pricing import figures
from shop.calc.snapshot import canonical, digest
from shop.models import Operation, Rate
from tests.quotes.stage import Stage
from tests.quotes.test_how import how, keys

pytestmark = pytest.mark.once


def test_a_sent_version_answers_with_what_was_kept(stage: Stage) -> None:
    sent = stage.sent()["quote"]
    before = [how(stage, sent, key) for key in keys(sent)]
    Operation.objects.update(title="Something else")
    Rate.objects.create(
        shop=stage.cast.shop,
        currency="USD",
        valid_from=Rate.objects.get().valid_from + timedelta(days=1),
        rate=Decimal("1.900000"),
    )
    assert [how(stage, sent, key) for key in keys(sent)] == before
    assert before[0]["steps"][1]["words"].endswith("5 days old")


def test_a_version_sent_before_they_were_kept_has_the_general_rule(stage: Stage) -> None:
    stage.sent()
    content = frozen.read(Revision.objects.get())
    del content["how"]
    explained = {explanation["key"]: explanation for explanation in to_builtins(kept_explanations(content))}
    assert set(keys(content["shown"])) == set(explained)
    setup = explained["labour:SETUP"]
    assert [step["words"] for step in setup["steps"]] == ["once for two kits: longest is 1.8 h"]
    assert "not kept" in setup["rule"][1] and setup["result"] == "297.00"
    kit = content["shown"]["kits"][0]
    assert explained[f"saves:{kit['line']}"]["result"].replace(",", "") == kit["saves_amount"]


def test_what_is_kept_reads_as_it_was_told_and_says_each_sentence_once(stage: Stage) -> None:
    stage.quote()
    before = to_builtins(explanations(figures(Revision.objects.get(), timezone.now())))
    packed = json.loads(canonical({"how": pack_explanations(before)}))
    assert to_builtins(kept_explanations(packed)) == before
    sentences = packed["how"]["sentences"]
    assert (
        len(sentences)
        == len(set(sentences))
        < sum(len(explanation["rule"]) + len(explanation["steps"]) for explanation in before)
    )
    assert all(
        json.dumps(packed, ensure_ascii=False).count(json.dumps(sentence, ensure_ascii=False)) == 1
        for sentence in sentences
    )


def test_a_version_sent_with_the_sentences_in_every_figure_is_read_and_verified(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The form that explanations had before each sentence was kept once."""
    with monkeypatch.context() as earlier:
        earlier.setattr(snapshots, "pack_explanations", lambda explanations, sentences=(): list(explanations))
        sent = stage.sent()["quote"]
    revision = Revision.objects.get()
    content = frozen.read(revision)
    assert isinstance(content["how"], list) and digest(revision.snapshot) == revision.digest == sent["digest"]
    for key in keys(sent):
        assert how(stage, sent, key) == next(explanation for explanation in content["how"] if explanation["key"] == key)
    assert to_builtins(kept_explanations({"how": pack_explanations(content["how"])})) == content["how"]
    assert len(canonical({"how": pack_explanations(content["how"])})) < len(canonical({"how": content["how"]}))
