### Words of the Office.

office-title = Office

office-take_in = Import a file
office-take_in-order = the first time in this order: each needs the ones above it
office-kind-rules = Price rules
office-kind-labour = Labour
office-kind-suppliers = List of suppliers
office-kind-consumables = Consumables
office-kind-kit = Kit contents
office-kind-packing_slip = Packing slip
office-kind-kits = List of kits
office-kind-customers = Customers
office-kind-vehicles = Vehicles
office-needs-rules = A workbook: rules, labour rates, bands, taxes, fees, words, conditions, calendar, exchange rates.
office-needs-labour = Operations: code, title, skill, book hours. Templates: template, operation, stage, after, when.
office-needs-suppliers = Name, contact, currency, lead days.
office-needs-consumables = One row per pack: family, specification, unit, part number, pack size, price.
office-needs-kit = The kit’s number above the list; then carton, bag, part number, description, quantity. On pages of their own: fluids and small parts not in the kit, re-used parts, work by other firms.
office-needs-packing_slip = The number of your order and the day above the list; then part number, quantity, unit. Also as a UBL DespatchAdvice (.xml). The goods get their day on the list of the job; nothing is counted.
office-needs-kits = Kit number, title, supplier, selling price, hours, lead days. An empty cell leaves what is recorded.
office-needs-customers = Name, telephone, e-mail.
office-needs-vehicles = Make and model, owner, VIN, plate; a column for each attribute and each capacity in litres.
office-last = last on { $when }
office-only-rules = Only a manager can import these.
office-only-counter = Only an advisor or a manager can import these.
office-only-stores = Only an advisor, the parts counter or a manager can import these.

office-headings = Headings of files
office-headings-about = What each column may be called and what goes in it; examples to download.
office-headings-note = Columns may be in any order, and others are ignored
office-headings-find = Find a heading
office-headings-find-hint = Part of a heading in any language, or of what it means.
office-headings-count =
    { $n ->
        [one] { $n } heading
       *[other] { $n } headings
    }
office-headings-sheet = The sheet may also be called: { $names }
office-headings-also = Also read as: { $names }
office-headings-words = A cell may say: { $words }
office-headings-needed-every_row = needed in every row
office-headings-needed-column = the column is needed
office-headings-example = In the example: { $cell }
office-headings-not_found = No heading has “{ $q }”
office-headings-not_found-detail = Try a shorter part of it. A column with another name can be chosen by hand when the file is read.

office-files = Recent imports
office-files-none = No file yet
office-files-none-detail = Files that were read or imported are listed here, newest first.
office-file-by = { $name }, { $who }

office-kits = Kits
office-kits-find = Find a kit
office-kits-find-hint = Part of its name, number or supplier.
office-kits-many = There are more than { $n }: type part of the name or number to find others.
office-kits-none = No kit yet
office-kits-none-detail = Import the contents of one, or add one with a price and hours.
office-kits-add = Add a kit
office-kits-archived = Archived kits
office-kits-current = Kits in use
office-kits-none_archived = Nothing is archived
office-kits-none_archived-detail = A kit that is archived on its page is kept, and no longer offered.
office-kits-not_found = No kit matches “{ $q }”
office-kits-not_found-detail = Try a shorter part of the name, or the supplier.
office-kit-bare = no contents yet
office-kit-parts =
    { $n ->
        [one] parts list of { $n } line
       *[other] parts list of { $n } lines
    }
office-kit-parts-in_cartons =
    parts list of { $parts ->
        [one] { $parts } line
       *[other] { $parts } lines
    } in { $cartons ->
        [one] { $cartons } carton
       *[other] { $cartons } cartons
    }
office-kit-revision = version { $n }

office-new-title-rules = Import price rules
office-new-title-labour = Import labour
office-new-title-suppliers = Import a list of suppliers
office-new-title-consumables = Import consumables
office-new-title-kit = Import kit contents
office-new-title-packing_slip = Import a packing slip
office-new-title-kits = Import a list of kits
office-new-title-customers = Import customers
office-new-title-vehicles = Import vehicles
office-new-note = Reading the file saves nothing: you see everything first.
office-new-unknown = There is no such kind of file
office-new-back = Back to the office
office-new-supplier = Supplier
office-new-supplier-hint = Who the file is from, if the file itself does not name the supplier. The columns you choose are remembered for this supplier.
office-file-original = The file as it was sent
office-out = Lists for a spreadsheet
office-out-note = To read and to sum up
office-out-quotes = Quotes
office-out-jobs = Jobs
office-out-owed = Owed to us
office-out-people = People
office-out-whole = The whole workshop as one file, with its PDFs and photographs, is made on the server. Ask whoever looks after it: the README says how under “One shop as a file”.
office-out-workbook = Workbook
office-lists-detail = Download your list, change it in a spreadsheet, and import it here again. What you leave out of the file stays as it is.
office-lists-example-detail = The example shows how to fill in such a file, and explains its headings.
office-lists-rules = Download the price rules with opening hours, closed days and exchange rates, change them in a spreadsheet, and import them again. What you leave out of the file, be it a table or a single rule, stays as it is.
office-lists-workbook = Your list as a workbook
office-lists-csv = As CSV
office-lists-example = Example file
office-new-choose = Choose a file
office-new-choose-again = Choose another
office-new-drop = No file chosen yet
office-new-drop-over = Drop it here
office-new-drop-detail = A workbook (.xlsx) or text in columns (.csv), at most { $mib } MiB and { $rows } rows. A kit may come in several files: choose them together. Above 64 KiB the server reads it while you do something else. On a desk you can drop it here.
office-new-read = Read the file
office-new-read-first = Choose a file first.
office-size = { $n } KiB
office-not_yours = Not for your role

