"""Codes of units (UN/ECE Recommendation 20), as UBL documents write them."""

CODES = {
    "pc": "H87",
    "set": "SET",
    "pair": "PR",
    "m": "MTR",
    "cm": "CMT",
    "mm": "MMT",
    "L": "LTR",
    "mL": "MLT",
    "kg": "KGM",
    "g": "GRM",
    "h": "HUR",
}
"""{our unit: its code}"""

ONE = "C62"
"""The code of a figure that counts something without a unit."""

UNITS_BY_CODE = {code: unit for unit, code in CODES.items() if unit != "h"} | {ONE: "pc", "EA": "pc", "KT": "set"}
"""{code: our unit} of the units in which goods are sent."""
