from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from kitting.models import Supplier
from quotes.models.lines import SENT, Line
from quotes.models.quotes import Revision
from shop.constraints import SameShop, frozen_with
from shop.rows import ExactDecimalField, ShopKey, ShopRow
from shop.search_words import Searched, SearchWord


class OutsideWork(Searched):
    """The terms of a line of outside work: firm, cost, turnaround, and the steps before and after.

    `revision` is repeated here, so that the database can freeze it.
    """

    revision = ShopKey(Revision, models.CASCADE)
    line = ShopKey(Line, models.CASCADE)
    firm = ShopKey(Supplier)
    cost = ExactDecimalField(scale=4)  # without recoverable tax
    markup = ExactDecimalField(scale=4)  # 0.15 is 15 %
    handling = ExactDecimalField(scale=4)
    days = models.PositiveIntegerField(null=True, blank=True)  # open days; without them the quote has no date
    starts_after = models.CharField(max_length=80, blank=True)  # code of a step; "": acceptance
    needed_by = models.CharField(max_length=80, blank=True)  # code of the step that waits for the result
    they_do = models.CharField(max_length=300, blank=True)
    they_need = models.CharField(max_length=200, blank=True)
    reference = models.CharField(max_length=80, blank=True)  # the firm's, of its offer
    warranty = models.CharField(max_length=200, blank=True)
    we_warrant = models.CharField(max_length=200, blank=True)
    rounds = models.PositiveIntegerField(null=True, blank=True)  # of a loop: log, correct, again
    per_round = models.BooleanField(default=False)  # the cost is that of one round

    typed = ("they_do", "they_need", "reference", "warranty", "we_warrant")
    TERMS = (
        *("cost", "markup", "handling", "days", "starts_after", "needed_by", "they_do", "they_need", "reference"),
        *("warranty", "we_warrant", "rounds", "per_round"),
    )

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"outside_work_{key}_is_of_its_shop") for key in ("revision", "line", "firm")),
            Unique(fields=["shop", "line"], name="outside_work_is_once_a_line"),
            *(
                Check(condition=Q(**{f"{name}__gte": 0}), name=f"outside_work_{name}_is_not_negative")
                for name in ("cost", "markup", "handling")
            ),
            Check(
                condition=Q(days__isnull=True) | Q(days__isnull=False, days__gte=1),
                name="outside_work_takes_a_day_or_more",
            ),
            Check(
                condition=Q(rounds__isnull=True) | Q(rounds__isnull=False, rounds__gte=1),
                name="outside_work_has_a_round_or_more",
            ),
            Check(condition=Q(per_round=False) | Q(rounds__isnull=False), name="outside_work_by_the_round_has_rounds"),
            *frozen_with("outside_work", "revision_id", "quotes_revision", SENT),
        ]
        indexes = [
            Index(fields=["shop", "revision"], name="outside_work_by_revision"),
            Index(fields=["shop", "firm", "-id"], name="outside_work_by_firm"),
        ]

    def __str__(self) -> str:
        return str(self.line)

    @property
    def search_texts(self) -> tuple[str, ...]:
        return self.line.title, self.firm.name


class OutsideWorkWord(SearchWord):
    target = ShopKey(OutsideWork, models.CASCADE, related_name="search_words")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("target", name="outside_work_word_is_of_its_shop"),
            Unique(fields=["shop", "target", "word"], name="outside_work_word_is_once"),
        ]
        indexes = [Index(fields=["shop", "word", "target"], name="outside_work_by_word")]
