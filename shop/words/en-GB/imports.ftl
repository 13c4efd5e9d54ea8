### What an imported file says of itself: findings, remedies, fields.

## import

import-unread = Not read yet
import-task_stopped = The server was stopped { $n } times while it worked on this file. Nothing was saved. Try again; if that stops too, split the file and ask whoever looks after the server.
import-task_failed = The server could not work on this file, and nothing of it was saved. Try again; if that fails too, remove the file, save it again in your spreadsheet and send that.
import-taken = Imported: { $name }.
import-and_more = { $words } And { $n } more like it.

import-weight-must_fix = must fix
import-weight-please_check = please check
import-weight-done_for_you = done for you

import-at-refused_field = This cannot be used: { $words } { $remedy }
import-at-field_to_check = Look at this: { $words } { $remedy }
import-at-cell = Row { $row }, { $field }: { $words }
import-at-row = Row { $row }: { $words }

import-becomes-nothing = Nothing to import yet
import-becomes-after_repairs =
    { $n ->
        [one] { $n } good row, once the rest is settled
       *[other] { $n } good rows, once the rest is settled
    }
import-becomes-customers =
    { $n ->
        [one] { $n } customer: { $new } new, { $known } already on file
       *[other] { $n } customers: { $new } new, { $known } already on file
    }
import-becomes-vehicles =
    { $n ->
        [one] { $n } vehicle: { $new } new, { $known } already on file
       *[other] { $n } vehicles: { $new } new, { $known } already on file
    }
import-becomes-operations =
    { $n ->
        [one] { $n } operation: { $new } new, { $known } updated, { $same } as before
       *[other] { $n } operations: { $new } new, { $known } updated, { $same } as before
    }
import-becomes-template =
    { $n ->
        [one] Labour template { $code }, version { $revision }: { $n } step, { $hours } h
       *[other] Labour template { $code }, version { $revision }: { $n } steps, { $hours } h
    }
import-becomes-template_unchanged = Labour template { $code } stays at version { $revision }: the file changes none of it
import-becomes-rules =
    { $n ->
        [one] Price rules version { $number }, valid from { $day }, with { $n } labour rate
       *[other] Price rules version { $number }, valid from { $day }, with { $n } labour rates
    }
import-becomes-rules_unchanged = Price rules as they are: the file changes none of them
import-becomes-rules_from_today =
    { $n ->
        [one] Price rules version { $number }, valid from today, with { $n } labour rate
       *[other] Price rules version { $number }, valid from today, with { $n } labour rates
    }
import-becomes-rule_changes =
    { $n ->
        [one] and { $n } more figure
       *[other] and { $n } more figures
    }
import-becomes-week =
    { $n ->
        [one] Opening hours on { $n } day a week
       *[other] Opening hours on { $n } days a week
    }
import-becomes-week_from =
    { $n ->
        [one] Opening hours on { $n } day a week, from { $day }
       *[other] Opening hours on { $n } days a week, from { $day }
    }
import-becomes-closed_days =
    { $n ->
        [one] { $n } closed day
       *[other] { $n } closed days
    }
import-becomes-exchange_rates =
    { $n ->
        [one] { $n } exchange rate
       *[other] { $n } exchange rates
    }

import-field-name = name
import-field-number = part number
import-field-title = description
import-field-no_return = no return
import-field-mobile_again = mobile again
import-field-hold_point = check point
import-field-wheels_off = wheels off
import-field-wait_after = wait after
import-field-on_top_of = on top of
import-field-up_to = up to
import-field-valid_from = valid from
import-field-tax_class = tax class
import-field-off_at = comes off at
import-field-back_at = goes back at
import-field-starts_after = starts after
import-field-needed_by = needed for
import-field-they_do = they do
import-field-they_need = they need
import-field-we_warrant = we warrant
import-field-per_round = cost a round
import-field-pack_size = pack size
import-field-lead_days = lead time
import-field-returnable = can be sent back
import-field-shelf_life = shelf life
import-field-when = fits
import-field-replaces = replaces
import-field-replaced_by = replaced by
import-field-operation = operation
import-field-code = code
import-field-vin = VIN
import-field-x = times
import-field-kit = kit number
import-field-labour = labour template

