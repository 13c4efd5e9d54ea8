from django.apps import AppConfig


class KittingConfig(AppConfig):
    name = "kitting"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from kitting.queries.templates import kits_fitted_by
        from shop.queries.templates import register_kit_counter

        register_kit_counter(kits_fitted_by)
