"""Words of packing lists in the languages of Europe. A word stands folded: without case and punctuation."""


def _words(*lines: str) -> frozenset[str]:
    return frozenset(word for line in lines for word in line.split("|"))


TOTALS = _words(
    "total|totals|sum|subtotal|sub total|grand total|sum total|total lines|total pieces|total quantity|carry over",
    "carried forward|brought forward|carry forward|balance forward|summe|gesamt|gesamtsumme|zwischensumme|übertrag",
    "endsumme|somme|sous total|total général|report|à reporter|reporté|totale|subtotale|totale generale|riporto|somma",
    "suma|sumatoria|total general|suma y sigue|subtotaal|totaal|transport|razem|ogółem|suma częściowa|celkem|součet",
    "mezisoučet|spolu|összesen|végösszeg|áthozat|átvitel|yhteensä|välisumma|summa|totalt|delsumma|i alt|sum i alt",
    "ukupno|skupaj|toplam|genel toplam|σύνολο|итого|всего|сумма|разом|total geral|soma|transporte|kopā|kokku|iš viso",
)
PAGES = (
    "page|pg|seite|blatt|pagina|página|pág|strana|strona|str|sivu|side|sida|oldal|страница|стр|сторінка|leht|puslapis|"
    "lappuse|sayfa|σελίδα|feuille|folio|hoja|foglio"
)
OF = "of|von|de|sur|di|van|z|ze|av|af|из|od|/"
CONTINUED = _words(
    "continued|continued on next page|continued on page|cont d|to be continued|fortsetzung|fortsetzung nächste seite",
    "suite|suite page suivante|continua|segue|vervolg|ciąg dalszy|pokračování|end of list|end of report|ende der liste",
)
SIGNED = _words(
    "packed by|checked by|picked by|date|signature|signed|name|gepackt|geprüft|datum|unterschrift|préparé par",
    "contrôlé par|signature et date|firma|fecha|data|podpis",
)
CARTONS = (
    "carton|ctn|box|case|crate|package|parcel|collo|karton|kiste|packstück|kollo|kolli|caisse|colis|scatola|cassa|"
    "caja|bulto|doos|krat|pudełko|skrzynia|krabice|bedna|låda|kasse|laatikko|doboz|láda|kutija|коробка|ящик|caixa"
)
BAGS = (
    "bag|polybag|pouch|sachet|tray|beutel|tüte|tütchen|sac|sacchetto|busta|bolsa|zak|zakje|worek|woreczek|torebka|"
    "sáček|påse|pose|pussi|zacskó|tasak|vrećica|пакет|мешок|saco"
)
NUMBER_SIGNS = r"no\.?|nr\.?|n°|nº|number|nummer|num\.?|č\.?|#"
MANUAL = "manual|manuell|manuelle|manuel|manuale|schaltgetriebe|schalter|handschaltung|handschakeling|manuální"
AUTOMATIC = "automatic|auto|automatik|automatikgetriebe|automatique|automatico|automático|automaat|automat"