office-too_large = This file is too large
office-too_large-detail = At most { $mib } MiB can be read. Save the sheet that matters as a file of its own.
office-gone = The file has moved or changed since it was chosen
office-gone-detail = Choose it again.

office-reading = Reading { $name }
office-reading-so_far =
    { $n ->
        [one] { $n } second so far
       *[other] { $n } seconds so far
    }
office-taking = Importing it
office-task-waits-read = This file is next to be read.
office-task-waits-take_in = This file is next to be imported.
office-task-opens = Opening { $name }
office-task-read =
    { $n ->
        [one] Reading: { $done } of { $n } row
       *[other] Reading: { $done } of { $n } rows
    }
office-task-take_in =
    { $n ->
        [one] Importing: { $done } of { $n } row read again
       *[other] Importing: { $done } of { $n } rows read again
    }
office-task-writes =
    { $n ->
        [one] Importing: writing { $n } row
       *[other] Importing: writing { $n } rows
    }
office-task-failed-read = This file could not be read
office-task-failed-take_in = This file was not imported

office-file = A file
office-file-read = Nothing saved yet
office-file-taken = Imported
office-file-note = { $name }, { $kind }
office-file-will = Will be imported
office-file-became = Was imported
office-file-rows = Rows
office-file-rows-good = { $n } good
office-file-rows-bad = { $good } good, { $bad } to fix
office-file-rows-none = none found
office-file-rows-unread = not read yet
office-file-skipped = Skipped
office-file-skipped-n =
    { $n ->
        [one] { $n } row
       *[other] { $n } rows
    }
office-file-skipped-none = none
office-file-skipped-rows = headings, blank rows, sections, totals
office-file-by_whom = Read
office-file-taken_at = Imported
office-file-supplier = Supplier

office-columns = Columns
office-columns-none = None was recognised.
office-columns-is = { $column } =
office-columns-change = Change columns
office-columns-leave = Leave them as they are
office-columns-required = { $field }, required
office-columns-others = The other columns
office-columns-nothing = not imported
office-columns-label = { $column }, “{ $heading }”
office-columns-label-sheet = { $sheet } { $column }, “{ $heading }”
office-columns-missing = No column yet for: { $fields }.
office-columns-letter = Column { $column }: { $holds }
office-columns-typed = The file has headings
office-columns-hint-letters = No row of headings was found. Choose what each column holds, going by what is in it. The same file is then read again.
office-columns-hint = Choose what each column holds. The same file is then read again.
office-columns-hint-none = No row of headings was found. Type the headings as they are in the file; it is then read again.
office-columns-read = Read it this way
office-columns-same = Nothing has changed yet.
office-columns-file = The file is no longer on this page. Choose it again.

office-list = The list as it was read
office-list-taken = The list as it was imported
office-list-lines =
    { $n ->
        [one] { $n } line
       *[other] { $n } lines
    }
office-list-rows =
    { $n ->
        [one] { $n } row
       *[other] { $n } rows
    }
office-list-carton = Carton { $carton }
office-list-no_carton = In no carton
office-list-bag = Bag { $bag }
office-list-no_bag = In no bag
office-list-fine = no problems
office-list-left_out = Left out
office-list-left_out-n = { $words } { $n }
office-list-untitled = no description
office-list-only = Only if { $when }
office-list-every = For every vehicle
office-list-corrected = { $field }: corrected. The file says
office-list-empty = nothing
office-list-change = Change
office-list-change-row = Change row { $row }
office-list-undo = Undo
office-list-undo-row = Undo, row { $row }
office-list-undo-field = Undo { $field }, row { $row }
office-list-undo-last = Undo last change
office-list-row = Row { $row }
office-list-put = Use { $text }
office-list-put-none = Use
office-list-quantity = Quantity
office-list-when = Only if, such as transmission=manual
office-list-leave_out = Leave row { $row } out
office-list-leave_out-n = Leave { $n } rows out
office-list-same =
    { $n ->
        [one] Also in { $n } other row with this problem
       *[other] Also in { $n } other rows with this problem
    }