import-found-empty_file = There is nothing in this file.
import-found-too_many_bytes = The file is larger than { $limit } MiB.
import-found-too_many_rows = The file has more than { $limit } rows, its headings included.
import-found-too_many_columns = The file has more than { $limit } columns.
import-found-too_many_sheets = The workbook has more than { $limit } sheets.
import-found-far_below = Sheet { $page }: row { $row } is far below all others, after row { $after }.
import-found-not_a_workbook = This is a zip file, not a workbook.
import-found-old_workbook = This is a workbook in the old format, or one with a password.
import-found-locked_workbook = The workbook is locked with a password.
import-found-macro_workbook = The workbook contains macros.
import-found-unsafe_workbook = The workbook contains definitions that a list does not need.
import-found-unpacks_too_large = The workbook unpacks to far more than a list needs.
import-found-damaged_workbook = The workbook is damaged.
import-found-not_a_table = This is not a list: neither a workbook nor text in columns.
import-found-unsafe_xml = The file defines or refers to something outside its own text.
import-found-broken_xml = The XML cannot be read beyond line { $line } of the file.
import-found-another_xml = The XML is a { $name }, by line { $line } of the file, and not a DespatchAdvice of UBL 2.
import-found-xml_too_large = The XML has too many elements or too many levels, by line { $line } of the file.
import-found-slip_without_quantity = Line { $line } of the file: the despatch line { $id } has no delivered quantity.
import-found-slip_quantity_unreadable = Line { $line } of the file: “{ $what }” is not a quantity, in the despatch line { $id }.
import-found-slip_unit_unknown = Line { $line } of the file: the unit { $unit } of the despatch line { $id } is not one in which goods are counted here.
import-found-slip_without_number = Line { $line } of the file: the despatch line { $id } has no part number.
import-found-slip_nothing_packed = Line { $line } of the file: nothing of { $what } was packed, in the despatch line { $id }.
import-found-unknown_extension = The name ends in { $extension }, which is not the ending of a list.
import-found-workbook_named_as_text = The name ends in { $extension }, but the file is a workbook and was read as one.
import-found-text_named_as_workbook = The name ends in { $extension }, but the file is text in columns and was read as text.
import-found-unknown_encoding = The text of this file cannot be read.
import-found-quote_never_closed = A quotation mark opens in row { $row } and is not closed there.
import-found-byte_order_mark = a byte-order mark was removed from the first heading.
import-found-old_encoding = Read with an older text encoding ({ $encoding }); check accented letters.
import-found-separator_line = The first line only names the separator ({ $separator }) and was left out.
import-found-loose_quotes = Stray quotation marks in the text were kept.
import-found-hidden_sheet = Sheet { $sheet } is hidden and was left out.
import-found-merged_down = Merged cells ({ $ranges }) were read as the same value in each of their rows.
import-found-heading_again = the headings are repeated here; left out.
import-found-foot_left_out = a page footer; left out.
import-found-sum_left_out = “{ $what }” is the sum of the rows above it, so it was left out as a total.
import-found-second_table_read = columns { $first } to { $last } have the same headings and were read as the other half of the list.
import-found-second_table_left_out = columns { $first } to { $last } are another table and were left out.
import-found-hidden_columns =
    { $n ->
        [one] Hidden column { $columns } was left out.
       *[other] Hidden columns { $columns } were left out.
    }
import-found-hidden_rows =
    { $n ->
        [one] Row { $rows } is hidden in the spreadsheet and was left out.
       *[other] Rows { $rows } are hidden in the spreadsheet and were left out.
    }
import-found-places_in_rows =
    { $n ->
        [one] Cartons and bags were read from { $n } row above the lines.
       *[other] Cartons and bags were read from { $n } rows above the lines.
    }
import-found-filled_down =
    { $which ->
        [carton] { $n ->
            [one] The carton is named once for each group. It was filled down into { $n } row.
           *[other] The carton is named once for each group. It was filled down into { $n } rows.
        }
        [bag] { $n ->
            [one] The bag is named once for each group. It was filled down into { $n } row.
           *[other] The bag is named once for each group. It was filled down into { $n } rows.
        }
       *[both] { $n ->
            [one] Carton and bag are named once for each group. They were filled down into { $n } row.
           *[other] Carton and bag are named once for each group. They were filled down into { $n } rows.
        }
    }
import-found-in_no_bag =
    { $n ->
        [one] One line is in no bag.
       *[other] { $n } lines are in no bag.
    }
import-found-in_no_carton =
    { $n ->
        [one] One line is in no carton.
       *[other] { $n } lines are in no carton.
    }
