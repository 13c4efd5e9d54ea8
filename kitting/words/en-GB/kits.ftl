### Kits, their lines and boxes, orders and counts.

## problem

problem-list-is-closed-title = This list is already closed
problem-list-is-closed-detail = Look at its report, or ask parts or your manager to open it again.

problem-more-has-come-title = New counts have come in
problem-more-has-come-detail = Somebody counted after you looked. Reload the list, then close it.

problem-batch-too-large-title = Too much at once
problem-batch-too-large-detail = Send at most { $events } counts and { $bytes } kB at a time. What was sent is still on your phone.

## field

field-list_state = Ask for open or closed.
field-only_open = Ask for open, or leave this out.
field-edition = Ask for blank or counts.
field-day_for_time = Enter the day as well, or leave the hour out.
field-kit_number_of_pack = { $number } is the number of a pack of a consumable. Enter the number of the kit.
field-kit_without_contents_needs = Until its contents are recorded, the kit needs this to be quoted.
field-not_on_list = { $line } is not a line of this list.
field-time_without_hours = Enter the hour: the workshop's opening hours are not set yet.

## refused

refused-kit_code_is_once_in_a_shop = There is already a kit with this number. Find it, or give the new one a different number.
refused-kit_revision_in_use_never_changes = This version is in use. Create the next version.
refused-kit_line_added_only_to_a_draft = This version is in use. Create the next version.
refused-pull_line_never_changes = A line of a pull list never changes. Count what is there and report what is missing.
refused-count_event_never_changes = A count never changes. Count the line again.

## kit

kit-condition = { $attribute }: { $values }
kit-no = Does not fit this vehicle (fits { $conditions } only).
kit-ask = Not recorded: { $attributes }.
kit-open = Not recorded which vehicles it fits.

kit-ships-always = always in the kit
kit-ships-when = in the kit only for some vehicles
kit-change-nothing = nothing
kit-change-price = Its own price: { $before } → { $after }
kit-change-cost = Its own cost was changed.
kit-change-hours = Its own hours: { $before } → { $after }
kit-change-lead_days = Lead days: { $before } → { $after }
kit-change-labour = Labour: { $before } → { $after }
kit-change-template = { $code }, version { $number }
kit-change-added_line = { $name } was added: { $n }, { $place }
kit-change-added = { $name } was added: { $n }
kit-change-removed_line = { $name } was removed: { $place }
kit-change-removed = { $name } was removed
kit-change-moved = { $name }, place: { $before } → { $after }
kit-change-quantity = { $name }, quantity: { $before } → { $after }
kit-change-operation = { $name }, step: { $before } → { $after }
kit-change-ships = { $name }: { $before } → { $after }

## supplier

supplier-answer-sections_bag = Each row between the lines is a bag
supplier-answer-sections_carton = Each row between the lines is a carton
supplier-answer-sections_none = Rows between the lines are only headings
supplier-answer-variants_condition = Lines under a heading that names vehicles are for those vehicles
supplier-answer-variants_none = Lines under a heading that names vehicles fit every vehicle
supplier-answer-second_table_out = A second table beside the list is left out
supplier-answer-second_table_read = A second table beside the list is read too
supplier-answer-zeros_number_restore = Part numbers get back the leading zeros that they lost
supplier-answer-zeros_number_keep = Part numbers stay without leading zeros
supplier-answer-hidden_rows_out = Hidden rows are left out
supplier-answer-hidden_rows_read = Hidden rows are read
supplier-answer-hidden_columns_out = Hidden columns are left out
supplier-answer-hidden_columns_read = Hidden columns are read
supplier-answer-empty_carton_down = A line without a carton is in the one named above it
supplier-answer-empty_carton_none = A line without a carton is in none
supplier-answer-empty_bag_down = A line without a bag is in the one named above it
supplier-answer-empty_bag_none = A line without a bag is in none
supplier-answer-decimal_quantity_comma = Quantities have a comma before the decimals
supplier-answer-decimal_quantity_point = Quantities have a point before the decimals
supplier-answer-decimal_cost_comma = Prices have a comma before the decimals
supplier-answer-decimal_cost_point = Prices have a point before the decimals

## line

line-untouched = not counted
line-all_here = all here
line-short = short { $count }
line-over = over { $count }
line-damaged = damaged { $count }
line-wrong_part = wrong part { $count }
line-sealed = accepted sealed
line-count_again = count again
line-count_again_either = count again: { $low } or { $total }
line-late = came after closing { $count }
line-beside = in the kit, not for this vehicle

## orders

orders-kit = kit { $kit }
orders-step = step “{ $title }”

## box

box-carton = Carton { $label }
box-bag = Bag { $label }
box-loose = Loose in the box
box-loose_in = Loose in carton { $label }
box-inside-carton = carton { $label }
box-inside-bag = bag { $label }
box-inside-loose = loose in the box
box-inside-loose_in = loose in carton { $label }
box-place = { $carton }, { $bag }
box-kit = { $letter }. { $kit }
box-copy = { $kit } ({ $n } of { $of })
box-set =
    { $n ->
        [one] { $n } set
       *[other] { $n } sets
    }
box-pair =
    { $n ->
        [one] { $n } pair
       *[other] { $n } pairs
    }
box-measured = 1 piece of { $quantity } { $unit }

## counted

counted-set = counted { $n }
counted-damaged = counted { $n }, { $damaged } damaged
counted-more = found { $n } more
counted-weighed = weighed { $n }
counted-sealed = accepted { $n } sealed
counted-wrong_part = noted a wrong part
counted-at = { $who }, { $at }

problem-kit-archived-title = This kit is archived
problem-kit-archived-detail = { $kit } is not offered any more. A manager can bring it back in the Office.
problem-kit-has-contents-title = The kit has its list
problem-kit-has-contents-detail = Its list was made in the meantime. This count was not saved: compare it with the list of the kit.
problem-too-many-first-counts-title = Too many counts
problem-too-many-first-counts-detail = This kit was counted { $n } times without a list. Write its list as a file and import it.