office-list-more =
    { $n ->
        [one] { $n } more line is not shown.
       *[other] { $n } more lines are not shown.
    }
office-list-move = Put rows into another bag
office-list-first = From row
office-list-last = To row
office-list-to_carton = Carton
office-list-to_bag = Bag
office-list-move-n =
    { $n ->
        [one] Put { $n } row there
       *[other] Put { $n } rows there
    }
office-list-ask = We ask once and remember it for this supplier.
office-list-from_file = from the file
office-list-kit_missing = the file names none
office-list-kept = remembered for this supplier

office-problems = Problems
office-problems-none = Nothing to fix or check
office-problems-none-detail = Every row was understood as it is.
office-problems-all = All { $n }
office-problems-must_fix = Must fix { $n }
office-problems-please_check = Please check { $n }
office-problems-done_for_you = Done for you { $n }
office-problems-content = It says
office-problems-whole = whole file
office-problems-save = Save this list
office-problems-file = Problems in { $name }.csv
office-problems-head-weight = Severity
office-problems-head-sheet = Sheet
office-problems-head-cell = Cell
office-problems-head-words = What
office-problems-head-remedy = What to do
office-problems-head-says = It says

office-next = Next problem
office-next-fix =
    { $n ->
        [one] problem to fix first
       *[other] problems to fix first
    }
office-next-check =
    { $n ->
        [one] problem to check
       *[other] problems to check
    }

office-do-take_in =
    { $n ->
        [one] Import { $n } line
       *[other] Import { $n } lines
    }
office-do-blocked =
    { $n ->
        [one] All or nothing: fix { $n } problem first.
       *[other] All or nothing: fix { $n } problems first.
    }
office-do-asked =
    { $n ->
        [one] Answer { $n } question first.
       *[other] Answer { $n } questions first.
    }
office-do-empty = There are no rows to import.
office-do-corrected = Read a corrected file
office-do-discard = Discard this file
office-discard-ask = Discard { $name }?
office-discard-detail = Nothing of it has been imported. It is removed from the list of files.
office-discarded = Discarded: { $name }
office-do-another = Import another file
office-do-kit = Show the kit
office-do-kits = Show the kits
office-do-job = Show the job
office-do-rules = Show the price rules
office-done = Imported: { $name }

office-kit = Kit
office-kit-file = File of version { $n }: { $name }
office-kit-file-gone = File of version { $n }: { $name }, no longer kept
office-kit-files =
    { $n ->
        [one] The file of an earlier version
       *[other] The files of { $n } earlier versions
    }
office-kit-order_number = Ordered as
office-kit-out = This version as a workbook
office-kit-out-note = Change it in a spreadsheet and import it as kit contents: it becomes the next version.
office-kit-supplier = Supplier
office-kit-supplier-none = not recorded
office-kit-returnable = can be sent back
office-kit-not_returnable = cannot be sent back
office-kit-contents = Contents
office-kit-contents-revision = Version { $n }
office-kit-contents-none = none yet
office-kit-versions = What changed
office-kit-versions-against = Version { $number } against version { $before }
office-kit-versions-earlier = Earlier
office-kit-versions-later = Later
office-kit-versions-same = Nothing in it differs.
office-kit-versions-all = Show all { $n }
office-kit-labour = Labour
office-kit-labour-none = no template
office-kit-template = Order of the work
office-kit-template-hint = A labour template. Parts of a step that it lacks count as needed first.
office-kit-template-version = { $code }, version { $n }
office-kit-fitted = Fitted before, times
office-kit-fitted-hint = Jobs done before quotes were made here. At 0 the first fit takes longer.
office-kit-title = What the kit is
office-kit-code = Number
office-kit-code-hint = Files name the kit by it. It cannot be changed later.
office-kit-price = Its own price
office-kit-hours = Its own hours
office-kit-lead_days = Lead days
office-kit-figures = Price, hours and lead days are used where no supplier’s price and no labour template gives them. Another figure or another order of the work makes the next version; the contents stay.
office-kit-cost = Cost
office-kit-cost-whole = Cost before tax
office-kit-cost-hint = Of the whole kit, as it is bought. Empty if it is not known.
office-kit-cost-counts = It counts in the margin until a supplier’s price is recorded. Another cost makes the next version; what was sent or sold keeps its own.
office-kit-cost-offered = A supplier’s price is recorded and counts in the margin. This cost counts only without one. Another cost makes the next version.
office-kit-cost-save = Save the cost
office-kit-for = For vehicles
office-kit-for-hint = As in model=T35; drive=rear or all. Empty for any vehicle.
office-kit-change = Change this kit
office-kit-save = Save the kit
office-kit-saved = { $code } saved.
office-kit-saved-version = { $code } saved as version { $number }.
office-kit-new = New kit
office-kit-new-later = A price and hours are enough to quote it. Contents and labour can come later, as a file.
office-kit-add = Add the kit
office-kit-copy-takes = The copy has the same contents, labour, price and vehicles. It is bought under its own number, and has no supplier’s price yet.
office-kit-archived = { $code } archived. You find it under “Archived kits”.
office-kit-is_archived = Archived: it is kept in its quotes and jobs, and no longer offered.
office-kit-own = Its own price and hours
office-kit-fits = Fits
office-kit-fits-all = any vehicle
office-kit-empty = Only a price and hours are recorded
office-kit-empty-detail = That is enough to quote it. Add contents to get a pull list, and a count that finds what is missing.
office-kit-empty-do = Import its contents
office-kit-empty-count = Count it by hand
office-kit-more = What more detail would bring
office-kit-more-bags = Bags or cartons: the count goes bag by bag, and each line says where its part lies.
office-kit-more-labour = A labour template: the bay has steps to work through, and work that two kits share is charged once.
office-kit-more-steps =
    { $n ->
        [one] The step that needs 1 part: without it, work cannot start before the part is here. With it, work can start while the part is still to come.
       *[other] The steps that need { $n } parts: without them, work cannot start before the parts are here. With them, work can start while the parts are still to come.
    }
