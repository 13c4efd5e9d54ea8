"""Rows that show how a file of customers, vehicles or labour is filled in. All of it is invented."""

from decimal import Decimal

from shop.tables.writing import StoredRows

CUSTOMERS: StoredRows = {
    "customers": [
        {"name": "Maren Oldacre", "phone": "01632 960 417", "email": "maren@example.org", "address": "3 Weir Walk"},
        {"name": "Wendlow Coach Hire", "phone": "01632 960 500"},
    ]
}
VEHICLES: StoredRows = {
    "vehicles": [
        {
            "title": "Tessark T35 estate",
            "plate": "KW 35 TES",
            "transmission": "manual",
            "model": "T35",
            "drive": "all",
            "attribute:wear sensor": "yes",
            "capacity engine oil": Decimal("6.1"),
            "capacity:rear axle": Decimal("1.2"),
        }
    ]
}
LABOUR: StoredRows = {
    "operations": [
        {
            "code": "SETUP",
            "title": "Set-up, protect, road test",
            "skill": "mechanical",
            "hours": Decimal("1.5"),
            "sharing": "once",
            "cautions": "Let it cool first",
        },
        {
            "code": "WHEELS",
            "title": "Wheels off and on",
            "skill": "mechanical",
            "hours": Decimal("0.4"),
            "wheels_off": "yes",
            "torques": "Wheel bolts: as the maker says, 120 N·m",
            "overlaps": "SETUP 0.1",
        },
    ],
    "templates": [
        {"template": "PADS", "position": 1, "operation": "SETUP", "stage": "Set-up", "after": "-"},
        {"template": "PADS", "position": 2, "operation": "WHEELS", "stage": "Brakes", "when": "wear sensor=yes"},
    ],
}
