### What a file of kits, parts or consumables says of itself.

## import

import-becomes-consumables = Packs: { $n } (consumables: { $consumables }), { $new } new, { $known } already on file
import-becomes-suppliers = Suppliers: { $n }, { $new } new, { $known } already on file
import-becomes-kits = Kits: { $n }, { $new } new, { $known } already on file; next versions with another figure: { $versions }
import-becomes-packing_slip =
    { $n ->
        [one] { $job }: { $n } line of its list arrives on { $day }
       *[other] { $job }: { $n } lines of its list arrive on { $day }
    }
import-becomes-kit = Kit { $code }, version { $revision }: { $title }
import-becomes-kit_lines =
    { $n ->
        [one] Parts list of { $n } line; cartons: { $cartons }, bags: { $bags }
       *[other] Parts list of { $n } lines; cartons: { $cartons }, bags: { $bags }
    }
import-becomes-kit_needs = Items not in the kit: { $needs }; parts re-used: { $reused }
import-becomes-kit_supersessions = Older numbers that lead to newer ones: { $n }
import-becomes-kit_outside = Work by other firms that goes with it: { $n }
import-becomes-kit_against = Compared with version { $revision }: { $new } new, { $gone } gone, { $changed } changed

import-found-code_of_another_part = the code { $barcode } belongs to { $what } and stays there.
import-found-code_twice = the code { $barcode } is another part's in row { $first }.
import-found-no_rate = { $currency } has no exchange rate yet, so nothing in it can be priced.
import-found-new_kit_needs = { $what } is not on file: a new kit needs a title, a selling price and hours.
import-found-supplier_without_offer = { $what } has no price for this kit, so the prices of others no longer count.
import-found-nothing_to_find_by = a name needs at least one letter or digit.
import-found-supplier_archived = { $what } is archived. Its prices count only where no other supplier has one.
import-found-pack_comes_back = { $what } is archived, and comes back with this file.
import-found-supplier_comes_back = { $what } is archived, and will be offered again.
import-found-price_without_supplier = a price without a supplier; the price is left out.
import-found-units_differ = { $one } and { $other } cannot be combined.
import-found-unit_not_as_before = row { $first } measures it in { $unit }.
import-found-unit_not_as_known = so far it is measured in { $unit }.
import-found-number_is_a_part = { $what } is already a part, so it cannot be a pack.
import-found-half_a_piece = { $n } pieces: a piece cannot be divided.
import-found-conditions_differ = { $attribute } is { $one } in this row, and { $other } by its heading.
import-found-slip_without_order = The file does not say which of your orders it answers.
import-found-slip_order_unknown = no job with an open list has the order number “{ $what }”.
import-found-slip_without_day = The file does not say when the goods arrive.
import-found-slip_day_unlikely = goods on their way arrive between today and a year from now.
import-found-slip_without_hours = there are no opening hours yet, so the hour of the arrival is not known.
import-found-slip_part_not_listed = { $job } does not wait for { $what }.
import-found-slip_packed_short =
    { $unit ->
        [pc] the slip has { $quantity } fewer than a line of { $job } lacks, so that line gets no day.
       *[other] the slip has { $quantity } { $unit } less than a line of { $job } lacks, so that line gets no day.
    }
import-found-slip_nothing_awaited = { $job } waits for nothing that is on this slip.
import-found-kit_without_code = The file does not say which kit it is.
import-found-kit_without_lines = There is no list of the kit's parts.
import-found-part_twice_in_bag = rows { $first } and { $row } are the same part twice in bag { $bag }, with { $one } and { $other }.
import-found-title_not_as_before = in row { $first } the same number is called “{ $what }”; that name is taken.
import-found-template_unknown = there is no labour template { $what } yet; the kit is imported without it.
import-found-template_archived = { $what } is archived; the kit is imported without it.
import-found-template_archived_stays = { $what } is archived; the kit has it already, and keeps it.
import-found-kit_comes_back = { $what } is archived, and will be offered again.
import-found-kit_loses_labour = The file names no labour template, so the next version is without labour. Version { $number } has { $what }.
import-found-kit_loses_price = The file names no selling price, so the next version is without one of its own. Version { $number } has one.
import-found-kit_loses_needs = Version { $number } lists items not in the kit: { $needs }; parts re-used: { $reused }. The file lists neither, so the next version has none.
import-found-operation_not_known = there is no operation { $what } yet; it is treated as needed at step 1.
import-found-operation_not_in_template = { $what } is not a step of template { $template }; it is treated as needed at step 1.
import-found-consumable_unknown = there is no consumable { $what }.
import-found-need_of_what = enter either a consumable's family or a part number.
import-found-need_of_which_circuit = no capacity is named.
import-found-need_of_how_many = the number of fasteners is missing.
import-found-need_of_what_width = the width of the bead is missing.
import-found-need_in_litres = a capacity is in litres, this consumable in { $unit }.
import-found-outside_class_unknown = the price rules have no such tax class for a line.
import-found-outside_step_unknown = { $what } is not a step of fitting this kit; it is left out on a quote.
import-found-rounds_missing = the cost is for one round, but no number of rounds is given.
import-found-result_before_work = { $what } is done before this work can begin.

