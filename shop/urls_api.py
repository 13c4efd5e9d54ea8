from django.urls import path

from shop.views import customers

urlpatterns = [
    path("customers", customers.Customers.as_view()),
    path("customers/<uuid:id>", customers.Customer.as_view()),
    path("vehicles", customers.Vehicles.as_view()),
    path("vehicles/<uuid:id>", customers.Vehicle.as_view()),
]
