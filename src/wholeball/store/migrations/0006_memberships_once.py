from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("store", "0005_season_head"),
    ]

    operations = [
        migrations.RemoveConstraint(
            model_name="membership",
            name="store_membership_once",
        ),
        migrations.AddConstraint(
            model_name="membership",
            constraint=models.UniqueConstraint(
                fields=("organisation", "account", "role", "season", "team", "person"),
                name="store_membership_once_a_season",
            ),
        ),
        migrations.AddConstraint(
            model_name="membership",
            constraint=models.UniqueConstraint(
                condition=models.Q(("season__isnull", True)),
                fields=("organisation", "account", "role", "team", "person"),
                name="store_membership_once_in_every",
            ),
        ),
    ]
