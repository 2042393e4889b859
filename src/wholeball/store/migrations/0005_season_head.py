from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('store', '0004_reserved_slugs'),
    ]

    operations = [
        migrations.AddField(
            model_name='season',
            name='head',
            field=models.CharField(blank=True, default='', max_length=64),
        ),
    ]
