### What each heading of a file stands for, on the page of headings and in the examples. The key is the table and the
### field, or the field alone where several tables have it.

import-means-customers-name = The customer’s name, of a person or a firm.
import-means-customers-phone = The telephone number. Name and number together say who it is.
import-means-customers-email = The e-mail address.
import-means-customers-address = The postal address, on one line.

import-means-vehicles-title = Make and model as you would say it.
import-means-vehicles-customer = The owner’s name, as in the list of customers.
import-means-vehicles-vin = The vehicle identification number, 17 characters.
import-means-vehicles-plate = The number plate.
import-means-vehicles-transmission = The gearbox: manual or automatic.
import-means-vehicles-model = The model code, for parts and kits that fit some models only.
import-means-vehicles-engine = The engine code.
import-means-vehicles-drive = Which wheels are driven.
import-means-vehicles-brakes = The brake system.
import-means-vehicles-fuel = The fuel.
import-means-vehicles-body = The body style.
import-means-vehicles-attribute = Anything else that a kit may ask about. Its name follows in the heading: “attribute: wear sensor”.
import-means-vehicles-capacity_engine_oil = How much engine oil goes in with the filter, in litres.
import-means-vehicles-capacity_coolant = How much coolant the system holds, in litres.
import-means-vehicles-capacity_transmission_fluid = How much transmission fluid goes in, in litres.
import-means-vehicles-capacity_brake_fluid = How much brake fluid the system holds, in litres.
import-means-vehicles-capacity = How much another circuit holds, in litres. Its name follows in the heading: “capacity: rear axle”.

import-means-operations-code = Your short code for the operation. A file with the same code changes it.
import-means-operations-title = What is done, as the customer and the technician read it.
import-means-operations-skill = The skill that does it, one of those with a labour rate.
import-means-operations-hours = The hours it takes by the book.
import-means-operations-sharing = Whether it is charged once when several kits need it, or for each kit.
import-means-operations-exposed = Whether it undoes fasteners that rust.
import-means-operations-no_return = Whether the vehicle cannot move from this step on.
import-means-operations-mobile_again = Whether the vehicle can move again after this step.
import-means-operations-hold_point = Whether somebody must check before the work goes on.
import-means-operations-wheels_off = Whether wheels come off, so that they are checked again later.
import-means-operations-wait_after = How long to wait after it, in minutes; “2 h” works too.
import-means-operations-includes = Codes of operations that this one does as well, with a comma between them.
import-means-operations-overlaps = Codes of operations that share work with it, each with the hours saved: “QT-08 0.3; QT-07 0.2”.
import-means-operations-cautions = Where the work can hurt somebody or damage something. A bar | goes between two cautions.
import-means-operations-torques = Tightening values by fastener, from the manufacturer: “Drain plug: 35 N·m | Filter: hand tight”.
import-means-operations-others = Other values to keep, such as a run-out or a pressure, written like the torques.

import-means-templates-template = The code of the labour template. All rows with this code are its steps.
import-means-templates-position = The place of the step in the work. Without it the rows count in their order.
import-means-templates-operation = The code of the operation that this step does.
import-means-templates-hours = The hours here, if they differ from the book.
import-means-templates-stage = The stage of the work, for which parts are laid out together.
import-means-templates-after = Codes of the steps it waits for. Empty: the step above; “-”: nothing.
import-means-templates-when = The vehicles that need this step: “transmission=manual”. Empty: all.

import-means-rules-rule = The name of one price rule.
import-means-rules-value = Its value.
import-means-labour_rates-skill = The skill, such as mechanical or electrical.
import-means-labour_rates-rate = What an hour is sold for.
import-means-labour_rates-cost = What an hour costs you.
import-means-labour_rates-tax_class = The tax class of this labour, if it has one of its own.
import-means-bands-up_to = Parts that cost up to this amount are in the band. Empty in the last one: all that cost more.
import-means-bands-x = What the cost is multiplied by.
import-means-taxes-code = A short code for the tax.
import-means-taxes-title = Its name on quotes.
import-means-taxes-rate = Its rate, as “20 %” or 0.2.
import-means-taxes-classes = The tax classes that it is charged on.
import-means-taxes-on_top_of = Codes of taxes that are added first, if it is charged on top of them.
import-means-fees-code = A short code for the fee.
import-means-fees-title = What the customer reads.
import-means-fees-amount = What it is, once or for each litre.
import-means-fees-tax_class = The tax class of the fee.
import-means-fees-per = What it is charged for: quote (once a visit), litre drained, or a family of consumables, for each litre of it.
import-means-fees-fluid = Which fluid is drained, for a fee per litre drained.
import-means-words-kind = Where the sentence is printed.
import-means-words-code = A short code by which other rows know the sentence.
import-means-words-text = The sentence.
import-means-words-without = What follows if the customer does not agree to it.
import-means-words-applies_to = For a caution: the kits, operations or skills with which it is printed. Empty: on every quote.
import-means-conditions-condition = A word for the condition of a vehicle, such as rusty.
import-means-conditions-factor = What the hours are multiplied by, 1 or more.
import-means-consumables-charge = How the family is charged.
import-means-calendar-day = The day of the week.
import-means-calendar-opens = When you open, as 08:00.
import-means-calendar-closes = When you close. A break is a second row of the same day.
import-means-calendar-valid_from = The day from which these hours apply. Empty: from the day of the import.
import-means-closed_days-date = A day on which you are closed.
import-means-closed_days-why = The reason, such as a public holiday.
import-means-exchange_rates-currency = The foreign currency, by its code of three letters.
import-means-exchange_rates-valid_from = The first day of the rate.
import-means-exchange_rates-rate = What one unit of it is worth in your currency.