office-kit-more-needs = Fluids and small parts: they are quoted with the kit and are on its pull list.
office-kit-find = Find in this kit
office-kit-find-hint = Part of a number or a description.
office-kit-find-none = Nothing in this kit matches “{ $q }”
office-kit-find-none-detail = Try a shorter part of the number or the description.
office-kit-lines =
    { $n ->
        [one] { $n } line
       *[other] { $n } lines
    }
office-kit-when = only for { $when }
office-kit-ships-when = in the kit only then
office-kit-quantity =
    { $unit ->
        [pc] { $n }
       *[other] { $n } { $unit }
    }
office-kit-needs = Not in the kit: fluids and small parts
office-kit-needs-none = Nothing else is recorded.
office-need-per_fastener = { $quantity } { $unit } for each of { $of } fasteners
office-need-bead = a bead { $quantity } m long and { $of } mm wide
office-need-of_capacity = as much as the { $of } circuit holds
office-need-of_capacity-share = { $quantity } of what the { $of } circuit holds
office-need-refill = refilling the { $of }, with { $quantity } { $unit } more for what the kit adds
office-need-refill_water = water to refill the { $of }, with { $quantity } { $unit } more for what the kit adds
office-need-charge-pack = charged in whole packs
office-need-charge-used = charged as used
office-need-charge-supplies = covered by shop supplies
office-kit-reused = Re-used
office-kit-reused-none = Nothing comes off and goes back on.
office-kit-reused-where = comes off at { $off }, goes back on at { $back }
office-kit-outside = Work by other firms
office-kit-outside-days =
    { $n ->
        [one] 1 working day
       *[other] { $n } working days
    }
office-kit-outside-needed = needed for { $step }
office-kit-outside-rounds =
    { $n ->
        [one] 1 round
       *[other] { $n } rounds
    }
office-kit-outside-they_need = they need: { $words }

office-house = The workshop
office-programs = Other programs
office-programs-about = Access keys for a bookkeeper’s program, a website or a report; addresses for calendars; messages when something happens.
office-people-open = People of the workshop
office-people-open-about = Members and roles, invitations, new passwords, and where people are signed in.
office-own = Name and address of the workshop
office-own-about = What customers read on quotes, PDFs and e-mails.
office-own-only = Only a manager changes the workshop’s own data.
office-own-note = Quotes and PDFs made from now on show it. What was sent keeps what it has.
office-own-name = Name
office-own-address = Address
office-own-phone = Telephone
office-own-email = E-mail
office-own-registration = Registration
office-own-registration-hint = The name of the register and the number in it.
office-own-tax_number = Tax number
office-own-fixed = Currency { $currency } and time zone { $zone } were chosen when the workshop was opened.
office-own-save = Save
office-own-saved = Saved. What is made from now on shows it.
office-rules = Price rules
office-rules-open = See the price rules in force
office-rules-open-about = Rates, bands, fees, taxes, deposit, words: every figure with what it does, and every earlier set.
office-hours = Opening hours and holidays
office-hours-about = The hours of the week and the closed days, from which dates are worked out.
office-rules-only = Only a manager sees the price rules.
office-rules-since = from { $day }
office-rules-history = Sets of price rules
office-rules-history-note = last written first
office-rules-by = { $name }, { $when }
office-rules-by_command = on the server, { $when }
office-rules-file = As a workbook
office-rules-import = Import a workbook of rules
office-rules-changes = What this set changed
office-rules-before = Before
office-rules-after = After
office-rules-no_side = none
office-rules-no_rows = none
office-rules-rest = the rest
office-rules-none = No price rules yet
office-rules-none-detail = No quote can be priced without them. Import a workbook; they are listed here from then on.
office-rules-none-do = Import price rules
office-rules-change = Change { $section }
office-rules-change-short = Change
office-rules-now = { $words } Now: { $now }
office-rules-row = { $table }, row { $n }
office-rules-remove_row = Remove row { $n }
office-rules-add_row = Add a row to { $table }
office-example = An example
office-example-quote = Quote
office-example-now = Now
office-example-then = Then
office-rules-example-lines =
    { $n ->
        [one] { $n } line changes
       *[other] { $n } lines change
    }
