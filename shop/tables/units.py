"""Units of goods and of time in the languages of Europe, each with the form that is stored."""

WORDS = {
    "pc": """pc pcs pce pces piece pieces ea each off x no nos unit units item items stk stck stück stücke st pz pezzo
        pezzi pièce pièces piece(s) unité unités ud uds un unid unidad unidades pieza piezas stuk stuks szt sztuk sztuka
        ks kus kusy kusů db darab kpl kappale styck stykk stykker buc bucăți kom komad gab vnt tk шт штук τεμ adet peça
        peças tube tubes bottle bottles can cans roll rolls 個""",
    "set": """set sets kit kits satz sätze garnitur jeu jeux serie série juego juegos komplet komplett sada sarja sæt
        sett sats készlet комплект conjunto takım""",
    "pair": """pair pairs pr paar paare paire paires coppia coppie paio par pares para pary pár pari пара""",
    "m": "m mtr metre metres meter meters mètre mètres metro metri metros metr metry m. mb lfm м",
    "mm": "mm millimetre millimetres millimeter",
    "cm": "cm centimetre centimetres zentimeter",
    "L": "l ltr litre litres liter liters litro litri litros litr litry lit л",
    "mL": "ml millilitre millilitres milliliter",
    "g": "g gr gram grams gramme grammes gramm grammo grammi",
    "kg": "kg kilo kilogram kilograms kilogramm kilogramme",
    "h": "h hr hrs hour hours",
    "min": "min mins minute minutes",
    "d": "d day days",
    "y": "y yr year years",
}
UNITS = {word: unit for unit, words in WORDS.items() for word in words.split()}
"""Maps each word, in lower case and without a final point, to its unit."""


def unit_of(word: str) -> str:
    """The unit that a word stands for; "" for an unknown word."""
    return UNITS.get(word.casefold().rstrip("."), "")
