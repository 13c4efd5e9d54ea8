"""Sheets as whole documents of suppliers: several ways of laying out a list in one file, in five languages."""

import io

import openpyxl
from openpyxl.styles import Font

from tests.ugly.spec import Expected, UglyFile

GERMAN = """Stückliste;;;;;;
Satz-Nr.;7310-KS;;;;;
Bezeichnung;Ladeluftkühler-Satz;;;;;
Stand;03.11.2026;;;;;
;;;;;;
Pos.;Artikelnummer;Benennung;Menge;ME;Preis/100;Bemerkung
Karton 1 von 2;;;;;;
Beutel A;;;;;;
10;7310-001;Sechskantschraube M8x25;12,000;Stk;14,90;
20;7310-002;Scheibe 8,4;24,000;Stk;3,20;ersetzt 7309-002
30;7310-003;Schlauch 19 mm;1,500;m;890,00;
;;Übertrag;;;;
Beutel B;;;;;;
40;7310-004;Schelle 25;4,000;Stk;122,50;nur Automatik
50;7310-005;O-Ring;2,000;Stk;45,00;wird ersetzt durch 7310-005B
Karton 2 von 2;;;;;;
Beutel C;;;;;;
60;7310-006;Halter links;1,000;Stk;3480,00;
70;7310-007;Halter rechts;1,000;Stk;3480,00;
80;7310-008;Kabelbinder;10,000;Stk;6,10;
;;Gesamtsumme;;;7421,50;
;;Seite 1 von 1;;;;
"""

EXPLODED = """NORTHSHORE INDUCTION - KIT CONTENTS,,,,,,,
Kit P/N: 5520-K,,Rev: C,,,,,
Item,Part No.,Rev,Description,Qty/Kit,Spare,UOM,Notes
,BAG 1 - FUEL RAIL HARDWARE (BOX 2),,,,,,
1,5520-11,A,Rail spacer,4,0,EA,
2,5520-12,A,"Bolt, M6 x 40",4,1,EA,Use 5520-12L from 2027
3,5520-13,B,O-ring 14 x 2,8,2,EA,Supersedes 5519-13
,BAG 2 - BELT DRIVE (BOX 2),,,,,,
4,5520-21,A,Idler pulley,2,0,EA,
5,5520-22,A,Belt 6PK 2045,1,0,EA,Manual transmission only
6,5520-23,A,Belt 6PK 2060,1,0,EA,Automatic transmission only
7,5520-24,A,Loom tape,A/R,0,EA,as required
,LOOSE IN BOX 1,,,,,,
8,5520-31,D,Supercharger assembly,1,0,EA,
9,5520-32,A,Instruction book,1,0,EA,Not serviced separately
,,,,,,,
Packed by: ________,,,Checked by: ________,,,,
E&OE. Subject to our terms of sale.,,,,,,,
"""

FRENCH = """Nomenclature du kit;;;;;;;
Réf. kit : 2210-KIT;;;;;;;
Colis;Sachet;Réf.;Désignation;Qté;U.;P.U. HT;Remarques
1;S1;2210-01;Vis CHC M6x20;16;pce;0,35;
;;2210-02;Rondelle M6;32;pce;0,08;remplace 2209-02
;;2210-03;Durite carburant;1,25;m;8,40;
;S2;2210-04;Collier;6;pce;1,10;boîte automatique uniquement
;;2210-05;Joint;2;pce;4,75;remplacé par 2210-05A
;;;Sous-total colis 1;;;68,26;
;;;;;;;
2;S3;2210-06;Échangeur;1;pce;1\u202f234,50;
;;2210-07;Support gauche;1;pce;88,00;
;;2210-08;Jeu de vis;1;jeu;12,00;
;;;Report;;;1\u202f402,76;
Colis;Sachet;Réf.;Désignation;Qté;U.;P.U. HT;Remarques
2;S4;2210-09;Faisceau;1;pce;210,00;à partir de 2027 utiliser 2210-09B
;;2210-10;Attache;20;pce;0,12;
;;;Total HT;;;1\u202f615,16;
Conditions : paiement à 30 jours;;;;;;;
"""