import-found-struck_rows =
    { $n ->
        [one] Row { $rows } is struck out in the spreadsheet and was left out.
       *[other] Rows { $rows } are struck out in the spreadsheet and were left out.
    }
import-found-dittos_read =
    { $n ->
        [one] One sign for “as above” was read as the text above it.
       *[other] { $n } signs for “as above” were read as the text above them.
    }
import-found-ditto_for_a_number = this is a sign for “as above” where a part number is needed.
import-found-number_and_title_apart =
    { $n ->
        [one] One cell holds number and description. They were read apart.
       *[other] { $n } cells hold number and description together. They were read apart.
    }
import-found-two_numbers = this names two part numbers, { $one } and { $other }.
import-found-sets_in_pieces =
    { $n ->
        [one] “kpl.” was read as a set in one line, for other lines are in pieces.
       *[other] “kpl.” was read as a set in { $n } lines, for other lines are in pieces.
    }
import-found-supersession_read = { $new } replaces { $old }. The older number leads to it.
import-found-superseded_by_another = { $what } already leads to another number, which stays.
import-found-supersession_in_a_circle = { $new } cannot replace { $old }, for it leads back to it.
import-found-place_by_sheet = The lines are in the place that the name “{ $what }” says.
import-found-two_in_one_file = this is { $other }, and the lines above are of { $one }. One import makes one kit.
import-found-too_many_files = More than { $limit } files were sent as one list.
import-found-place_words_left_out = the column's own word was left out of cells such as “{ $what }”.
import-found-quantities_by_place = { $n } columns are a carton or bag each. A line was made of each quantity in them.
import-found-quantities_by_variant = The columns { $headings } hold the quantities for each variant of the vehicle.
import-found-variants_by_heading =
    { $n ->
        [one] One line is for the variant that its heading names: { $headings }.
       *[other] { $n } lines are for the variant that their heading names: { $headings }.
    }
import-found-condition_in_words =
    { $proposal ->
        [none] “{ $words }” reads like a condition on the vehicle. The part counts for every vehicle.
       *[other] “{ $words }” reads like the condition { $proposal }. The part counts for every vehicle.
    }
import-found-successor_in_words = this part replaces { $number }.
import-found-predecessor_in_words = this part has been replaced by { $number }.
import-found-price_divided = a price for { $base }; one costs { $cost }.
import-found-price_divided_rounded = a price for { $base }; one costs { $cost }, rounded to four decimal places.
import-found-date_for_a_number = a spreadsheet turned this into a date. It was probably { $one } or { $other }.
import-found-corrected_as_before = read as { $value }, as it was corrected in this supplier's last file.
import-found-characters_cleaned = invisible characters or odd hyphens were removed; read as { $value }.
import-found-look_alike = some letters of { $value } are of another alphabet. In Latin letters it would be { $proposal }.
import-found-heading_twice = two columns have the heading “{ $says }”; the first is used.
import-found-letter_left_out = column { $column } is not imported.
import-found-column_left_out = column “{ $says }” is not imported.
import-found-column_without_heading =
    { $n ->
        [one] { $n } cell of column { $column } has no heading above it and was left out.
       *[other] { $n } cells of column { $column } have no heading above them and were left out.
    }
import-found-headings_in_two_rows = The headings are in two rows. Read as { $headings }.
import-found-total_left_out = a total, left out.
import-found-sections_left_out =
    { $n ->
        [one] A heading between the lines (row { $rows }) was skipped.
       *[other] Headings between the lines (rows { $rows }) were skipped.
    }
