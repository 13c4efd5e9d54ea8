from django.urls import path

from shop.views import changes, customers, imports, jobs, lists, operations, rules

urlpatterns = [
    path("changes", changes.Changes.as_view()),
    path("customers", customers.Customers.as_view()),
    path("customers/<uuid:id>", customers.Customer.as_view()),
    path("vehicles", customers.Vehicles.as_view()),
    path("vehicles/vin", customers.Vin.as_view()),
    path("vehicles/<uuid:id>", customers.Vehicle.as_view()),
    path("jobs", jobs.Jobs.as_view()),
    path("jobs/<uuid:id>", jobs.Job.as_view()),
    path("jobs/<uuid:id>/in-bay", jobs.InBay.as_view()),
    path("jobs/<uuid:id>/in-bay/undo", jobs.InBayUndone.as_view()),
    path("jobs/<uuid:id>/hand-over", jobs.HandOver.as_view()),
    path("jobs/<uuid:id>/hand-over/undo", jobs.HandOverUndone.as_view()),
    path("jobs/<uuid:id>/steps/<uuid:step>/done", jobs.StepDone.as_view()),
    path("jobs/<uuid:id>/steps/<uuid:step>/done/undo", jobs.StepDoneUndone.as_view()),
    path("operations", operations.Operations.as_view()),
    path("operations/<uuid:id>", operations.Operation.as_view()),
    path("rules", rules.Rules.as_view()),
    path("rules/in-force", rules.RulesInForce.as_view()),
    path("rules/<uuid:id>", rules.RuleSet.as_view()),
    path("lists", lists.Lists.as_view()),
    path("lists/examples", lists.Examples.as_view()),
    path("imports", imports.Imports.as_view()),
    path("imports/<uuid:id>", imports.Import.as_view()),
    path("imports/<uuid:id>/lines", imports.ImportLines.as_view()),
    path("imports/<uuid:id>/steps", imports.Steps.as_view()),
    path("imports/<uuid:id>/steps/<uuid:step>", imports.Step.as_view()),
    path("imports/<uuid:id>/take-in", imports.TakeIn.as_view()),
]