POLISH = """Lista części zestawu 3311-Z,,,,,,
Lp.,Nr części,Nazwa,Ilość,J.m.,Karton,Worek
1,3311-01,Śruba M8x30,8,szt.,1,A
2,3311-02,Podkładka M8,16,szt.,",,",",,"
3,3311-03,Nakrętka M8,8,szt.,-//-,-//-
4,3311-04,Wąż,"0,75",mb,-//-,B
5,3311-05,Opaska,4,szt.,-//-,-//-
6,3311-06,Uszczelka,2,kpl.,2,C
7,3311-07,Wspornik,1,szt.,-//-,-//-
,,,,,,
,Razem,,40,,,
Strona 1 z 1,,,,,,
Sporządził: J. Testowy,,,,,,
"""

MATRIX = """Kit,6650-M,,,,,
,,,,,,
Part number,Description,Bag 1,Bag 2,Bag 3,Total,Unit
6650-01,Bolt M8 x 25,4,,2,6,pcs
6650-02,Washer M8,4,4,2,10,pcs
6650-03,Nut M8,,4,,4,pcs
6650-04,Hose clip 32,2,2,,4,pcs
6650-05,Bracket,,,1,1,pcs
Total,,10,10,5,25,
"""

ONE_CELL = """Fitting kit 8080-K - packing list
Box\tBag\tPart\tQty
Box 1\tBag 1\t8080-01 Socket screw M6x16\t12 pcs
\t\t8080-02 Spring washer\t12 pcs
\t\t8080-03 Heater hose\t1.5 m
\tBag 2\t8080-04 Clip\t6x
\t\t8080-05 Gasket set\t1 set
\t\t8080-06 Bracket, left\t1 pc
Box 2\tBag 3\t8080-07 Thread lock 10 ml\t1 tube
\t\t8080-08 Cable tie\tx 20
\t\t8080-09 Edge trim\t2 m
Total pieces: 54
"""

ALTERNATIVES = """Kit number,9412-T
Title,Twin cooler kit
,
Carton,Bag,Part number,Description,Quantity,Remark
1,10,9412-01,Cooler,2,
1,10,9412-02,Mount,4,or 9412-02A
1,11,9412-03,Bolt M6,10,
1,11,9412-04 or 9412-14,Washer M6,10,
1,11,9412-05,Clip,0,reference only
1,12,9412-06,Fan,1,if fitted with tow bar
1,12,9412-07,Coolant,-,not supplied
2,13,9412-03,Bolt M6,6,
2,13,9412-08,Hose 12 mm,2,cut to length
2,13,9412-09,Sensor,1,no longer available - order 9412-19
2,13,9412-10,Plug,1,superseded by 9412-10-1 (interchangeable)
"""

DESTROYED = """Kit,004410-K,,,,
Part no,Description,Bag,LHD qty,RHD qty,Remarks
004411,Bracket,1/6,1,1,
004412,Bolt,1/6,6,8,
4413,Nut,01-Jun,6,8,
1.20E+05,Seal,2/6,2,2,
004415,Pipe LHD,2/6,1,0,
004416,Pipe RHD,2/6,0,1,
004417,Clip,3/6,5,5,
"""

DUTCH = """Paklijst set 1290-S;;;;;;
;;;;;;
Doos 1;;;;;Gereedschap;
Zakje 1;;;;;;
Onderdeelnr;Omschrijving;Aantal;Eenheid;Opmerking;Gereedschap;Maat
1290-01;Bout M10;6;st;;Dopsleutel;17
1290-02;Ring M10;12;st;vervangt 1289-02;Momentsleutel;20-100
Zakje 2;;;;;;
1290-03;Slang;2,4;m;;Tang;
1290-04;Slangklem;8;st;alleen handgeschakeld;;
Alleen voor 2.4;;;;;;
1290-05;Adapter 2.4;1;st;;;
Doos 2;;;;;;
Zakje 3;;;;;;
1290-06;Radiateur;1;st;;;
1290-07;Rubber;4;st;gebruik 1290-07B vanaf 2027;;
Totaal;;34;;;;
"""


