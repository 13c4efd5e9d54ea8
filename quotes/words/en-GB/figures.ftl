### Why a figure is what it is, and how it was worked out.

## margin

margin-labour = Labour, { $skill }
margin-price = { $words }: { $percent } %
margin-price_unknown = { $words }: margin not known
margin-lowest = at the lowest price
margin-highest = at the highest price
margin-unknown =
    { $n ->
        [one] Margin not known: { $titles } has no cost.
       *[other] Margin not known: { $n } items have no cost: { $titles }.
    }
margin-without =
    { $n ->
        [one] Without it { $percent } %.
       *[other] Without them { $percent } %.
    }

margin-how-title = Margin
margin-how-rule = Profit is the total before tax less all costs. The margin is profit as a share of the total before tax.
margin-how-free = Shop supplies and fees are charged; no further cost is counted for them.
margin-how-discount = The discount counts in the total. The landed costs and profits of single items are before it.
margin-how-rule_unknown = The margin of the whole is not known while a cost is not known. Items without a cost are left out, with what they sell for.
margin-how-gross = Total with tax
margin-how-tax = Tax inside it
margin-how-net = Total before tax
margin-how-kit = { $letter }, { $title }
margin-how-outside = { $title }: what the firm asks
margin-how-labour = Labour, { $skill }: { $hours } at a cost of { $each } an hour
margin-how-pack = { $n } × { $title }
margin-how-charge_pack = { $packs }
margin-how-charge_used = { $packs }, the share used
margin-how-charge_supplies = { $packs }, the share used, covered by shop supplies
margin-how-unknown = not known
margin-how-left_out = Items without a cost, before tax
margin-how-profit = Profit before tax
margin-how-share = { $profit } of { $net }
margin-how-rate = { $percent } %

## why

why-outside_step_gone = { $title }: a step that it names is not on the quote. Choose the step again.
why-outside_needs_itself = { $title }: the step that waits for it is done before it can start. Choose another step.
why-once = once for { $how_many } kits: longest is { $longest } h
why-summed = for each of { $how_many } kits: { $hours } h in all
why-need_once = once for { $how_many } kits
why-first_fit = first fit here: × { $factor }, { $hours } h
why-included_in = included in { $operation }
why-raised_by = includes { $operation }: { $hours } h
why-overlap = less { $hours } h shared with { $operation }
why-condition = +{ $percent } % for corroded fasteners
why-overridden = { $because }; worked out as { $computed }
why-packs = { $quantity } { $unit }: { $sizes }, { $left } { $unit } left
why-packs_even = { $quantity } { $unit }: { $sizes }, nothing left
why-pieces = { $quantity } by the piece
why-runner_up = { $sizes } costs { $more } more
why-runner_up_same = { $sizes } costs the same
why-charged_used = charged as used
why-charged_supplies = covered by shop supplies
why-charge_chosen = you chose how it is charged
why-charge_rules = the price rules say how it is charged
why-charge_kits_differ = the kits charge it in different ways; the one that charges most applies
why-fee_per_litre = { $litres } L of { $family } at { $amount }
why-supplied_share = { $percent } % of { $hours } h of fitting
why-minimum_charge = { $hours } h of labour, charged as { $least } h
why-fee_per_litre_drained = { $litres } L of { $of } drained, at { $amount }
why-drained_unknown = { $title }: not charged, because the { $of } capacity of this vehicle is not known. Add it to the vehicle.
why-need_per_fastener =
    { $n ->
        [one] for { $n } fastener
       *[other] for { $n } fasteners
    }