import-found-row_above = Row { $first } above the headings was read as the title block.
import-found-rows_above = Rows { $first } to { $last } above the headings were read as the title block.
import-found-sheet_left_out = Sheet { $sheet } contains nothing we know and was left out.
import-found-only_headings = There are headings, but no rows under them.
import-found-no_headings = No row looks like the headings of this kind of file.
import-found-column_missing = no column holds it.
import-found-mapping_field_unknown = There is no field “{ $field }”. Known: { $known }.
import-found-mapping_heading_unknown = There is no column “{ $heading }” for { $field }. The file has: { $there }.
import-found-missing_value = this is empty.
import-found-formula_value = a formula. The file's last value, { $value }, was used.
import-found-formula_without_value = a formula without a saved value.
import-found-cell_error = the spreadsheet shows the error { $value } here.
import-found-too_long = longer than { $limit } characters.
import-found-kept_as_text = begins like a formula; kept as text.
import-found-leading_zeros = a number stored as text. Leading zeros are kept.
import-found-number_shortened = the spreadsheet has shortened this number.
import-found-check_digit = the check digit does not match; kept as it is.
import-found-two_meanings = this may mean { $small } or { $large }.
import-found-thousands = read as { $value }, with a thousands separator.
import-found-decimal_comma = comma read as decimal sign.
import-found-dash_for_decimals = read as { $value }. The dash after it stands for no decimals.
import-found-scientific = read as { $value }. The spreadsheet may have shortened this number.
import-found-not_a_number = this is not a number.
import-found-a_date_or_time = this is a date or a time, not a number.
import-found-fraction = a fraction.
import-found-out_of_range = far too large.
import-found-above = more than { $limit }.
import-found-unknown_unit = “{ $unit }” is not a unit we know.
import-found-read_as_pieces =
    { $n ->
        [one] read as { $n } piece.
       *[other] read as { $n } pieces.
    }
import-found-read_as_percent = read as { $value } %.
import-found-below_zero = below zero.
import-found-not_above_zero = not above zero.
import-found-too_many_decimals = more than { $limit } decimal places.
import-found-finer_than_currency = more decimals than { $currency } has: at most { $limit } decimal places.
import-found-not_yes_or_no = neither yes nor no.
import-found-not_a_date = this is not a date.
import-found-two_dates = it is not clear which is the day and which the month.
import-found-not_a_time = this is not a time of day.
import-found-not_one_of = this is not one of: { $known }.
import-found-not_an_email = this is not an e-mail address.
import-found-turned_into_litres = read as { $value } litres.
import-found-unknown_value = “{ $value }” is not a value of { $attribute } we know.
import-found-condition_twice = { $attribute } is named twice.
import-found-unknown_condition = this condition cannot be read.
import-found-not_an_overlap = “{ $part }” is not an operation with its hours.
import-found-not_a_torque = “{ $what }” is not a torque.
import-found-not_a_currency = this is not a currency.
import-found-not_a_skill = this is a figure, not the name of a skill.
import-found-factor_below_one = a factor below 1 would reduce the hours.
import-found-row_twice = { $what } is already in row { $first }.
import-found-namesake = there is already a { $what } with another number. This one is added as well.
import-found-customer_unknown = there is no customer { $what }.
import-found-customer_not_clear = there are several customers called { $what }.
import-found-vin_malformed = a VIN has 17 letters and digits, without I, O and Q. Kept as it is.
import-found-vin_check_digit_wrong = the check digit does not match. Kept as it is.
import-found-includes_loop = operations include one another in a loop: { $loop }.
import-found-after_loop = steps wait for one another in a loop: { $loop }.
import-found-operation_comes_back = { $what } is archived, and comes back with this file.
import-found-template_comes_back = { $what } is archived, and will be offered again.
import-found-step_unknown = { $what } is not a step of template { $template }.
import-found-operation_unknown = there is no operation { $what }.
import-found-skill_without_rate = the price rules have no labour rate for the skill “{ $what }”, so such work cannot be quoted yet.
import-found-skill_like = the price rules have no labour rate for the skill “{ $what }”, so such work cannot be quoted yet. It may stand for { $meant }.
import-found-overlaps_itself = { $what } cannot overlap itself.
import-found-overlap_differs = { $one } and { $other } overlap by { $before } h in row { $first }, and by { $now } h here.
import-found-rule_unknown = there is no rule “{ $what }”; left out.
import-found-rule_twice = the rule “{ $what }” is here twice.
import-found-applies_to_unknown = “{ $what }” is not a kit, operation or skill of this workshop, so this caution would never be shown.
import-found-applies_to_like = “{ $what }” is not a kit, operation or skill of this workshop, so this caution would never be shown. It may stand for { $meant }.
import-found-applies_to_unchecked = The names in “Applies to” ({ $n }) cannot be checked, because no labour has been imported yet.
import-found-applies_to_cautions = only a caution can apply to some kits or work; terms and consents apply to every quote. Leave this cell empty.
import-found-rules_bad_rules = The rules are not complete: { $culprit }.
import-found-rules_tax_loop = Taxes are on top of one another in a loop: { $culprit }.
import-found-rules_duplicate_tax = The tax { $culprit } is here twice.
import-found-rules_unknown_tax = There is no tax { $culprit } to be on top of.
import-found-rules_bad_rate = The rate of tax { $culprit } is not possible.
import-found-rate_missing =
    { $n ->
        [one] There is no labour rate for the skill “{ $what }”, which one operation of this workshop has, so it cannot be quoted.
       *[other] There is no labour rate for the skill “{ $what }”, which { $n } operations of this workshop have, so they cannot be quoted.
    }