def merged_book() -> bytes:
    """A cover sheet, then a list: merged places, numbers with a format, a row struck out, formulas, a hidden cost."""
    workbook = openpyxl.Workbook()
    cover = workbook.active
    cover.title = "Cover"
    cover.append(["Contents of kit 002700", None, None])
    cover.append(["Issued", "2026-11-02", None])
    page = workbook.create_sheet("List")
    page.append(["Carton", "Bag", "Part number", "Description", "Quantity", "Cost"])
    for row in (
        [1, 1, 2744, "Plate", 2, 11.5],
        [None, None, 31007, "Bolt", 4, 0.4],
        [None, None, 5511, "Bracket, old", 1, 9],
        [None, 2, 902, "Clip", 6, 0.2],
        [2, 3, 77120, "Cooler", 1, 240],
        [None, None, 410223, "Grommet", 8, 0.3],
        [None, None, None, "Total", "=SUM(E2:E7)", None],
    ):
        page.append(row)
    for reference in ("A2:A5", "A6:A7", "B2:B4", "B6:B7"):
        page.merge_cells(reference)
    for row in range(2, 8):
        page[f"C{row}"].number_format = "000000"
    for cell in page[4]:
        cell.font = Font(strike=True)
    page.column_dimensions["F"].hidden = True
    out = io.BytesIO()
    workbook.save(out)
    return out.getvalue()


def packed(*rows: str) -> tuple[Expected, ...]:
    """The lines of "CARTON BAG NUMBER QUANTITY [UNIT]", with - for no place."""
    lines = []
    for row in rows:
        carton, bag, number, quantity, *unit = row.split()
        lines.append(
            Expected(
                carton.strip("-"), bag.strip("-").replace("_", " "), number, quantity, unit=unit[0] if unit else "pc"
            )
        )
    return tuple(lines)


