from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ("shop", "0041_opening_hours_by_day"),
    ]

    operations = [
        migrations.AddField(
            model_name="agreement",
            name="not_before",
            field=models.DateField(blank=True, null=True),
        ),
    ]