import-found-hours_day_past = these hours would begin on a day that is over.
import-found-closes_before_opening = closes before it opens at { $opens }.
import-found-sells_below_cost = a selling price of { $price } is { $net } before tax, below the cost of { $cost }.
import-found-sells_without_cost = there is a selling price, but no cost yet. It is used once there is a supplier and a cost.
import-found-fee_without_fluid = “{ $what }” is charged per litre drained, but no fluid is named.
import-found-fee_with_fluid = “{ $what }” names a fluid, but it is not charged per litre drained.
import-found-fee_family_unknown = no consumable is of the family “{ $family }”, so this fee would never be charged.
import-found-fluid_unknown = no kit and no vehicle has a fluid called “{ $what }” yet, so this fee would not be charged.
import-found-fluid_like = no kit and no vehicle has a fluid called “{ $what }” yet, so this fee would not be charged. It may stand for { $meant }.
import-found-band_below_cost = × { $x } sells at { $percent } % of the cost: what falls in this band loses money.
import-found-band_inside_below_cost = × { $x } is a price with tax inside. Without the tax it is { $percent } % of the cost: what falls in this band loses money.
import-found-rate_of_own_currency = { $currency } is the shop's own currency.
import-found-rate_already_there = that day's rate is { $rate } already.

import-remedy-empty_file = Choose the file again.
import-remedy-too_many_bytes = Save the sheet that matters as a file of its own.
import-remedy-too_many_rows = Divide it into files of at most { $limit } rows, each with the headings, and import them one after another. Only a kit has to stay in one file: remove the rows that do not belong to it.
import-remedy-too_many_columns = Remove the columns that are not part of the list.
import-remedy-too_many_sheets = Save the sheets that matter as a workbook of their own.
import-remedy-far_below = Remove row { $row } and those below, or close the gap above it.
import-remedy-not_a_workbook = Save the list as .xlsx or .csv.
import-remedy-old_workbook = Open it, remove the password, and save it as .xlsx.
import-remedy-locked_workbook = Remove the password and save it again.
import-remedy-macro_workbook = Save it as .xlsx without macros.
import-remedy-unsafe_workbook = Copy the list into a new workbook and save that.
import-remedy-unpacks_too_large = Copy the list into a new workbook and save that.
import-remedy-damaged_workbook = Open it in a spreadsheet and save it again.
import-remedy-not_a_table = Save the list as .xlsx or .csv.
import-remedy-applies_to_unknown = Correct it, or leave { $cell } empty: then the caution is on every quote.
import-remedy-applies_to_like = Correct it, or leave { $cell } empty: then the caution is on every quote.
import-remedy-applies_to_unchecked = Import the labour and the kits. Then read this file again to see whether a name is misspelt.
import-remedy-skill_without_rate = Add the skill with its rate to the price rules, or correct it here.
import-remedy-skill_like = Correct it, or add the skill with its rate to the price rules.
import-remedy-rate_missing = Add the skill with its rate on the sheet of labour rates, unless those operations are to get another skill.
import-remedy-unsafe_xml = Ask the supplier for the file without a document type and without entities.
import-remedy-broken_xml = Ask the supplier for the file again, or for the list as .xlsx or .csv.
import-remedy-another_xml = Ask the supplier for the packing slip as a UBL DespatchAdvice, or as .xlsx or .csv.
import-remedy-xml_too_large = Ask the supplier to divide it, or for the list as .xlsx or .csv.
import-remedy-slip_without_quantity = Ask the supplier for the file with the quantity, or enter the list as .csv.
import-remedy-slip_quantity_unreadable = Ask the supplier for the file with a number there, or enter the list as .csv.
import-remedy-slip_unit_unknown = Ask the supplier for one of these: H87, EA, SET, PR, MTR, CMT, MMT, LTR, MLT, KGM, GRM.
import-remedy-slip_without_number = Ask the supplier for the file with the number, or enter the list as .csv.
import-remedy-slip_nothing_packed = It is left out: the job goes on waiting for it.
import-remedy-unknown_extension = Save the list as .xlsx or .csv; a packing slip may be .xml.
import-remedy-workbook_named_as_text = Check that it is the right file.
import-remedy-text_named_as_workbook = Check that it is the right file.
import-remedy-unknown_encoding = Save it as CSV in UTF-8.
import-remedy-hidden_rows = Check whether they belong to the list, and choose to read them if they do.
import-remedy-sum_left_out = If it is a part after all, write its number differently in the file.
import-remedy-condition_in_words = Use the condition, or leave it out if the part fits every vehicle.
import-remedy-successor_in_words = Record it, so that the older number leads to this part, or leave it out.
import-remedy-predecessor_in_words = Record it if the newer part is what will come, or leave it out.
import-remedy-struck_rows = Check whether they belong to the list, and choose to read them if they do.
import-remedy-two_in_one_file = Import each kit by itself.
import-remedy-too_many_files = Put some of them together in one sheet.
import-remedy-two_numbers = Choose the one that is in the box.
import-remedy-ditto_for_a_number = Write the part number itself.
import-remedy-supersession_in_a_circle = Remove one of the two numbers.
import-remedy-date_for_a_number = Correct it here, or format the column as text and enter it again.
import-remedy-look_alike = Compare it with the label, and correct it here if it is Latin.
import-remedy-second_table_left_out = If it belongs to the list, copy it under the list.
import-remedy-quote_never_closed = Look for a single quotation mark, as in 12" pipe, and remove or double it.
import-remedy-column_without_heading = If they belong to the list, write a heading above them and choose the corrected file.
import-remedy-only_headings = Choose the sheet or file with the rows.
import-remedy-no_headings = Choose under “Change columns” what each column holds, or name the headings that the file has.
import-remedy-column_missing = Choose which column holds it, or add it.
import-remedy-mapping_field_unknown = Use one of these.
import-remedy-mapping_heading_unknown = Use one of these headings.
import-remedy-missing_value = Enter something in { $cell }, or leave the row out.
import-remedy-formula_without_value = Open the file, let it calculate, and save it again.
import-remedy-cell_error = Correct { $cell }.
import-remedy-too_long = Shorten { $cell }.
import-remedy-number_shortened = Format the column as text and enter the number again.
import-remedy-check_digit = Compare it with the label.
import-remedy-two_meanings = Enter one of the two in { $cell }.
import-remedy-not_a_number = Enter a number in { $cell }, or leave the row out.
import-remedy-a_date_or_time = Format { $cell } as a number and enter it again.
import-remedy-fraction = Write it with decimals, as in 0.5.
import-remedy-out_of_range = Correct { $cell }.
import-remedy-above = Correct { $cell }.
import-remedy-unknown_unit = Enter the number alone in { $cell }, or a unit such as pcs, m, L, mL or g.
import-remedy-below_zero = Correct { $cell }.
import-remedy-not_above_zero = Enter a number above zero in { $cell }, or leave the row out.
import-remedy-too_many_decimals = Shorten the number in { $cell }.
import-remedy-finer_than_currency = Round it in { $cell }.
import-remedy-not_yes_or_no = Enter yes or no in { $cell }, or leave it empty.
import-remedy-not_a_date = Write it as 2026-11-24.
import-remedy-two_dates = Write it as 2026-11-24.
import-remedy-not_a_time = Write it as 08:00.
import-remedy-not_one_of = Choose one of them.
import-remedy-not_an_email = Correct { $cell } or empty it.
import-remedy-unknown_value = Choose { $known }, or leave the condition out.
import-remedy-condition_twice = Write the values one after the other: manual or automatic.
import-remedy-unknown_condition = Write it as transmission=manual; several with a semicolon.
import-remedy-not_an_overlap = Write it as CODE 0.6; several with a semicolon.
import-remedy-not_a_torque = Write torques with N·m or an angle; put run-out, pressures and heights in a column “Other values”.
import-remedy-not_a_currency = Write three letters, as in EUR.
import-remedy-not_a_skill = Enter the skill in { $cell }, such as mechanical, or leave the row out.
import-remedy-factor_below_one = Write 1 or more.
import-remedy-row_twice = Leave one of the two out.
import-remedy-customer_unknown = Import the customers first, or correct the name.
import-remedy-customer_not_clear = Give the vehicle its customer by hand, and leave { $cell } empty.
import-remedy-vin_malformed = Compare it with the vehicle.
import-remedy-vin_check_digit_wrong = Compare it with the vehicle again.
import-remedy-includes_loop = Remove one of the pairs.
import-remedy-after_loop = Let one of these steps no longer wait for the next.
import-remedy-operation_comes_back = Leave its row out if it is to stay archived.
import-remedy-template_comes_back = Leave its rows out if it is to stay archived.
import-remedy-step_unknown = Correct it, or add the step.
import-remedy-operation_unknown = Add it to the operations, or correct the code.
import-remedy-overlaps_itself = Remove it.
import-remedy-overlap_differs = Write the same hours in both, or leave one of them out.
import-remedy-rule_unknown = Correct its name if it was meant.
import-remedy-rule_twice = Leave one of the two out.
import-remedy-rules_bad_rules = Add or correct it.
import-remedy-rules_tax_loop = Remove one of them.
import-remedy-rules_duplicate_tax = Leave one of the two out.
import-remedy-rules_unknown_tax = Correct the code.
import-remedy-rules_bad_rate = Correct the rate.
import-remedy-hours_day_past = Enter today or a later day. Without a day the hours apply from today.
import-remedy-closes_before_opening = Correct one of the two.
import-remedy-sells_below_cost = Enter { $least } or more to sell at cost or above.
import-remedy-sells_without_cost = Add the supplier and the cost, or import them with another list.
import-remedy-fee_without_fluid = Name it in the column “Fluid”, as the vehicle's capacity is named: coolant.
import-remedy-fee_family_unknown = Write quote, litre drained, or one of: { $families }.
import-remedy-fee_with_fluid = Write “litre drained” in the column “Per”, or leave the fluid out.
import-remedy-fluid_unknown = Write it as the vehicle's capacity is named: coolant. Leave it as it is if the kit or the capacity comes later.
import-remedy-fluid_like = Correct it, or leave it as it is if the kit or the capacity comes later.
import-remedy-band_below_cost = Enter { $least } or more to sell at cost or above.
import-remedy-band_inside_below_cost = Enter { $least } or more to sell at cost or above.
import-remedy-rate_of_own_currency = Leave the row out.
import-remedy-rate_already_there = Rates never change. Give the new rate another day.