import-remedy-code_of_another_part = If this number replaces the other, record that on the part.
import-remedy-code_twice = Correct one of the two.
import-remedy-no_rate = Add one to the rules.
import-remedy-new_kit_needs = Fill the cell, or correct the kit number.
import-remedy-supplier_without_offer = Leave the cell empty, or import the price of this supplier.
import-remedy-nothing_to_find_by = Correct the name.
import-remedy-supplier_archived = Bring the supplier back in the Office if you buy there again.
import-remedy-pack_comes_back = Leave its row out if it is to stay archived.
import-remedy-supplier_comes_back = Leave the row out if it is to stay archived.
import-remedy-price_without_supplier = Enter who the file is from.
import-remedy-units_differ = Correct one of the two.
import-remedy-unit_not_as_before = Use one unit for it.
import-remedy-unit_not_as_known = Use that unit for it.
import-remedy-number_is_a_part = Give the pack a different number.
import-remedy-half_a_piece = Enter a whole number, or a unit such as m or L.
import-remedy-conditions_differ = Correct the row, or the answer about the heading.
import-remedy-slip_without_order = Type the number of the order, such as J-1004-1, above the list.
import-remedy-slip_order_unknown = Type the number of the order or of the job above the list.
import-remedy-slip_without_day = Type the day above the list.
import-remedy-slip_day_unlikely = Type another day above the list. Count what is here already.
import-remedy-slip_without_hours = Enter the opening hours in the Office first.
import-remedy-slip_part_not_listed = It is left out. Ask the supplier if it was meant for this job.
import-remedy-slip_packed_short = Enter a day on the list once the supplier names one for the rest.
import-remedy-slip_nothing_awaited = Check the order number, or count what has come.
import-remedy-kit_without_code = Type the kit's number above the list.
import-remedy-kit_without_lines = Choose the file with the list, or choose which column is which.
import-remedy-part_twice_in_bag = Add them up to { $sum }, or correct one of the rows.
import-remedy-template_unknown = Import the labour first if it was meant.
import-remedy-template_archived = Bring the template back in the Office if it was meant.
import-remedy-template_archived_stays = Write the code of another template if one has taken its place.
import-remedy-kit_comes_back = Leave it out if it is to stay archived.
import-remedy-kit_loses_labour = Write “Labour template” and its code above the list if it stays.
import-remedy-kit_loses_price = Write “Selling price” and the price above the list if it stays.
import-remedy-kit_loses_needs = Copy them under the list if they stay: the kit’s page has that version as a workbook.
import-remedy-operation_not_known = Import the labour first, or correct the code.
import-remedy-operation_not_in_template = Correct the code, or add the step to the template.
import-remedy-consumable_unknown = Import the consumables first, or correct the name.
import-remedy-need_of_what = Fill one of the two.
import-remedy-need_of_which_circuit = Write it in { $cell }, as in coolant.
import-remedy-need_of_how_many = Write the number of fasteners in { $cell }.
import-remedy-need_of_what_width = Write the width in mm in { $cell }.
import-remedy-need_in_litres = Write the amount as fixed.
import-remedy-outside_class_unknown = Use one of: { $classes }.
import-remedy-outside_step_unknown = Correct the code, or import the labour first.
import-remedy-rounds_missing = Enter the rounds, or “no” in { $cell }.
import-remedy-result_before_work = Enter a later step, or an earlier start.
