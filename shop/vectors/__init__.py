"""Vector files: the worked cases of the calculations, as JSON of strings, and the runner that checks them.

Every app has a module `vectors` with `CALCULATIONS`, from the name of a calculation to the function that
reads `given`, calculates, and writes the result as JSON values. This one is the base app's.
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
