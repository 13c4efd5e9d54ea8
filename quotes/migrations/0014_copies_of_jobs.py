"""Makes a copy of each kit that a job's pull list was opened with, and ties the list's lines to it.

It stands in this app because the accepted quote names the revision of each kit, in the order of the list.
"""

from collections import Counter

from django.db import migrations

import shop.rows


def make_copies(apps, editor):
    PullList = apps.get_model("kitting", "PullList")
    numbers = Counter()
    for row in PullList.objects.filter(copy__isnull=True).order_by("opened_at", "id").iterator():
        revisions = sold_revisions(apps, row)
        of_kit = sorted({(line.detail.get("copy", 1), line.kit) for line in row.lines.exclude(kit="")})
        for place, code in of_kit:
            revision = revisions.get((place, code)) or newest_revision(apps, row, code)
            if revision is not None:
                numbers[revision.kit_id] += 1
                add_copy(apps, row, place, code, revision, numbers[revision.kit_id])


def sold_revisions(apps, row):
    """{(place in the list, code of the kit): revision} of the accepted quote that opened the job."""
    lines = apps.get_model("quotes", "Line").objects.filter(
        shop=row.shop_id,
        kind="kit",
        revision__state="accepted",
        revision__quote__job=row.job_id,
        revision__quote__additional=False,
    )
    sold = lines.select_related("kit_revision__kit").order_by("position")
    return {(at, line.kit_revision.kit.code): line.kit_revision for at, line in enumerate(sold, start=1)}


def newest_revision(apps, row, code):
    revisions = apps.get_model("kitting", "KitRevision").objects.filter(shop=row.shop_id, kit__code=code)
    return revisions.order_by("-number").first()


def add_copy(apps, row, place, code, revision, number):
    copy = apps.get_model("kitting", "KitCopy").objects.create(
        id=shop.rows.uuid7(),
        shop_id=row.shop_id,
        kit_id=revision.kit_id,
        revision_id=revision.pk,
        number=number,
        purpose="job",
        job_id=row.job_id,
    )
    lines = [line.pk for line in row.lines.filter(kit=code) if line.detail.get("copy", 1) == place]
    row.lines.filter(pk__in=lines).update(copy=copy)


class Migration(migrations.Migration):

    dependencies = [
        ("kitting", "0009_kit_copies"),
        ("quotes", "0013_remove_revision_sent_revision_never_changes_and_more"),
    ]

    operations = [migrations.RunPython(make_copies, migrations.RunPython.noop)]