why-need_bead = { $quantity } m of a { $of } mm bead
why-need_of_capacity = { $of }: { $capacity } L
why-need_share_of_capacity = { $percent } % of { $of }, { $capacity } L
why-need_refill = { $concentrate } L concentrate and { $water } L water fill { $fill } L; order { $order } L, including allowance and top-up
why-need_besides = and { $quantity } L more for { $kits }
why-need_refill_water = { $water } L water to { $concentrate } L concentrate fill { $fill } L
why-protects = freezes at about { $degrees } °C at { $percent } %
why-capacity_unknown = The { $of } capacity of this vehicle is not known. Add it to the vehicle, or enter your own price.
why-no_pack = There is no pack with a price for { $item }. Import one with the consumables.
why-mix_drain_more = The { $of } cannot reach { $percent } %. Drain at least { $litres } L in all, then fill with pure concentrate.
why-mix_too_strong = The { $of } is already stronger than { $percent } %. Drain at least { $litres } L in all, then fill with pure water.
why-no_rate = There is no exchange rate for { $currency }, so { $title } has no price. Import one with the price rules.
why-kit_not_for_vehicle = { $title } does not fit this vehicle. It is for { $attribute }: { $values }; this vehicle is { $stated }.
why-kit_fit_unknown = { $title } is for { $attribute }: { $values }. Not recorded for this vehicle. Ask before you send.
why-no_price = { $title } has no price yet. Enter one on the quote, or import the supplier's offer.
why-no_part_price = { $title } has no price yet. Enter one on its line, or import the supplier's offer.
why-no_hours = { $title } has no hours yet. Add a line for the work, or import its labour.
why-unknown_class = No rule names the tax class { $tax_class }, so it is sold without tax. Correct the rules or the line if that is wrong.
why-discount_too_large = The discount of { $amount } is more than the { $base } it is given on, so it does not count. Enter a smaller one.
why-offer_ended = { $supplier }’s price for { $title } has ended. Ask for a new one and import it.
why-valid_offer = { $supplier }’s price for { $title } ends that day
why-valid_currency = the workshop does not keep prices in { $currency } any longer than that
why-rate_old = The exchange rate for { $currency } is { $days } days old. Import a newer one with the price rules.

why-landed-today = bought in { $currency }, today's rate
why-landed =
    { $n ->
        [one] bought in { $currency }, rate of { $date }, 1 day old
       *[other] bought in { $currency }, rate of { $date }, { $n } days old
    }

## how

how-hours = { $n } h
how-hours_price = { $hours }, { $price }
how-quantity = { $quantity } { $unit }
how-less = − { $figure }
how-more = + { $figure }
how-same = the same
how-asks = Kit { $kit } needs
how-asks_for = Kit { $kit } needs, for { $work }
how-not_kept = The full calculation was not kept when this version was sent; its short reasons are below.

how-title-labour = Labour of the whole visit
how-title-saves = Without { $title }
how-title-tax = { $title }, { $rate } %
how-title-total = Total with tax

how-rule-outside = Another firm does this work. The price is what it asks, with our markup or our charge for arranging it, before tax.
how-rule-outside_inside = Another firm does this work. The price is what it asks, with our markup or our charge for arranging it, and the tax.
how-rule-gathered = Each operation counts once for the whole visit, however many kits need it. Only work that is done separately for each kit is added up.
how-rule-by_hand = Hours set by hand count for the visit. The hours of a kit on its own are as worked out.
how-rule-alone = The hours each kit would take on a visit of its own are shown for comparison.
how-rule-skill = All hours of one skill are priced together, at its hourly rate.
how-rule-first_fit = A kit fitted here for the first time takes longer: the hours that no other kit on the quote shares are multiplied.
how-rule-once = Where several kits need this work, it is done once: the longest of their hours counts.
how-rule-each = This work is done separately for every kit: the hours of the kits are added.
how-rule-included_in = Work that is part of another operation is charged there and not here.
how-rule-raised_by = An operation that includes another one is charged at least the hours of that one.
how-rule-overlap = Where two operations share work, the shorter operation is charged less by the shared time, never below zero.
how-rule-condition = Corroded fasteners take longer: the hours are multiplied by the workshop's factor.
how-rule-tenths = The hours of each line are rounded to 0.1, half up.
how-rule-shared_price = All hours of one skill are priced together; the price is shared between its lines by their hours, so that the lines add up to the cent.
how-rule-from_bands = The selling price comes from the landed cost (price, freight, duty and brokerage) and the price bands.
how-rule-own_price = It has its own price.
how-rule-brought = The customer brings this kit. Only the work is charged.
how-rule-kit_any = The selling price comes from the landed cost and the price bands, unless it has its own price.
how-rule-saving = The saving is the whole quote with this kit less the whole quote without it. Work that other kits also need stays.
how-rule-skill_rate = The hours are charged at the rate of their skill.
how-rule-contingency = It is charged only if it happens, and is not in the total.
how-rule-once_rounded = The price of one time, with tax, is rounded once and then multiplied.
how-rule-times = Quantity times the price of one, rounded once.
how-rule-pooled = What the kits need of one kind is added up for the whole job before packs are chosen.
how-rule-need_once = Items for work that several kits share are needed once: the largest amount counts.
how-rule-capacity = For a full fluid change the vehicle's capacity is used, once, however many kits need it.
how-rule-refill = What stays in the circuit keeps its strength; concentrate and water bring the whole to the target.
how-rule-refill_order = The order includes an allowance, and concentrate for a later top-up.
how-rule-refill_water = Water is ordered as it is mixed, with no allowance and no top-up.
how-rule-packs = Of all sets of whole packs that cover the need, the cheapest is chosen; at the same price the one that leaves least, then the one with the fewest packs.
how-rule-charge_pack = Whole packs are charged.
how-rule-charge_used = Only what is used is charged: the used share of the packs, rounded once.
how-rule-charge_supplies = It is covered by shop supplies and not charged here.
how-rule-minimum = The price rules charge at least so many hours of labour for a visit. The rest is charged at the rate of the skill with most of the hours. No discount is given on it.
how-rule-fee = A fee from the price rules.
how-rule-fee_once = This fee from the price rules is charged once per quote.
how-rule-fee_drained = This fee from the price rules is charged per litre that the job drains. A circuit is drained once, and by the share in the price rules where it is refilled with coolant.
how-rule-fee_litre = This fee from the price rules is charged per litre that the job uses.
how-rule-supplied = Fitting a part or a kit that the customer brings takes a share of its hours on top, rounded to 0.1. What they bring is not charged.
how-rule-supplies = Shop supplies are a percentage of the lines they are based on.
how-rule-supplies_cap = They are never more than their cap.
how-rule-discount = The discount is given on kits, parts, labour, fluids and other lines, not on fees, the minimum charge and shop supplies, which are worked out before it.
how-rule-discount_shared = It is shared between the tax classes by what they come to, so that each tax is charged on the lower price.
how-rule-tax = The tax is charged on everything its rate applies to.
how-rule-tax_any = The tax is charged on everything its rate applies to, at the rate in the price rules.
how-rule-tax_on_top = It is charged on top of { $titles }, so that tax is part of its base.
how-rule-tax_once = It is rounded once, on the whole quote.
how-rule-tax_by_line = It is rounded on every line, then added up.
how-rule-tax_inside = Prices include the tax: the tax inside is the price × rate / (100 + rate).
how-rule-tax_by_class = It is rounded once for everything that is taxed alike; several taxes in one price are split by their rates.
how-rule-total = All lines added up, plus the taxes.
how-rule-total_inside = All lines added up; their prices include the tax.
how-rule-total_any = All lines added up, with tax.

