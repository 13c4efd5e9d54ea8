from django.apps import AppConfig


class ShopConfig(AppConfig):
    name = "shop"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from shop import checks  # noqa: F401  (registers itself)
        from shop.serializers.words import speak_our_words

        speak_our_words()
