from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('shop', '0036_file_tasks'),
    ]

    operations = [
        migrations.AddField(
            model_name='fileread',
            name='dropped_at',
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AlterField(
            model_name='fileread',
            name='body',
            field=models.BinaryField(blank=True),
        ),
        migrations.AddConstraint(
            model_name='fileread',
            constraint=models.CheckConstraint(condition=models.Q(('dropped_at__isnull', True), ('state', 'taken'), _connector='OR'), name='file_read_is_kept_until_taken'),
        ),
    ]
