"""Vector files: worked cases of the calculations as JSON with string values, and the runner that checks them.

Each app has a module `vectors` with `CALCULATIONS`, which maps a calculation's name to a function that takes `given`,
calculates, and returns the result as JSON values. This module is the base app's.
"""

from shop.vectors.outlook import outlook_case
from shop.vectors.promise import promise_case
from shop.vectors.registry import Calculation
from shop.vectors.totals import totals
from shop.vectors.vin import vin

CALCULATIONS: dict[str, Calculation] = {
    "outlook": outlook_case,
    "promise": promise_case,
    "totals": totals,
    "vin": vin,
}