# Questions about a whole column or a kind of row, and their answers.
import-question-sections = What are rows like “{ $what }”?
import-question-sections-why =
    { $n ->
        [one] Row { $row } is above lines and names no carton or bag.
       *[other] { $n } such rows are above lines, the first in row { $row }. They name no carton or bag.
    }
import-question-variants = Do the lines under “{ $what }” depend on the vehicle?
import-question-variants-why =
    { $n ->
        [one] { $n } line is under a heading that reads like a condition.
       *[other] { $n } lines are under headings that read like conditions.
    }
import-question-empty_carton = Column { $column }, “{ $heading }”: which carton are the empty rows in?
import-question-empty_carton-why =
    { $n ->
        [one] { $n } row has no carton, and the other rows do not settle it.
       *[other] { $n } rows have no carton, and the other rows do not settle it.
    }
import-question-empty_bag = Column { $column }, “{ $heading }”: which bag are the empty rows in?
import-question-empty_bag-why =
    { $n ->
        [one] { $n } row has no bag, and the other rows do not settle it.
       *[other] { $n } rows have no bag, and the other rows do not settle it.
    }
import-question-zeros = Have part numbers lost their leading zeros?
import-question-zeros-why =
    { $n ->
        [one] { $n } number has fewer than { $width } digits, such as { $example } (row { $rows }).
       *[other] { $n } numbers have fewer than { $width } digits, such as { $example } (rows { $rows }).
    }
