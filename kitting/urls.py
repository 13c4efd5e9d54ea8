from django.urls import path

from kitting.views import circuits, consumables, counting, kit_file, kits, outside, pull_lists, readiness, suppliers

urlpatterns = [
    path("consumables", consumables.Consumables.as_view()),
    path("consumables/<uuid:id>", consumables.Consumable.as_view()),
    path("consumables/<uuid:id>/offers", consumables.ConsumableOffers.as_view()),
    path("consumables/<uuid:id>/packs", consumables.Packs.as_view()),
    path("consumables/<uuid:id>/packs/<uuid:pack>", consumables.Pack.as_view()),
    path("jobs/<uuid:id>/circuits", circuits.Circuits.as_view()),
    path("jobs/<uuid:id>/outside", outside.JobOutsides.as_view()),
    path("jobs/<uuid:id>/readiness", readiness.JobReadiness.as_view()),
    path("kits", kits.Kits.as_view()),
    path("kits/<uuid:id>", kits.Kit.as_view()),
    path("kits/<uuid:id>/contents", kit_file.KitContentsFile.as_view()),
    path("pull-lists", pull_lists.PullLists.as_view()),
    path("pull-lists/<uuid:id>", pull_lists.PullList.as_view()),
    path("pull-lists/<uuid:id>/events", counting.CountEvents.as_view()),
    path("pull-lists/<uuid:id>/close", pull_lists.PullListClose.as_view()),
    path("pull-lists/<uuid:id>/reopen", pull_lists.PullListReopen.as_view()),
    path("pull-lists/<uuid:id>/due", readiness.PullListDue.as_view()),
    path("pull-lists/<uuid:id>/report", pull_lists.PullListReport.as_view()),
    path("pull-lists/<uuid:id>/orders", pull_lists.PullListOrders.as_view()),
    path("pull-lists/<uuid:id>/paper", pull_lists.PullListPaper.as_view()),
    path("suppliers", suppliers.Suppliers.as_view()),
    path("suppliers/<uuid:id>", suppliers.Supplier.as_view()),
    path("suppliers/<uuid:id>/memories/<str:memory>", suppliers.SupplierMemory.as_view()),
]