office-rules-example-changes = What changes in the rules
office-example-none = No quote to show
office-example-reading = Working it out.
office-example-waits = A figure cannot be read yet. The example goes on once it can.
office-rules-from = From which day
office-rules-day = First day
office-rules-day-hint = Quotes begun from this day on use the new rules. What was sent before stays as it is.
office-rules-later_stays = { $set } begin on { $day } and keep their own figures: make the change there too.
office-rules-later_stays-open = Open { $set }
office-rules-index = Sections of the rules
office-rules-save = Save as the next set
office-rules-save-first = Nothing differs from the set in force.
office-rules-leave = Leave without saving
office-rules-saved = { $set } saved. They apply from { $day }.

office-stock = The workshop’s own lists
office-stock-note = one by one, without a file
office-operations = Operations
office-operations-about = Each piece of work with its hours, skill, cautions and values.
office-operations-find = Find an operation
office-operations-find-hint = Part of a code, a title or a skill.
office-operations-archived = Archived operations
office-operations-current = Operations in use
office-operations-add = Add an operation
office-operations-none = No operations yet
office-operations-none-detail = Add the first one here, or import the labour as a file.
office-operations-none_archived = Nothing is archived
office-operations-none_archived-detail = An operation that is archived here is kept, and no longer offered.
office-operations-not_found = No operation has “{ $q }”
office-operations-not_found-detail = Look among the archived ones, or try fewer letters.
office-operations-more = Only the first { $n } are listed. Type a few letters to find the others.
office-operations-only = Only a manager changes operations.
office-operation = Operation
office-operation-new = New operation
office-operation-copy_of = Copy of { $code }
office-operation-keeps = What was sent or sold keeps its own copy and does not change. Drafts change at once; steps of templates keep their own hours.
office-operation-used = A step of { $templates }
office-operation-unused = No template has it as a step.
office-operation-code = Code
office-operation-code-hint = Files and templates name the operation by it. It cannot be changed later.
office-operation-title = Title
office-operation-skill = Skill
office-operation-skill-hint = As the price rules name it, such as mechanical.
office-operation-hours = Book hours
office-operation-hours-hint = Such as 1.5.
office-operation-sharing = Several kits in one visit
office-operation-sharing-once = Done once for all of them
office-operation-sharing-each = Done for each kit
office-operation-wait = Wait after it, in minutes
office-operation-wait-hint = For curing or cooling; empty for none. “2 h” is 120.
office-operation-vehicle = The vehicle
office-operation-exposed = Corroded fasteners make it longer
office-operation-no_return = From here on the vehicle cannot move
office-operation-mobile_again = From here on the vehicle can move again
office-operation-hold_point = Stop here until somebody has checked it
office-operation-wheels_off = Wheels come off
office-operation-pairs = Other operations
office-operation-includes = Includes
office-operation-includes-hint = Codes, one a line. Their work is part of this one.
office-operation-overlaps = Overlaps with
office-operation-overlaps-hint = A code and the hours that both together save, one a line: QT-08 0.3
office-operation-bay = For the bay
office-operation-cautions = Cautions
office-operation-cautions-hint = One a line. The manufacturer’s instructions come first.
office-operation-torques = Torques
office-operation-torques-hint = One a line: Drain plug: 35 N·m
office-operation-others = Other values
office-operation-others-hint = One a line: Run-out: at most 0.05 mm
office-operation-save = Save the operation
office-operation-save-first = Nothing differs from what is saved.
office-operation-add = Add the operation
office-operation-saved = { $code } saved.
office-operation-added = { $code } added.
office-operation-copy = Copy it
office-operation-archive = Archive it
office-operation-archived = { $code } archived. You find it under “Archived operations”.
office-operation-back = Bring it back
office-operation-is_back = { $code } is offered again.
office-operation-is_archived = Archived: it is kept, and no longer offered.
office-operation-to_list = All operations
office-operation-yes = yes
office-operation-nothing = nothing

office-templates = Labour templates
office-templates-about = The order of the work of a kit: steps, hours, and what waits for what.
office-templates-find = Find a template
office-templates-find-hint = Part of a code.
office-templates-archived = Archived templates
office-templates-current = Templates in use
office-templates-add = Add a template
office-templates-row =
    { $n ->
        [one] version { $number }, { $n } step
       *[other] version { $number }, { $n } steps
    }
