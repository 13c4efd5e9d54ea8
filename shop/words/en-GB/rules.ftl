### The price rules on a screen: their sections, figures, differences and history.

## hours

hours-change = { $day }: { $after }, before { $before }
hours-closed = closed

## rule

rule-section-labour = Labour
rule-section-parts = Prices of parts
rule-section-charges = Shop supplies and fees
rule-section-taxes = Taxes
rule-section-quote = The quote and its words
rule-section-money = Deposit and extra work
rule-section-workshop = Fluids, checks and records

rule-about-labour = What an hour of each skill costs the customer, and what makes the hours more.
rule-about-parts = How a selling price is made from what a part costs you.
rule-about-charges = What is charged besides parts and labour.
rule-about-taxes = The taxes of your place, as you were told to charge them. Ask your accountant, not this tool.
rule-about-quote = How long a quote is valid, and what the customer reads on it.
rule-about-money = What is paid before parts are ordered, and how much extra work you may do without asking.
rule-about-workshop = What is assumed about coolant, what customers are told after wheels were off, and how long records are kept.

rule-title-labour = Skills
rule-does-labour = The price of an hour of each skill, what it costs you, and its tax class (labour where empty).
rule-title-condition_factors = Condition of fasteners
rule-does-condition_factors = Hours of work on the vehicle are multiplied by the factor of its condition.
rule-title-first_fit_factor = First fit of a kit
rule-does-first_fit_factor = Hours of a kit that you have never fitted are multiplied by this; 1 adds nothing.
rule-title-minimum-hours = Minimum charge
rule-does-minimum-hours = The least hours of labour for any visit; what is missing is a line of its own.
rule-title-supplied_share = Parts that the customer brings
rule-does-supplied_share = This share of the hours that fit them is charged on top.
rule-title-technicians = People at one vehicle
rule-does-technicians = How many work on one vehicle at the same time. The date depends on it, the price does not.
rule-title-efficiency = Hours sold in an hour of the clock
rule-does-efficiency = 1 sells an hour for each hour worked; less makes the vehicle ready later.

rule-title-markup-mode = Use of the bands
rule-does-markup-mode = Graduated applies each band to its own part of the cost. Floored applies one band to all of it, and a dearer part never sells for less than a cheaper one.
rule-title-markup-bands = Bands of unit cost
rule-does-markup-bands = The cost of a part, up to each amount, is multiplied to make its price. The last row has no upper end.
rule-title-markup-step = Prices rounded up to
rule-does-markup-step = A price that comes from the bands is rounded up to a multiple of this.
rule-title-margin_floor = Least margin
rule-does-margin_floor = Sending a quote below this margin asks for a confirmation. Empty: no floor.
rule-title-duty_base = Duty is counted on
rule-does-duty_base = The sum on which an importer’s duty is worked out.
rule-title-recoverable_tax_rate = Tax that you get back
rule-does-recoverable_tax_rate = The tax in a purchase price that comes back to you, and so does not count as a cost.
rule-title-bead_waste = Waste of sealant
rule-does-bead_waste = The length of a bead is multiplied by this for what stays in the nozzle.
rule-title-rate_stale_days = Age of an exchange rate
rule-does-rate_stale_days = An older rate gets a notice on the draft.

rule-title-supplies-rate = Shop supplies
rule-does-supplies-rate = A share of the lines below for what is used in small amounts: thread locker, cleaner, gloves. 0 charges nothing.
rule-title-supplies-basis = Counted on
rule-does-supplies-basis = The tax classes whose lines count, with commas: labour, fabrication.
rule-title-supplies-cap = Shop supplies at most
rule-does-supplies-cap = Never more than this on one quote. Empty: no cap.
rule-title-supplies-tax_class = Tax class of shop supplies
rule-does-supplies-tax_class = Which taxes are charged on them.
rule-title-supplies-stated = Amount in sight
rule-does-supplies-stated = The amount is always visible on the page and in the PDF, never only inside a sum.
rule-title-words-supplies = Words under shop supplies
rule-does-words-supplies = The customer reads them under the amount. One sentence a line.
rule-title-charges = Ways of charging consumables
rule-does-charges = Consumables of these families are charged in this way, whatever a kit’s file says.
rule-title-fees = Fees
rule-does-fees = Each is charged once a quote, a litre of a family of fluids used, or a litre drained of a fluid. “Per” is quote, litre drained, or the family’s name.

