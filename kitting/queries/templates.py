"""Counts the kits of a labour template."""

from django.db.models import Exists, OuterRef

from kitting.models import KitRevision
from shop.models import LabourTemplate


def kits_fitted_by(template: LabourTemplate) -> int:
    """The number of kits whose newest version names any version of the template."""
    versions = LabourTemplate.objects.filter(shop=template.shop_id, code=template.code)
    revisions = KitRevision.objects.filter(shop=template.shop_id)
    later = revisions.filter(kit=OuterRef("kit"), number__gt=OuterRef("number"))
    return revisions.filter(~Exists(later), labour__in=[version.pk for version in versions]).count()
