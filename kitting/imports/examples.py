"""Rows that show how a file of consumables, of suppliers, of kits or of one kit is filled in. All of it is invented."""

from decimal import Decimal

from shop.tables.writing import TITLE, StoredRows

CONSUMABLES: StoredRows = {
    "consumables": [
        {
            "family": "engine oil",
            "specification": "5W-30",
            "unit": "L",
            "number": "OIL-5",
            "title": "Engine oil 5W-30, 5 L",
            "pack_size": Decimal(5),
            "supplier": "Fellmark",
            "cost": Decimal("29.95"),
            "currency": "EUR",
            "lead_days": 2,
        }
    ]
}
SUPPLIERS: StoredRows = {
    "suppliers": [
        {"supplier": "Fellmark", "contact": "Una, 01632 960 410", "currency": "EUR", "lead_days": 2},
        {"supplier": "Ferrous Vane", "contact": "orders@ferrous-vane.example", "currency": "GBP", "lead_days": 9},
    ]
}
KITS: StoredRows = {
    "kits": [
        {
            "kit": "RTM",
            "title": "Roof tent mounting kit",
            "supplier": "Fellmark",
            "price": Decimal("900.00"),
            "hours": Decimal("5.2"),
            "lead_days": 5,
            "fits": "model=T35",
        }
    ]
}
KIT: StoredRows = {
    TITLE: [{"kit": "BI-T", "title": "Turbocharger kit", "supplier": "Fellmark", "currency": "EUR", "cost": "1480.00"}],
    "lines": [
        {"carton": "1", "bag": "A", "number": "BI-0101", "title": "Turbocharger", "quantity": 1},
        {"carton": "1", "bag": "B", "number": "BI-0210", "title": "Screw M8 x 25", "quantity": 4},
        {"carton": "1", "bag": "B", "number": "BI-0211", "title": "Cable tie", "quantity": 2, "when": "manual only"},
    ],
    "needs": [
        {
            "family": "engine oil",
            "specification": "5W-30",
            "rule": "of capacity",
            "quantity": 1,
            "of": "engine oil",
        }
    ],
}
PACKING_SLIP: StoredRows = {
    TITLE: [{"order": "J-1004-1", "slip": "DN-417", "supplier": "Quillfen Supply", "day": "2026-12-04"}],
    "packed": [{"carton": "1", "number": "BI-0211", "title": "Cable tie", "quantity": 2, "unit": "pc"}],
}
