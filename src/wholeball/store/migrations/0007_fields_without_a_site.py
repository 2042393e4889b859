from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("store", "0006_memberships_once"),
    ]

    operations = [
        migrations.RemoveConstraint(
            model_name="fieldrow",
            name="store_fieldrow_needed",
        ),
        migrations.AddConstraint(
            model_name="fieldrow",
            constraint=models.CheckConstraint(
                condition=models.Q(("field", ""), _negated=True),
                name="store_fieldrow_needed",
            ),
        ),
    ]