rule-title-taxes = Taxes
rule-does-taxes = Each tax, its rate in %, and the tax classes of lines that it is charged on. “On top of” names taxes that count towards its base.
rule-title-prices_include_tax = Prices include tax
rule-does-prices_include_tax = Rates, fees and the bands make prices with the tax inside. Otherwise it is added at the end.
rule-title-rounding = Tax is rounded
rule-does-rounding = Once for the whole document, or for each line.

rule-title-offer = A quote is
rule-does-offer = A quotation is a fixed price, an estimate the price that you expect. The page says which.
rule-title-validity_days = A quote can be accepted for
rule-does-validity_days = Days from the one on which it is sent.
rule-title-currency_days = Foreign prices are kept for
rule-does-currency_days = A quote with parts bought in other money ends after these days at the latest. Empty: no such limit.
rule-title-words-standing = Terms
rule-does-words-standing = The customer reads them on every quote. One sentence a line.
rule-title-words-not_included = Not included
rule-does-words-not_included = What a customer might expect and does not get. One sentence a line.
rule-title-words-bring = Please bring
rule-does-words-bring = What a customer brings with the vehicle, such as the keys. It is printed on the receipt of an acceptance. One sentence a line.
rule-title-words-cautions = Cautions for the customer
rule-does-words-cautions = Each is on every quote, or only on those with the kits, operations or skills that you name, with commas.
rule-title-words-consents = Consents
rule-does-words-consents = What the customer agrees to, or may agree to, when accepting. “Without it” says what happens where an optional one is not given.
rule-title-withdrawal-days = Right of withdrawal
rule-does-withdrawal-days = Days from the one after acceptance in which a customer may withdraw. 0 or empty: the quote mentions none.
rule-title-words-withdrawal = Words about withdrawal
rule-does-words-withdrawal = The customer reads them with the date on which the right ends. One sentence a line.

rule-title-deposit_share = Deposit
rule-does-deposit_share = The share that is paid before anything is ordered. 0 asks for none.
rule-title-deposit-base = Deposit is counted on
rule-does-deposit-base = On the kits and loose parts, or on the whole total.
rule-title-deposit-cover = The deposit covers what cannot be sent back
rule-does-deposit-cover = It is then at least what we pay for the kits, parts and outside work that an advisor marked so.
rule-title-deposit-releases = The deposit lets orders go
rule-does-deposit-releases = Once it is recorded, proposed orders are released. Otherwise a person releases them.
rule-title-words-payment = How to pay
rule-does-words-payment = The customer reads it with the deposit. One sentence a line.
rule-title-ceiling-kind = Extra work without asking
rule-does-ceiling-kind = How the most that you may add without asking the customer is worked out.
rule-title-ceiling-share = Share of the total
rule-does-ceiling-share = For the kinds that begin with a percentage.
rule-title-ceiling-amount = Fixed amount
rule-does-ceiling-amount = For the kind “fixed amount”.
rule-title-ceiling-floor = At least
rule-does-ceiling-floor = For the percentage between two amounts.
rule-title-ceiling-cap = At most
rule-does-ceiling-cap = For the percentages that have a cap.
rule-title-ceiling-maximum = The whole job at most
rule-does-ceiling-maximum = For the kind “most that the whole job may come to”.

