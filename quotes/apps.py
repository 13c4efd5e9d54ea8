from django.apps import AppConfig


class QuotesConfig(AppConfig):
    name = "quotes"
    default_auto_field = "django.db.models.BigAutoField"