office-templates-none = No templates yet
office-templates-none-detail = Add the first one here, or import the labour as a file.
office-templates-none_archived = Nothing is archived
office-templates-none_archived-detail = A template that is archived here is kept, and no longer offered.
office-templates-not_found = No template has “{ $q }”
office-templates-not_found-detail = Look among the archived ones, or try fewer letters.
office-templates-more = Only the first { $n } are listed. Type a few letters to find the others.
office-template = Labour template
office-template-new = New template
office-template-only_managers = Only a manager changes templates.
office-template-keeps = Saving makes the next version. What was sent or sold keeps its own, and a kit takes the newest with the next version of its list.
office-template-kits =
    { $n ->
        [0] No kit uses it.
        [one] { $n } kit uses it.
       *[other] { $n } kits use it.
    }
office-template-kits_still =
    { $n ->
        [0] No kit uses it.
        [one] { $n } kit still uses it, and keeps it.
       *[other] { $n } kits still use it, and keep it.
    }
office-template-archived = { $code } archived. You find it under “Archived templates”.
office-template-earlier = This is an earlier version; it never changes.
office-template-code = Code
office-template-code-hint = The lists of kits name the template by it. It cannot be changed later.
office-template-find = Find an operation
office-template-find-hint = Part of its code, title or skill. A tap adds it as the last step.
office-template-find-none = No other operation has these words.
office-template-waits =
    { $n ->
        [one] waits for step { $steps }
       *[other] waits for steps { $steps }
    }
office-template-includes = includes { $code }
office-template-overlaps = overlaps with { $code } by { $hours } h
office-template-at_once = can begin at once
office-template-only = only for { $when }
office-template-picture = The order as a picture
office-template-picture-hint = An arrow leads to what waits. It is left out where other arrows say it already. A tap on a box opens the operation.
office-template-picture-slide = The order as a picture, which slides sideways
office-template-box =
    { $n ->
        [0] Step { $step }, { $time }: { $title }; can begin at once
        [one] Step { $step }, { $time }: { $title }; waits for step { $steps }
       *[other] Step { $step }, { $time }: { $title }; waits for steps { $steps }
    }
office-template-box-includes = includes { $step }
office-template-box-part = part of { $step }
office-template-box-overlaps = with { $step }: { $hours } h less
office-template-picture-includes = Step { $step }, { $title }, includes step { $other }, { $what }.
office-template-picture-includes-line = Dots with a diamond: the step at the diamond includes the work of the other.
office-template-picture-overlaps = Step { $step }, { $title }, and step { $other }, { $what }, overlap: both together take { $hours } h less.
office-template-picture-overlaps-line = Dashes with rings: the two steps overlap, so that both together take less time.
office-template-loop = These steps wait for each other in a loop, so that the work has no order: { $steps }.
office-template-no_stage = Without a stage
office-template-up = Up
office-template-up-one = Up: { $code }
office-template-down = Down
office-template-down-one = Down: { $code }
office-template-change = Change
office-template-change-one = Change: { $code }
office-template-remove = Remove
office-template-remove-one = Remove: { $code }
office-template-after = Waits for
office-template-after-hint = Codes of steps, with commas. Empty: it can begin at once.
office-template-hours = Hours
office-template-hours-hint = Empty: those of the operation.
office-template-stage = Stage of the fitting
office-template-when = Only for
office-template-when-hint = Such as transmission=manual; empty for every vehicle.
office-template-add_step = Add a step
office-template-empty = No steps yet
office-template-empty-detail = Add the first step below.
office-template-save = Save as the next version
office-template-save_new = Save the template
office-template-saved = { $code }, version { $number }, saved.
office-template-to_list = All templates
office-template-changes = Changes from the version before
office-template-first = This is the first version.
office-template-versions = Versions

office-consumables = Consumables
office-consumables-about = Fluids and materials with their packs and prices.
office-consumables-find = Find a consumable
office-consumables-find-hint = Part of a family, a specification or the number of a pack.
office-consumables-archived = Archived consumables
office-consumables-current = Consumables in use
office-consumables-add = Add a consumable
office-consumables-packs = { $n ->
    [one] Pack of { $sizes } { $unit }
   *[other] Packs of { $sizes } { $unit }
    }