FILES = (
    UglyFile(
        "stueckliste_prices_per_hundred.csv",
        GERMAN.encode("cp1252"),
        packed(
            "1 A 7310-001 12", "1 A 7310-002 24", "1 A 7310-003 1.5 m", "1 B 7310-004 4", "1 B 7310-005 2",
            "2 C 7310-006 1", "2 C 7310-007 1", "2 C 7310-008 10",
        ),
        checks=("condition_in_words G14",),
        says=("supersession_read", "places_in_rows", "price_divided"),
    ),
    UglyFile(
        "exploded_view_with_spares.csv",
        EXPLODED.encode(),
        packed(
            "2 1,_FUEL_RAIL_HARDWARE 5520-11 4", "2 1,_FUEL_RAIL_HARDWARE 5520-12 4",
            "2 1,_FUEL_RAIL_HARDWARE 5520-13 8", "2 2,_BELT_DRIVE 5520-21 2", "2 2,_BELT_DRIVE 5520-22 1",
            "2 2,_BELT_DRIVE 5520-23 1",
            "1 - 5520-31 1", "1 - 5520-32 1",
        ),
        must_fix=("not_a_number E12",),
        checks=("condition_in_words H10", "condition_in_words H11", "predecessor_in_words H6"),
        says=("supersession_read",),
    ),
    UglyFile(
        "nomenclature_with_subtotals.csv",
        FRENCH.encode(),
        packed(
            "1 S1 2210-01 16", "1 S1 2210-02 32", "1 S1 2210-03 1.25 m", "1 S2 2210-04 6", "1 S2 2210-05 2",
            "2 S3 2210-06 1", "2 S3 2210-07 1", "2 S3 2210-08 1 set", "2 S4 2210-09 1", "2 S4 2210-10 20",
        ),
        checks=("condition_in_words H7", "predecessor_in_words H16"),
        says=("supersession_read", "filled_down"),
    ),
    UglyFile(
        "ditto_marks.csv",
        POLISH.encode(),
        packed(
            "1 A 3311-01 8", "1 A 3311-02 16", "1 A 3311-03 8", "1 B 3311-04 0.75 m", "1 B 3311-05 4",
            "2 C 3311-06 2 set", "2 C 3311-07 1",
        ),
        says=("dittos_read", "sets_in_pieces"),
        fields={"kit": "3311-Z"},
    ),
    UglyFile(
        "a_column_for_each_bag.csv",
        MATRIX.encode(),
        packed(
            "- 1 6650-01 4", "- 3 6650-01 2", "- 1 6650-02 4", "- 2 6650-02 4", "- 3 6650-02 2", "- 2 6650-03 4",
            "- 1 6650-04 2", "- 2 6650-04 2", "- 3 6650-05 1",
        ),
        says=("quantities_by_place",),
    ),
    UglyFile(
        "quantity_and_unit_in_one_cell.csv",
        ONE_CELL.encode(),
        packed(
            "1 1 8080-01 12", "1 1 8080-02 12", "1 1 8080-03 1.5 m", "1 2 8080-04 6", "1 2 8080-05 1 set",
            "1 2 8080-06 1", "2 3 8080-07 1", "2 3 8080-08 20", "2 3 8080-09 2 m",
        ),
        says=("number_and_title_apart", "place_words_left_out"),
        fields={"kit": "8080-K"},
    ),
    UglyFile(
        "merged_places_and_a_row_struck_out.xlsx",
        merged_book(),
        packed("1 1 002744 2", "1 1 031007 4", "1 2 000902 6", "2 3 077120 1", "2 3 410223 8"),
        checks=("struck_rows",),
        says=("hidden_columns",),
        fields={"kit": "002700"},
    ),
    UglyFile(
        "alternatives_and_lines_not_supplied.csv",
        ALTERNATIVES.encode(),
        packed(
            "1 10 9412-01 2", "1 10 9412-02 4", "1 11 9412-03 10", "1 12 9412-06 1", "2 13 9412-03 6",
            "2 13 9412-08 2", "2 13 9412-09 1", "2 13 9412-10 1",
        ),
        must_fix=("two_numbers C8", "not_above_zero E9", "not_a_number E11"),
        checks=("condition_in_words F9", "condition_in_words F10", "predecessor_in_words F14"),
        says=("supersession_read",),
    ),
    UglyFile(
        "numbers_destroyed_and_two_sides.csv",
        DESTROYED.encode(),
        (
            *packed("- 1/6 004411 1"),
            Expected("", "1/6", "004412", "6", "variant=LHD"),
            Expected("", "1/6", "004412", "8", "variant=RHD"),
            Expected("", "2/6", "004415", "1", "variant=LHD"),
            Expected("", "2/6", "004416", "1", "variant=RHD"),
            *packed("- 3/6 004417 5"),
        ),
        asks=("zeros:number",),
        answers={"zeros:number": "restore"},
        must_fix=("date_for_a_number C5", "number_shortened A6"),
        says=("quantities_by_variant",),
    ),
    UglyFile(
        "paklijst_with_tools_beside_it.csv",
        DUTCH.encode(),
        (
            *packed("1 1 1290-01 6", "1 1 1290-02 12", "1 2 1290-03 2.4 m", "1 2 1290-04 8"),
            Expected("1", "2", "1290-05", "1", "variant=2.4"),
            *packed("2 3 1290-06 1", "2 3 1290-07 4"),
        ),
        asks=("variants",),
        answers={"variants": "condition"},
        checks=("condition_in_words E10", "predecessor_in_words E16"),
        says=("supersession_read", "places_in_rows"),
        fields={"kit": "1290-S"},
    ),
)  # fmt: skip
