from django.urls import path

from shop.views import customers, jobs

urlpatterns = [
    path("customers", customers.Customers.as_view()),
    path("customers/<uuid:id>", customers.Customer.as_view()),
    path("vehicles", customers.Vehicles.as_view()),
    path("vehicles/<uuid:id>", customers.Vehicle.as_view()),
    path("jobs", jobs.Jobs.as_view()),
    path("jobs/<uuid:id>", jobs.Job.as_view()),
]
