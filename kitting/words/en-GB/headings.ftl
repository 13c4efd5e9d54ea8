### What each heading of a file of kits or consumables stands for.

import-means-family = The family of the consumable, such as engine oil or thread locker.
import-means-specification = What the manufacturer asks for, such as 5W-30. Empty where the family has only one.
import-means-number = The part number, by which it is ordered.
import-means-supplier = Who sells it to you.
import-means-cost = What one costs you, before tax.
import-means-currency = The currency of the cost, by its code of three letters. Empty: the supplier’s.
import-means-duty = The customs duty on it, as “4 %” or 0.04.
import-means-freight = The freight for one, in the currency of the cost.
import-means-brokerage = The clearance for one, in your own currency.
import-means-valid_until = The last day on which the cost holds.
import-means-lead_days = The days from the order until it is here.
import-means-returnable = Whether the supplier takes it back.
import-means-tax_class = The tax class it is sold under.
import-means-code = The bar code on it, for the scanner.

import-means-consumables-form = The form that its data sheet names, such as liquid, grease or paste.
import-means-consumables-unit = What it is measured in.
import-means-consumables-title = What the pack is called.
import-means-consumables-pack_size = How much is in one pack, in its unit.
import-means-consumables-cost = What one pack costs you, before tax.
import-means-consumables-sells = What one pack is sold for. Empty: worked out from its cost.
import-means-consumables-hazard = The hazard words on its label.
import-means-consumables-shelf_life = The days that it keeps.

import-means-title-kit = The kit’s number. A file with the same number makes its next version.
import-means-title-title = What the kit is called.
import-means-title-number = The number under which you order the whole kit, if it is another.
import-means-title-labour = The code of the labour template that fits it.
import-means-title-fits = The vehicles it fits: “model=T35; drive=all”. Empty: all.
import-means-title-price = What the kit is sold for. Empty: worked out from its cost.
import-means-title-hours = The hours to fit it, until it has a labour template.
import-means-title-cost = What the whole kit costs you, before tax.

import-means-title-order = The number of your order, which begins with that of the job, such as J-1004-1.
import-means-title-slip = The supplier’s number of the slip.
import-means-title-day = The day on which the goods arrive.

import-means-packed-carton = The carton that it is packed in.
import-means-packed-number = The part number, or that of a whole kit.
import-means-packed-title = What the part is.
import-means-packed-quantity = How many were packed.
import-means-packed-unit = The unit of the quantity. Empty: pieces.

import-means-lines-carton = The carton that the part comes in. It may be named once for all rows below it.
import-means-lines-bag = The bag within the carton. It may be named once for all rows below it.
import-means-lines-title = What the part is.
import-means-lines-quantity = How many are in the bag, for one kit. A unit may follow: “1.5 m”.
import-means-lines-unit = The unit of the quantity. Empty: pieces.
import-means-lines-when = The vehicles that need it: “manual only”, “transmission=manual; drive=all”. Empty: all.
import-means-lines-ships = Whether it is in every box, or only in the box for a vehicle that needs it.
import-means-lines-role = What it is for. A spare, a tool or instructions stop no work.
import-means-lines-operation = The code of the operation that first needs it. Empty: it is needed from the start.
import-means-lines-remark = The supplier’s remark. Conditions and new numbers in it are asked about.
import-means-lines-replaces = The older part number that this one replaces.
import-means-lines-replaced_by = The newer part number that replaces this one.
import-means-lines-per = The number of pieces that the cost is for, such as 100.

import-means-needs-family = The family of the consumable that is needed besides the kit. Give a family or a part number.
import-means-needs-number = The part that is needed besides the kit.
import-means-needs-title = What it is for.
import-means-needs-rule = How the quantity is meant.
import-means-needs-quantity = How much: in all, for each fastener, as a length of bead, or as a share of the capacity.
import-means-needs-of = The circuit, the number of fasteners, or the width of the bead in mm.
import-means-needs-charge = How it is charged.
import-means-needs-operation = The code of the operation that needs it. Empty: the first.

import-means-re_used-title = A part of the vehicle that comes off and goes back on.
import-means-re_used-quantity = How many.
import-means-re_used-off_at = The code of the operation at which it comes off.
import-means-re_used-back_at = The code of the operation at which it goes back on.

import-means-outside_work-title = The work that another firm does.
import-means-outside_work-firm = The firm.
import-means-outside_work-cost = What the firm charges you, before tax.
import-means-outside_work-markup = What you add to it, as “15 %” or 0.15.
import-means-outside_work-handling = A fixed amount that you add for handling it.
import-means-outside_work-days = The working days until it is back.
import-means-outside_work-starts_after = The code of the operation after which it can begin.
import-means-outside_work-needed_by = The code of the operation that waits for it.
import-means-outside_work-they_do = What the firm does.
import-means-outside_work-they_need = What the firm needs from you.
import-means-outside_work-warranty = What the firm warrants.
import-means-outside_work-we_warrant = What you warrant.
import-means-outside_work-rounds = How often it goes there and back.
import-means-outside_work-per_round = Whether the cost is for each round.

import-means-suppliers-supplier = The name of the supplier. A name that is on file completes that supplier.
import-means-suppliers-contact = The person to ask, and how.
import-means-suppliers-currency = The currency of its prices, by its code of three letters. Empty: your own.
import-means-suppliers-lead_days = The days from the order until it is here, where a price names none.

import-means-kits-kit = The kit’s number. A number that is on file changes that kit.
import-means-kits-title = What the kit is called.
import-means-kits-number = The number under which you order the whole kit.
import-means-kits-supplier = Who sells you the whole kit.
import-means-kits-price = What the kit is sold for, until it is priced from its cost.
import-means-kits-hours = The hours to fit it, until it has a labour template.
import-means-kits-lead_days = The days from the order until it is here, where a price names none.
import-means-kits-fits = The vehicles that it is for, as “model=T35”.
import-means-kits-fitted_before = How often you fitted it before you quoted it here.
import-means-kits-version = The number of the newest version, to read: it is not imported.
import-means-kits-lines = How many parts the newest version lists, to read: it is not imported.
import-means-kits-cartons = How many cartons the newest version has, to read: it is not imported.
