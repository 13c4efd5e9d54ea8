from django.apps import AppConfig


class QuotesConfig(AppConfig):
    name = "quotes"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from quotes.services import purging  # noqa: F401  # registers what it throws away
        from quotes.services.mails import register_kinds

        register_kinds()
