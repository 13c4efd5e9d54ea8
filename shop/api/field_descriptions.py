"""Descriptions of fields that mean the same in all requests and answers.

A field with a different meaning describes itself: `Meta(description=...)` in an answer, `help_text` in a request.
"""

from typing import Any

FIELD_DESCRIPTIONS = {
    "title": "The name that people read.",
    "words": "Words for a screen: a short phrase or whole sentences.",
    "id": "It never changes.",
    "code": "One for each thing of its kind.",
    "items": "In the order of the list.",
    "state": "As it is now.",
    "version": "Of the row: it is raised with every change, and If-Match compares it.",
    "customer": "The customer's name.",
    "vehicle": "The vehicle's make and model.",
    "quantity": "In the unit that stands with it; without one, pieces.",
    "unit": "In which the goods are counted or measured.",
    "hours": "Hours of labour.",
    "price": "The price for the customer, with the tax where prices include it.",
    "unit_price": "The price of one, with the tax where prices include it.",
    "cost": "The workshop's cost, before tax.",
    "tax_class": "A tax class of the price rules.",
    "why": "The reasons in words.",
    "line": "The id of the line.",
    "kit": "The id of the kit.",
    "part": "The id of the part.",
    "key": "It names the figure in other requests.",
    "override": "Null where nobody replaced the figure that was worked out.",
    "how": "The steps by which it was worked out.",
    "rule": "The rule in plain words.",
    "steps": "The numbers of the case, in the order of the working.",
    "result": "The result with its unit.",
    "plate": "The registration plate; empty where none is recorded.",
    "vin": "The vehicle identification number; empty where none is recorded.",
    "attributes": 'Of the vehicle, by name: {"transmission": "automatic"}.',
    "attribute": "The name of an attribute of the vehicle.",
    "capacities": "Litres by circuit.",
    "name": "The name of the person or the firm.",
    "phone": "A telephone number; empty where none is recorded.",
    "email": "An e-mail address; empty where none is recorded.",
    "address": "A postal address; empty where none is recorded.",
    "supplier": "The supplier's name.",
    "firm": "The name of the other firm.",
    "recipient": "The name of the person who gets the link.",
    "position": "The place in the order, from 1.",
    "operation": "The code of the operation that first needs it, or empty.",
    "carton": "The label of the carton; empty where it lies in none.",
    "bag": "The label of the bag; empty where it lies in none.",
    "cartons": "The number of cartons in the box.",
    "skill": "The skill that the work asks for.",
    "no_return": "From here on the vehicle cannot move.",
    "mobile_again": "From here on the vehicle can move again.",
    "day": "In the shop's time zone.",
    "opened_at": "The time at which it was opened.",
    "changed_at": "The time at which it was last changed.",
    "sent_at": "The time at which it was sent; null for a draft.",
    "valid_until": "Until when the customer can accept it; null for a draft.",
    "valid_from": "The first day on which the price rules apply.",
    "read_at": "The time at which the file was read.",
    "seq": "The last place in the log that is held here.",
    "epoch": "The log's own: it is raised when a backup is restored.",
    "due_words": "The arrival, in words.",
    "file_name": "As it was uploaded.",
    "sheet": "The name of the sheet; empty for a file that has none.",
    "heading": "The text above the column.",
    "must_fix": "Findings that have to be fixed before the file can be imported.",
    "by": "The name of the person who uploaded it.",
    "here": "The vehicle is here already.",
    "here_from": "The day the vehicle comes, where that was recorded.",
    "job": "The job that it is for.",
    "promise": "Null where there is no date.",
    "prices_include_tax": "Prices are said with the tax in them.",
    "gross": "The total with tax.",
    "vehicles": "The vehicles of the customer.",
    "charge": "By the pack, as used, or within the shop supplies.",
    "now": "With the draft's own rules.",
    "then": "With the newer rules.",
}
PATH_DESCRIPTIONS = {
    "invitation": "The id of the invitation.",
    "pin": "The id of the PIN.",
    "sign_in": "The id of the sign-in.",
    "payment": "The id of the payment.",
    "release": "The id of the release.",
    "core": "The id of the returned core.",
    "occurrence": "The id of the record of what happened.",
    "photograph": "The id of the photograph.",
    "question": "The id of the question.",
    "mail": "The id of the e-mail.",
    "message": "The id of the message.",
    "step": "The id of the step, as the file lists it.",
    "slug": "The shop in addresses.",
    "id": "The id of the resource.",
    "line": "The id of the line.",
    "choice": "The id of the choice.",
    "option": "The id of the option.",
    "item": "The id of the consumable or part that is needed.",
    "link": "The id of the link.",
    "key": "The key of the figure.",
    "pack": "The id of the pack.",
    "memory": "The key of what is remembered, as the supplier lists it.",
    "name": "The circuit, as the vehicle's capacities name it.",
}


def describe_fields(schemas: dict[str, Any]) -> None:
    """Adds the description for its name to each field that has none."""
    for schema in schemas.values():
        for name, field in schema.get("properties", {}).items():
            if name in FIELD_DESCRIPTIONS:
                field.setdefault("description", FIELD_DESCRIPTIONS[name])


def describe_path(operation: dict[str, Any]) -> None:
    """Adds descriptions to the parameters in the path; those of the query describe themselves."""
    for parameter in operation.get("parameters", ()):
        if parameter["in"] == "path":
            parameter.setdefault("description", PATH_DESCRIPTIONS[parameter["name"]])