rule-title-coolant-drained_share = Coolant that a drain brings out
rule-does-coolant-drained_share = The share of the circuit’s capacity. The rest stays in block and heater.
rule-title-coolant-residual = Strength of what stays
rule-does-coolant-residual = The concentration in the vehicle as it comes, where nobody measured it.
rule-title-coolant-target = Strength after the fill
rule-does-coolant-target = The concentration that is mixed for. The vehicle manufacturer’s instructions come first.
rule-title-coolant-premix = Strength of ready mix
rule-does-coolant-premix = The concentration of coolant that is bought ready to pour.
rule-title-coolant-order_allowance = More to order
rule-does-coolant-order_allowance = This much more coolant is ordered than the sum says.
rule-title-coolant-top_up = Kept for topping up
rule-does-coolant-top_up = Litres that go with the vehicle or stay beside it.
rule-title-wheel_check = Wheel fasteners checked again after
rule-does-wheel_check = The distance that you tell customers, such as 50 to 100 km. Empty: customers read nothing about it.
rule-title-words-bay = Words in the bay
rule-does-words-bay = They are on every page of a job in the bay. One sentence a line.
rule-title-retention_years = Records are kept for
rule-does-retention_years = After that, personal data may be removed. What you must keep is for your adviser to say.
rule-title-retention_months = Records are kept for, in months
rule-does-retention_months = Only where it is not a number of whole years; it counts instead of the years.
rule-title-import_months = Imported files are kept for, in months
rule-does-import_months = After that, the file as it was sent is removed. What it became stays. Empty: files are always kept.

rule-column-skill = Skill
rule-column-rate = Rate
rule-column-cost = Cost
rule-column-tax_class = Tax class
rule-column-condition = Condition
rule-column-factor = Factor
rule-column-family = Family
rule-column-charge = Charged
rule-column-up_to = Up to
rule-column-x = Times
rule-column-code = Code
rule-column-title = Title
rule-column-amount = Amount
rule-column-per = Per
rule-column-fluid = Fluid drained
rule-column-classes = On tax classes
rule-column-on_top_of = On top of
rule-column-text = Text
rule-column-applies_to = Only with
rule-column-kind = Kind
rule-column-without = Without it

rule-choice-graduated = graduated
rule-choice-floored = floored
rule-choice-goods = goods
rule-choice-goods_and_freight = goods and freight
rule-choice-document = once for the document
rule-choice-line = line by line
rule-choice-quotation = quotation: a fixed price
rule-choice-estimate = estimate: the expected price
rule-choice-required = required
rule-choice-optional = optional
rule-choice-begin_within_withdrawal = begin within the withdrawal period
rule-choice-pack = whole packs
rule-choice-used = as used
rule-choice-supplies = covered by shop supplies
rule-choice-parts = kits and parts
rule-choice-total = the whole total
rule-choice-none = always ask
rule-choice-percent = percentage
rule-choice-percent_capped = percentage with a cap
rule-choice-banded = percentage between two amounts
rule-choice-maximum = most that the whole job may come to
rule-choice-amount = fixed amount
rule-choice-yes = yes
rule-choice-no = no
rule-choice-unrounded = not rounded

rule-shown-percent = { $n } %
rule-shown-hours = { $n } h
rule-shown-litres = { $n } L
rule-shown-days =
    { $n ->
        [one] { $n } day
       *[other] { $n } days
    }
rule-shown-months =
    { $n ->
        [one] { $n } month
       *[other] { $n } months
    }
rule-shown-years =
    { $n ->
        [one] { $n } year
       *[other] { $n } years
    }
rule-empty = not set
rule-rest = the rest
rule-cell = { $field }, { $row }, { $column }
rule-row = { $field }, { $row }

rule-set-number = Price rules { $number }
rule-set-first = The first rules of the workshop
rule-set-same = The same as the ones before
rule-set-changed = { $what }: { $before } → { $after }
rule-set-added = { $what }: new, { $after }
rule-set-removed = { $what }: removed, was { $before }
rule-set-more =
    { $n ->
        [one] and { $n } more
       *[other] and { $n } more
    }

## preset: price rules that a workshop begins with

preset-plain = Plain
preset-plain-for = One hourly rate, one markup on parts, prices before tax. The shortest to read; add rules as you need them.
preset-private = Private customers
preset-private-for = Prices with tax, four skills, markup in bands, shop supplies, and half of the parts as a deposit.
preset-trade = Trade customers
preset-trade-for = Prices before tax, four skills, markup in bands, and shop supplies; no deposit.
