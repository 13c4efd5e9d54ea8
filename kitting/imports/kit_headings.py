"""The headings of a kit's list, in English and as suppliers elsewhere write them."""

CARTON = (
    "carton",
    "box",
    "case",
    "package",
    *(
        "karton",
        "kiste",
        "packstück",
        "colis",
        "caisse",
        "scatola",
        "collo",
        "caja",
        "bulto",
        "doos",
        "krabice",
        "kolli",
    ),
)
BAG = (
    "bag",
    "pack",
    "sachet",
    "tray",
    *("beutel", "tüte", "sacchetto", "busta", "bolsa", "zak", "woreczek", "sáček", "påse", "pose"),
    *("worek", "zakje", "polybag", "pouch", "sac", "bag no", "bag number"),
)
NUMBER = (
    "number",
    "part no",
    "part number",
    "article",
    "item number",
    "article number",
    "item no",
    "art no",
    "article no",
    "part",
    *(
        "teilenummer",
        "teile nr",
        "artikelnummer",
        "artikel nr",
        "art nr",
        "référence",
        "réf",
        "codice",
        "codice articolo",
    ),
    *("referencia", "ref", "onderdeelnummer", "artikelnr", "numer części", "číslo dílu", "artnr", "p n", "pn"),
    *("nr części", "numer katalogowy", "onderdeelnr", "part nr", "nº de pieza", "codice parte", "catalogue number"),
)
DESCRIPTION = (
    "title",
    "description",
    "item",
    "article name",
    "name",
    "what",
    "designation",
    "denomination",
    *("bezeichnung", "benennung", "beschreibung", "désignation", "descrizione", "descripción", "omschrijving", "nazwa"),
    *("název", "benämning", "betegnelse"),
)
QUANTITY = (
    "quantity",
    "qty",
    "pieces",
    "number of pieces",
    "pcs",
    "count",
    "amount",
    *("menge", "anzahl", "stückzahl", "quantité", "qté", "quantità", "qtà", "cantidad", "cant", "aantal", "ilość"),
    *("množství", "antal", "määrä", "qty kit", "qty per kit", "quantity per kit", "per kit", "qty required", "req d"),
    *("q ty", "stück je satz", "menge je satz", "stk", "qté par kit", "aantal per set"),
)
UNIT_OF = (
    "unit",
    "uom",
    "einheit",
    "me",
    "unité",
    "unità",
    "unidad",
    "eenheid",
    "jednostka",
    "jm",
    "j m",
    "enhet",
    "u",
    "eh",
)
REMARK = (
    *("remark", "remarks", "note", "notes", "comment", "comments", "bemerkung", "bemerkungen", "hinweis", "remarque"),
    *("remarques", "note tecniche", "observaciones", "opmerking", "uwagi", "poznámka", "anmärkning"),
)
KIT_ABROAD = (
    "satz nr",
    "satznummer",
    "réf kit",
    "référence kit",
    "nr zestawu",
    "codice kit",
    "código de kit",
    "set nr",
)
REPLACES = ("replaces", "supersedes", "old number", "replaces number", "ersetzt", "remplace", "vervangt", "zastępuje")
REPLACED_BY = ("replaced by", "superseded by", "new number", "ersetzt durch", "remplacé par", "vervangen door")
PRICE = (
    "price",
    "unit price",
    *(
        "preis",
        "einzelpreis",
        "stückpreis",
        "einkaufspreis",
        "ek",
        "ek preis",
        "prix",
        "prix unitaire",
        "p u",
        "p u ht",
    ),
    *("prezzo", "prezzo unitario", "precio", "precio unitario", "prijs", "stukprijs", "cena", "cena netto"),
)
