from django.urls import path

from quotes.views import counter, mails, outside, questions, quotes, ranges, sending, spoken

urlpatterns = [
    path("find", counter.Find.as_view()),
    path("counter", counter.Counter.as_view()),
    path("kits/<uuid:id>/price-range", ranges.KitPriceRange.as_view()),
    path("quotes", quotes.Quotes.as_view()),
    path("quotes/<uuid:id>", quotes.Quote.as_view()),
    path("quotes/<uuid:id>/restore", quotes.Restore.as_view()),
    path("quotes/<uuid:id>/margin", quotes.Margin.as_view()),
    path("quotes/<uuid:id>/newer-rules", quotes.NewerRules.as_view()),
    path("quotes/<uuid:id>/how", quotes.How.as_view()),
    path("quotes/<uuid:id>/lines", quotes.Lines.as_view()),
    path("quotes/<uuid:id>/lines/<uuid:line>", quotes.Line.as_view()),
    path("outside-work", outside.EarlierWork.as_view()),
    path("quotes/<uuid:id>/outside", outside.OutsideWorks.as_view()),
    path("quotes/<uuid:id>/outside/<uuid:line>", outside.OutsideOne.as_view()),
    path("quotes/<uuid:id>/overrides/<str:key>", quotes.Override.as_view()),
    path("quotes/<uuid:id>/discount", quotes.Discount.as_view()),
    path("quotes/<uuid:id>/revise", quotes.Revise.as_view()),
    path("quotes/<uuid:id>/send", sending.Send.as_view()),
    path("quotes/<uuid:id>/withdraw", sending.Withdraw.as_view()),
    path("quotes/<uuid:id>/links", sending.Links.as_view()),
    path("quotes/<uuid:id>/links/<uuid:link>", sending.Link.as_view()),
    path("quotes/<uuid:id>/mails", mails.Mails.as_view()),
    path("quotes/<uuid:id>/mails/<uuid:mail>/decision", mails.MailDecision.as_view()),
    path("quotes/<uuid:id>/paper", sending.Paper.as_view()),
    path("quotes/<uuid:id>/questions/<uuid:question>/reply", questions.Reply.as_view()),
    path("quotes/<uuid:id>/spoken-answer", spoken.SpokenAnswer.as_view()),
    path("quotes/<uuid:id>/as-customer", sending.AsCustomer.as_view()),
]
