"""Sound bodies of requests."""

COOLANT = {
    "of": "coolant",
    "title": "Coolant concentrate, organic acid, ethylene glycol",
    "glycol": "ethylene",
    "capacity": "14.2",
    "added": "0.4",
    "target": "0.5",
    "residual": "0.42",
    "drained": "9.23",
    "drained_share": "0.65",
    "premix": "0.5",
    "order_allowance": "0.05",
    "top_up": "0.5",
}
WORKED = {"hours": "0.5", "reason": "Begun only"}
PAID = {"amount": "10.00", "received_on": "2026-01-05", "means": "cash"}
CORE = {"title": "Turbocharger", "amount": "10.00", "returned_on": "2026-01-05"}
AWAY = {"code": "outside:1", "title": "Calibration", "firm": "Lathe & Lambda", "days": 3}
SENT_OUT = {"work": "outside:1", "kind": "sent", "happened_on": "2026-11-24"}
TOLD = {"ready_on": "2026-12-14", "words": "We expect it on Monday.", "means": "phone"}
ANSWERED = {"do": "answer", "question": "sections", "text": "bag"}
OPERATION = {"title": "Measure", "skill": "mechanical", "hours": "0.4"}
TAUGHT = {"kit": {"number": "Art."}}
PACK = {"title": "A tin", "pack_size": "1"}
CANCEL = {"decision": "cancel"}
SEIZED = {"event": "A bolt is seized", "title": "Drive it out", "skill": "mechanical", "cap": 2}
OUTSIDE = {"title": "Calibration", "firm": "Lathe & Lambda", "cost": "480.00", "tax_class": "labour", "days": 3}
KIT = {"title": "Kit", "number": "QF-9", "supplier": None, "price": "9", "hours": "1", "lead_days": 3, "fits": ""}
COUNTED = {"lines": [{"carton": "", "bag": "A", "number": "QF-101", "quantity": "4"}], "whole": True}