office-consumables-no_packs = No pack
office-consumables-none = No consumables yet
office-consumables-none-detail = Add the first one here, or import the consumables as a file.
office-consumables-none_archived = Nothing is archived
office-consumables-none_archived-detail = A consumable that is archived here is kept, and no longer offered.
office-consumables-not_found = No consumable has “{ $q }”
office-consumables-not_found-detail = Look among the archived ones, or try fewer letters.
office-consumables-more = Only the first { $n } are listed. Type a few letters to find the others.
office-consumables-only = Only a manager changes consumables.
office-consumable = Consumable
office-consumable-new = New consumable
office-consumable-copy_of = Copy of { $name }
office-consumable-used = Needed by { $kits }.
office-consumable-unused = No kit needs it.
office-consumable-measured = Measured in { $unit }. This cannot be changed.
office-consumable-keeps = What was sent or sold keeps its own copy and does not change. Drafts change at once.
office-consumable-facts = What it is
office-consumable-family = Family
office-consumable-family-hint = Such as engine oil. Fees and price rules name it.
office-consumable-specification = Specification
office-consumable-specification-hint = Class or grade, never a brand or a colour.
office-consumable-form = Form
office-consumable-form-hint = Such as liquid, paste or spray; empty for none.
office-consumable-tax_class = Tax class
office-consumable-tax_class-hint = Empty for that of bought parts.
office-consumable-shelf_life = Keeps for, in days
office-consumable-shelf_life-hint = Empty for no limit.
office-consumable-hazard = Hazard words
office-consumable-hazard-hint = The bay shows them. Begin with “Danger:” or “Warning:” as the label does.
office-consumable-unit = Unit
office-consumable-unit-hint = Litres, millilitres, grams, metres or pieces. It cannot be changed later.
office-consumable-save = Save the consumable
office-consumable-add = Add the consumable
office-consumable-move_rules = Save, and change the price rules too
office-consumable-saved = { $name } saved.
office-consumable-added = { $name } added.
office-consumable-archived = { $name } archived. You find it under “Archived consumables”.
office-consumable-is_back = { $name } is offered again.
office-consumable-to_list = All consumables
office-packs = Packs
office-packs-note = quotes take the cheapest mix
office-pack-size = { $size } { $unit }
office-pack-codes = Codes: { $codes }
office-pack-is_archived = Archived
office-pack-new = New pack
office-pack-add = Add a pack
office-pack-none_while_archived = This consumable is archived. Bring it back before you add a pack.
office-pack-first = Its first pack
office-pack-number = Number
office-pack-number-hint = The supplier’s number. It cannot be changed later.
office-pack-title = Title
office-pack-title-hint = Empty: family, specification and size.
office-pack-pack_size = Size
office-pack-pack_size-hint = In the unit above, or with a unit, such as 250 mL.
office-pack-pack_size-in = In { $unit }, or with a unit of its own.
office-pack-sells = Selling price
office-pack-sells-hint = Of one pack. Empty: the markup of the price rules makes it.
office-pack-code = Add a code
office-pack-code-hint = A barcode that the scanner reads for it.
office-pack-bought = Buying price
office-pack-bought-note = advisors and managers see this
office-pack-supplier = Supplier
office-pack-supplier-hint = A new name is a new supplier.
office-pack-cost = Price
office-pack-cost-hint = Of one pack, before duty and freight.
office-pack-currency = Currency
office-pack-currency-hint = Three letters; empty for the supplier’s own.
office-pack-duty = Duty
office-pack-duty-hint = Such as 4 %; empty for none.
office-pack-freight = Freight
office-pack-freight-hint = Of one pack; empty for none.
office-pack-brokerage = Brokerage
office-pack-brokerage-hint = Of one pack, in our own currency; empty for none.
office-pack-valid_until = Price valid until
office-pack-valid_until-hint = A day such as 2027-03-31; empty if the supplier names none.
office-pack-lead_days = Lead days
office-pack-lead_days-hint = Calendar days from order to delivery; empty if not known.
office-pack-since = This buying price has applied since { $day }. A change applies from today; earlier prices stay recorded.
office-pack-keeps = What was sent or sold keeps its own price. Drafts change at once.
office-pack-save = Save the pack
office-pack-add_it = Add the pack
office-pack-saved = { $number } saved.
office-pack-added = { $number } added.
office-pack-archived = { $number } archived. Quotes no longer take it.
office-pack-to_consumable = To its consumable

office-replaced = Replaced numbers
office-replaced-about = Parts that go by a newer number now.
office-replaced-find = Find a number
office-replaced-find-hint = Part of the old or the new number, or of a name.
office-replaced-pair = { $number } → { $newer }
office-replaced-none = No number is replaced yet
office-replaced-none-detail = A part that goes by a newer number is listed here. A kit’s list that names both numbers adds it too.
office-replaced-not_found = No replaced part has “{ $q }”
office-replaced-not_found-detail = Try fewer letters. A part that nothing replaces is not listed here.
office-replaced-more = Only the first { $n } are listed. Type a few letters to find the others.
office-replaced-new = Replace a number
office-replaced-only = Only a manager replaces numbers.
office-replaced-number = Old number
office-replaced-number-hint = Of the part that is replaced.
office-replaced-newer = New number
office-replaced-newer-hint = Of the part that takes its place, one for one.
office-replaced-check = Make sure first that the new part fits wherever the old one did: from now on every new pull list names it instead. Lists that are there already stay as they are.
office-replaced-add = Replace it
office-replaced-added = { $newer } now replaces { $number }.
office-replaced-to_list = All replaced numbers
office-replaced-old = Old: { $number }
office-replaced-now = Now: { $newer }
office-replaced-take_back = Undo the replacement
office-replaced-taken_back = { $number } goes by its own number again.
office-replaced-again = Replace it again
office-replaced-gone = Nothing replaces this part any more
office-replaced-gone-detail = Somebody undid the replacement. It goes by its own number again.

