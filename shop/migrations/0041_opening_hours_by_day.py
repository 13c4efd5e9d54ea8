from datetime import UTC, datetime

import django.utils.timezone
from django.db import migrations, models

DAY_OF_ID = 80  # a UUID of version 7 begins with 48 bits of milliseconds


def date_rows(apps, schema_editor):
    """Dates each shop's hours by the day on which they were recorded; the first hours apply before it, too."""
    Calendar = apps.get_model("shop", "Calendar")
    for row in Calendar.objects.all():
        recorded = datetime.fromtimestamp((row.pk.int >> DAY_OF_ID) / 1000, UTC)
        Calendar.objects.filter(shop=row.shop_id, pk=row.pk).update(valid_from=recorded.date())


class Migration(migrations.Migration):

    dependencies = [
        ("shop", "0040_webhooks"),
    ]

    operations = [
        migrations.RemoveConstraint(
            model_name="calendar",
            name="calendar_is_once_in_a_shop",
        ),
        migrations.AddField(
            model_name="calendar",
            name="valid_from",
            field=models.DateField(default=django.utils.timezone.localdate),
        ),
        migrations.AddConstraint(
            model_name="calendar",
            constraint=models.UniqueConstraint(fields=("shop", "valid_from"), name="calendar_is_once_a_day"),
        ),
        migrations.RunPython(date_rows, migrations.RunPython.noop),
    ]
