from django.urls import path

from quotes.pages import entrance, link, receipt

urlpatterns = [
    path("", entrance.nowhere),
    path("<uuid:id>/", link.quote_page, name="quote-page"),
    path("<uuid:id>/answer", link.answer, name="quote-answer"),
    path("<uuid:id>/question", link.question, name="quote-question"),
    path("<uuid:id>/receipt", receipt.receipt, name="quote-receipt"),
    path("<uuid:id>/paper", link.paper, name="quote-paper"),
    path("<uuid:id>/photographs/<uuid:photograph>", link.photograph, name="quote-photograph"),
    path("<uuid:id>/<str:token>", entrance.enter, name="quote-enter"),
    path("<path:rest>", entrance.nowhere),
]