office-suppliers = Suppliers
office-suppliers-about = Whom to ask, how long they take, and what was learned from their files.
office-suppliers-find = Find a supplier
office-suppliers-find-hint = Part of a name.
office-suppliers-archived = Archived suppliers
office-suppliers-current = Suppliers in use
office-suppliers-files = The list as a file
office-suppliers-none_archived = Nothing is archived
office-suppliers-none_archived-detail = A supplier that is archived here is kept, and no longer offered.
office-suppliers-none = No suppliers yet
office-suppliers-none-detail = Add the first one, or import a file that names it.
office-suppliers-not_found = No supplier has “{ $q }”
office-suppliers-not_found-detail = Look among the archived ones, or try fewer letters.
office-suppliers-more = Only the first { $n } are listed. Type a few letters to find the others.
office-supplier = Supplier
office-supplier-new = New supplier
office-supplier-add = Add the supplier
office-supplier-added = { $name } added.
office-supplier-their_currency = Currency
office-supplier-their_currency-hint = Three letters, such as EUR. Their prices are in it.
office-supplier-only = Only a manager changes suppliers.
office-supplier-name = Name
office-supplier-name-hint = Their next file has to name them like this, in capitals or not.
office-supplier-contact = Contact
office-supplier-contact-hint = The person to ask, with telephone number or e-mail.
office-supplier-lead_days = Lead days
office-supplier-lead_days-hint = Calendar days from order to delivery, where their price names none. Empty if not known.
office-supplier-days =
    { $n ->
        [one] { $n } day from order to delivery
       *[other] { $n } days from order to delivery
    }
office-supplier-archive = Archive
office-supplier-archived = { $name } archived. You find it under “Archived suppliers”.
office-supplier-is_archived = This supplier is archived: it is not offered any more. Its prices count only where no other supplier has one.
office-supplier-back = Bring it back
office-supplier-is_back = { $name } is back.
office-supplier-no_contact = no contact recorded
office-supplier-currency = Their prices are in { $currency }.
office-supplier-save = Save the supplier
office-supplier-save-first = Nothing differs from what is saved.
office-supplier-saved = { $name } saved.
office-supplier-to_list = All suppliers
office-shipment = Freight of a shipment
office-shipment-note = shared among its parts
office-shipment-paste = Paste what came: part numbers with quantities
office-shipment-paste-hint = A line each, from their invoice or packing slip. Nothing is saved before you have seen the shares.
office-shipment-freight = Freight, { $currency }
office-shipment-freight-one = Freight
office-shipment-brokerage = Brokerage, { $currency }
office-shipment-brokerage-one = Brokerage
office-shipment-part = Part
office-shipment-cost = Price
office-shipment-of_one = Price, freight and brokerage are those of one piece or unit.
office-shipment-times = { $n } × { $number }
office-shipment-read = Show the shares
office-shipment-save = Save from today
office-shipment-saved =
    { $n ->
        [one] Saved: 1 line has its freight from today.
       *[other] Saved: { $n } lines have their freight from today.
    }
office-supplier-taught = Learned from their files
office-supplier-taught-note = used for the next file
office-supplier-taught-none = Nothing yet
office-supplier-taught-none-detail = What a person decides about a file of theirs is listed here once it is imported.
office-supplier-column = Heading “{ $was }” is the { $name }
office-supplier-answer = The question on { $name } is answered with “{ $text }”
office-supplier-fact = The { $name } is “{ $text }”
office-supplier-text = “{ $was }” is read as “{ $text }”
office-supplier-left_out = A row “{ $was }” is left out
office-supplier-file = In files of: { $kind }
office-supplier-file_field = In files of: { $kind }; column: { $name }
office-supplier-forget = Forget it
office-supplier-forget-one = Forget it: { $what }
office-supplier-forgotten = Forgotten. With the next file you are asked again.

office-rates = Exchange rates
office-rates-about = What foreign money is worth, from which day.
office-rates-note = a rate never changes: a newer one replaces it
office-rates-none = No rate yet
office-rates-none-detail = Prices in your own currency need none. Add one for each currency in which a supplier sells.
office-rates-line = 1 { $currency } = { $rate } { $own }
office-rates-in_force = From { $day } on. It is in force today.
office-rates-coming = From { $day } on. It is not in force yet.
office-rates-earlier = From { $day } on. A newer one has replaced it.
office-rates-add = Add a rate
office-rates-currency = Currency
office-rates-currency-hint = Three letters, such as USD.
office-rates-rate = Rate
office-rates-rate-hint = What one unit is worth in { $own }, such as 0.91.
office-rates-valid_from = From
office-rates-valid_from-hint = Empty: from today on.
office-rates-added = Rate of { $currency } added.
office-rates-only = Only a manager sees and adds exchange rates.