how-step-outside = Their price to us, and our charge for arranging it
how-step-computed = Worked out
how-step-own = Replaced by hand: { $because }
how-step-own_hours = Replaced by hand
how-step-asks = { $letter }, { $title }, needs
how-step-asks_line = Added to the quote
how-step-asks_first = { $letter }, { $title }, first fit here: { $hours } × { $factor }
how-step-longest = Done once: the longest of { $n }
how-step-sum = Done { $n } times: their sum
how-step-included_in = Charged within { $operation }
how-step-raised_by = Includes { $operation }: at least its hours
how-step-overlap = Shared with { $operation }
how-step-condition = +{ $percent } % for corroded fasteners
how-step-tenths = Rounded to 0.1 h
how-step-skill = All { $skill } work: { $hours } at { $rate }
how-step-share = This line's share: { $hours } of { $of }
how-step-alone = { $letter }, { $title }, on its own
how-step-alone_line = { $title }, on its own
how-step-apart = On separate visits
how-step-together = On one visit
how-step-not_counted_twice = Not counted twice
how-step-by_hand = Changed by hand
how-step-with_hand = The visit then takes
how-step-from_bands = Price from the bands
how-step-own_price = Its own price
how-step-skill_rate = Rate of the skill, an hour
how-step-once_tax = Tax on it
how-step-one_time = One time, with tax
how-step-most_times =
    { $n ->
        [one] At most once
       *[other] At most { $n } times, { $each } each
    }
