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
)
NUMBER = (
    "number",
    "part no",
    "part number",
    "article",
    "item number",
    "article number",
    "item no",
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
)
DESCRIPTION = (
    "title",
    "description",
    "item",
    "article name",
    "name",
    "what",
    "designation",
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
    *("množství", "antal", "määrä"),
)
UNIT_OF = ("unit", "uom", "einheit", "me", "unité", "unità", "unidad", "eenheid", "jednostka", "jm", "enhet")
REMARK = (
    *("remark", "remarks", "note", "notes", "comment", "comments", "bemerkung", "bemerkungen", "hinweis", "remarque"),
    *("remarques", "note tecniche", "observaciones", "opmerking", "uwagi", "poznámka", "anmärkning"),
)