import-question-decimal = Column { $column }: what does { $example } mean?
import-question-decimal-why =
    { $n ->
        [one] { $n } cell can be read in two ways, and no other cell settles it.
       *[other] { $n } cells can be read in two ways, and no other cell settles it.
    }
import-question-quantity = Which column holds the quantity?
import-question-quantity-why = { $n } columns may hold it: { $headings }.
import-question-second_table = Does “{ $what }” belong to this kit's list?
import-question-second_table-why = Columns { $first } to { $last } are a second table with the same headings.
import-question-struck_rows = Are the rows that are struck out to be read?
import-question-struck_rows-why =
    { $n ->
        [one] Row { $what } is struck out in the spreadsheet.
       *[other] Rows { $what } are struck out in the spreadsheet.
    }
import-question-one_cell = Are number and description in one cell?
import-question-one_cell-why =
    { $n ->
        [one] In column { $column }, one cell reads like “{ $example }”.
       *[other] In column { $column }, { $n } cells read like “{ $example }”.
    }
import-question-supersessions = Are older and newer numbers in the remarks to be recorded?
import-question-supersessions-why =
    { $n ->
        [one] One line names a number that was replaced.
       *[other] { $n } lines name a number that was replaced.
    }
import-question-titles = Are the rows above row { $row } the title of the list?
import-question-titles-why =
    { $n ->
        [one] Row { $rows } lacks a number or a quantity.
       *[other] Rows { $rows } lack a number or a quantity.
    }
