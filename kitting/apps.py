from django.apps import AppConfig


class KittingConfig(AppConfig):
    name = "kitting"
    default_auto_field = "django.db.models.BigAutoField"
