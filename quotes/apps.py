from django.apps import AppConfig


class QuotesConfig(AppConfig):
    name = "quotes"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from kitting.queries.outside import register_taken_off
        from quotes.queries.changes import outside_taken_off
        from quotes.services import purging  # noqa: F401  # registers what it throws away
        from quotes.services.mails import register_kinds

        register_kinds()
        register_taken_off(outside_taken_off)
