from django.apps import AppConfig


class ShopConfig(AppConfig):
    name = "shop"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from shop import checks, sqlite  # noqa: F401  (the checks register themselves)
        from shop.serializers.words import speak_our_words
        from shop.serving import background

        speak_our_words()
        background.register(sqlite.start_checkpoints, sqlite.stop_checkpoints)