import-question-hidden_rows = Are the hidden rows to be read?
import-question-hidden_rows-why =
    { $n ->
        [one] Row { $what } is hidden in the spreadsheet.
       *[other] Rows { $what } are hidden in the spreadsheet.
    }
import-question-hidden_columns = Are the hidden columns to be read?
import-question-hidden_columns-why =
    { $n ->
        [one] Column { $what } is hidden in the spreadsheet.
       *[other] Columns { $what } are hidden in the spreadsheet.
    }

import-choice-sections_bag = Each is a bag
import-choice-sections_carton = Each is a carton
import-choice-sections_none = Only headings
import-choice-variants_condition = Yes, use the condition
import-choice-variants_none = No, they fit every vehicle
import-choice-empty_down = In the one named above them
import-choice-empty_none_bag = In no bag
import-choice-empty_none_carton = In no carton
import-choice-titles_above = Yes, the list begins below them
import-choice-titles_lines = No, they are lines too
import-choice-zeros_restore = Yes, read { $example }
import-choice-zeros_keep = No, { $example } is right
import-choice-decimal_small = { $value }
import-choice-decimal_large = { $value }
import-choice-quantity_column = Column { $column }, “{ $heading }”
import-choice-one_cell_apart = Yes: { $number } is the number, “{ $title }” the description
import-choice-one_cell_whole = No, “{ $number }” is the number
import-choice-supersessions_read = Yes, the older number leads to the newer one
import-choice-supersessions_none = No, leave them as remarks
import-choice-quantity_variants = All of them, each for its own variant
import-choice-second_table_out = No, leave it out
import-choice-second_table_in = Yes, read its lines too
import-choice-hidden_out = No, leave them out
import-choice-hidden_read = Yes, read them

import-typed-order = Number of your order
import-typed-day = Day of arrival
import-typed-kit = Kit number
import-typed-title = Title
import-typed-supplier = Supplier
import-typed-currency = Currency

import-left_out-heading = headings
import-left_out-total = a total
import-left_out-foot = a page footer
import-left_out-section = a heading between the lines
import-left_out-hidden = hidden
import-left_out-struck = struck out
import-left_out-no_column = under headings that lack a column
import-left_out-by_you = left out by you

list-column-quote = quote
list-column-version = version
list-column-state = state
list-column-customer = customer
list-column-vehicle = vehicle
list-column-plate = plate
list-column-kits = kits
list-column-total = total
list-column-highest_total = highest total
list-column-changed = changed
list-column-sent = sent
list-column-valid_until = valid until
list-column-answered = answered
list-column-job = job
list-column-job_state = state of the job
list-column-hours = hours sold
list-column-opened = opened
list-column-handed_over = handed over
list-column-called_off = called off
list-column-line = line
list-column-kit = kit
list-column-copy = copy of the kit
list-column-carton = carton
list-column-bag = bag
list-column-number = part number
list-column-title = description
list-column-quantity = quantity
list-column-unit = unit
list-column-step = step
list-column-counted = counted
list-column-damaged = damaged
list-column-difference = difference
list-column-counters = counted by
list-column-supplier = supplier
list-column-purpose = for
list-column-not_before = order not before
list-column-kind = kind
list-column-what = work or part
list-column-whom = whom to ask
list-column-since = open question
list-column-due = due back
list-column-amount = amount
list-column-person = name
list-column-email = e-mail
list-column-role = role
list-column-member_since = member since
list-column-signed_in = last signed in
list-owed-outside = with another firm
list-owed-core = old part
list-owed-money = money
import-list-title = Above the list
import-list-column-sheet = Sheet
import-list-column-heading = Heading
import-list-column-means = What it is
import-list-column-needed = Needed
import-list-column-also = Also read under these headings
import-list-needed-every_row = in every row
import-list-needed-column = the column
import-list-needed-no = no
