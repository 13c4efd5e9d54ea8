from django.apps import AppConfig


class ShopConfig(AppConfig):
    name = "shop"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from django.db.backends.signals import connection_created

        from shop import checks, logs, sqlite  # noqa: F401  (the checks register themselves)
        from shop.documents.warming import Warming
        from shop.outbox.webhook_worker import worker as webhook_worker
        from shop.outbox.worker import worker
        from shop.serializers.json_types import take_only_their_types
        from shop.serializers.words import speak_our_words
        from shop.services.entry_mails import register_kinds
        from shop.serving import background
        from shop.serving.file_worker import file_worker

        register_kinds()
        logs.listen()
        speak_our_words()
        connection_created.connect(sqlite.was_used)
        background.register(sqlite.start_checkpoints, sqlite.stop_checkpoints)
        warming = Warming()
        background.register(warming.start, warming.stop)
        background.register(worker.start, worker.stop)
        background.register(webhook_worker.start, webhook_worker.stop)
        background.register(file_worker.start, file_worker.stop)
        take_only_their_types()
