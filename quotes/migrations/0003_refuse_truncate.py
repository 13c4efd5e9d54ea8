from django.db import migrations

from shop.constraints import refresh_refusals


class Migration(migrations.Migration):
    """PostgreSQL: a table whose rows may not be deleted may not be emptied either."""

    dependencies = [
        ('kitting', '0002_pullline_due_at'),
        ('quotes', '0002_the_day_it_comes_and_what_it_cost'),
        ('shop', '0003_answers_are_dropped'),
    ]

    operations = [migrations.RunPython(refresh_refusals, migrations.RunPython.noop, elidable=True)]