how-step-times = { $quantity } × { $each }
how-step-hours_with = Hours of the whole quote with it
how-step-hours_without = Less the hours of the whole quote without it
how-step-hours_saved = Saved without it, in hours
how-step-hours_alone = Charged for it alone
how-step-hours_stay = Of that stays, because other kits need it too
how-step-gross_with = The whole quote with it, tax included
how-step-gross_without = Less the whole quote without it, tax included
how-step-gross_saved = Saved without it, tax included
how-step-ask = { $asks }
how-step-ask_per_fastener = { $asks }: { $count } fasteners, { $each } each
how-step-ask_bead = { $asks }: { $metres } m of a { $width } mm bead, × { $waste } for what stays in the nozzle
how-step-at_most = Needed once: the largest amount of { $kits }
how-step-share_of_capacity = { $share } % of { $of }, { $capacity } L
how-step-circuit = The { $of } circuit holds
how-step-circuit_with = With the { $added } L that the kits add, it then holds
how-step-drained = Drained: { $share } % of the { $before } L it held before, from the price rules
how-step-stays = Left in it, { $concentration } % strong
how-step-fill = To add: { $after } L − { $stays } L
how-step-concentrate = Concentrate: { $after } L × { $target } % − { $stays } L × { $concentration } %
how-step-water = Water: { $fill } L − { $concentrate } L concentrate
how-step-order = To order: { $concentrate } L, { $allowance } % allowance, and { $target } % of { $top_up } L top-up
how-step-needed = Needed over the job
how-step-left = Left over
how-step-packs = These packs together
how-step-runner_up = Next best: { $sizes } { $unit }
how-step-charged_used = { $quantity } of { $size } used
how-step-charged_supplies = Covered by shop supplies
how-step-minimum_hours = Minimum charge of the price rules
how-step-supplied_of = Hours that fit these parts
how-step-minimum_charged = Labour on this quote
how-step-minimum_each = { $hours } × { $each }
how-step-fee_once = Once for this quote
how-step-fee_litres = Litres of { $family }
how-step-fee_litres_drained = Litres of { $of } drained
how-step-fee_each = { $litres } × { $each }
how-step-supplies_of = Lines taxed as { $tax_class }
how-step-supplies_share = { $percent } % of { $of }
how-step-supplies_cap = At most
how-step-taxed = Taxed as { $tax_class }
how-step-tax_below = The tax it is charged on
how-step-tax_rate = { $percent } % of { $of }
how-step-tax_inside = Inside { $amount } taxed as { $tax_class }: × { $rate } / { $above }
how-step-taxed_inside = All taxes inside { $amount } taxed as { $tax_class }
how-step-tax_share = This tax, { $rate } % of { $net }
how-step-net = Before tax
how-step-and_tax = { $title }
how-step-of_it_tax = Of which { $title }
how-step-total_kits = Kits
how-step-total_labour = Labour
how-step-total_needs = Fluids and small parts not in the kits
how-step-total_outside = Work by other firms
how-step-total_extras = Further parts and work
how-step-total_fees = Supplies and fees
how-step-total_discount = Discount
how-step-discount_on = What it is given on
how-step-discount_percent = { $percent } % of { $of }
how-step-discount_share = Of that on what is taxed as { $tax_class }

how-step-pack =
    { $n ->
        [one] 1 × { $title }
       *[other] { $n } × { $title }, { $each } each
    }

## bought

bought-from = from { $supplier }
bought-rate = { $currency } at { $rate }, { $age }
bought-amount = { $amount } { $currency }
bought-sells = sells for { $net } before tax
bought-sells_inside = sells for { $price } with tax inside, { $net } before tax
bought-charged = charged here { $net } before tax
bought-charged_inside = charged here { $price } with tax inside, { $net } before tax
bought-charged_nothing = not charged here
bought-profit = profit { $profit } before tax
bought-profit_of = for { $quantity }: { $net } before tax, cost { $cost }, profit { $profit }

bought-age-today = today's rate
bought-age =
    { $n ->
        [one] rate of { $date }, 1 day old
       *[other] rate of { $date }, { $n } days old
    }

bought-rule-landed = Landed cost is the supplier's price at the day's rate, with freight, duty and brokerage; each is rounded once.
bought-rule-graduated = The price is added up slice by slice: each slice of the cost is multiplied by the factor of its own band.
bought-rule-floored = The whole cost is multiplied by the factor of its band, but the price is never below the highest price of the band below.

bought-step-price = The supplier's price
bought-step-value = In { $home }, { $rate } for one { $currency }, { $age }
bought-step-freight = Freight
bought-step-freight_abroad = Freight, { $amount }
bought-step-duty_goods = Duty, { $percent } % of { $base }
bought-step-duty_goods_and_freight = Duty, { $percent } % of goods and freight, { $base }
bought-step-brokerage = Brokerage
bought-step-landed = Landed cost
bought-step-whole = { $cost } × { $x }
bought-step-first = The first { $cost } × { $x }
bought-step-above = What is above { $bottom }: { $cost } × { $x }
bought-step-floor = Not below the highest price of the band below
bought-step-sells_own = Own selling price of the workshop
bought-step-stepped = { $price } rounded up to a multiple of { $step }
bought-step-sells = Sells for
bought-step-tax = Tax inside it
bought-step-net = Before tax
bought-step-charged = This quote charges for { $quantity }, before tax
bought-step-less_cost = Less landed cost
bought-step-less_cost_of = Less the landed cost of { $quantity }
bought-step-profit = Profit before tax
