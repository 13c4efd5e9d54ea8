### Coolant: the circuits of a vehicle and the mix in the bay.

## circuit

circuit-title =
    { $of ->
        [coolant] Coolant
        [charge_cooling] Charge cooling
       *[other] { $own }
    }
circuit-ethylene = ethylene glycol
circuit-propylene = propylene glycol
circuit-capacity_unknown = not recorded
circuit-capacity_sold = from the quote
circuit-capacity_stated = from the vehicle's page
circuit-capacity_corrected = from the vehicle's page now; the quote had { $sold } L

## mix

mix-fill = Add { $concentrate } L of concentrate and { $water } L of water.
mix-nothing = Nothing to add: it is already at { $target } %.
mix-drain_more = { $target } % cannot be reached yet.
mix-drain_more_why = Too much old, weak coolant is still in the system.
mix-drain_more_remedy = Drain at least { $at_least } L in all, { $more } L more than now, then fill with { $fill } L of pure concentrate.
mix-too_strong = It would be stronger than { $target } %.
mix-too_strong_why = Too much old, strong coolant is still in the system.
mix-too_strong_remedy = Drain at least { $at_least } L in all, { $more } L more than now, then fill with { $fill } L of pure water.
mix-protects = At { $percent } % it freezes at about { $degrees } °C.
mix-protects_beyond = The freeze point at { $percent } % is not known: our table ends before it.
mix-protects_unknown = The freeze point at { $percent } % is not known: the concentrate's specification names no glycol.
mix-premix_only = Premix alone brings it to { $percent } %.
mix-premix_only_protects = Premix alone brings it to { $percent } %, which freezes at about { $degrees } °C.
mix-capacity_unknown = The capacity of this vehicle's { $circuit } circuit is not recorded. Ask the counter to add it to the vehicle.
mix-glycol_unknown = The concentrate's specification names no glycol, so degrees cannot be used. Read the % scale.
mix-drained_too_much = The system holds { $capacity } L. Enter 0 to { $capacity }.
mix-reading_percent = A concentration is 0 to 100 %. Read it again.
mix-reading_celsius = Degrees can be used from { $warmest } to { $coldest } °C only. Read the % scale.

mix-premix-concentrate = Add { $premix } L of premix at { $percent } % and { $litres } L of concentrate.
mix-premix-water = Add { $premix } L of premix at { $percent } % and { $litres } L of water.
mix-premix-alone = Add { $premix } L of premix at { $percent } %.

mix-how-title = { $circuit }: the mix
mix-how-holds = The circuit holds, { $why }
mix-how-after = With what the kits add: { $capacity } + { $added }
mix-how-stays = Left in: { $capacity } held − { $drained } drained
mix-how-degrees = { $degrees } °C was read: the concentration that begins to freeze there
mix-how-percent = { $percent } %
mix-how-fill = To add: { $after } − { $stays }
mix-how-concentrate = Concentrate: { $after } × { $target } % − { $stays } × { $strength } %
mix-how-water = Water: { $fill } − { $concentrate }
mix-how-freezes = Begins to freeze at { $target } %, from the table
mix-how-celsius = { $degrees } °C
mix-how-drain = Drain at least: { $capacity } − { $may_stay }
mix-how-litres = { $litres } L
mix-how-result = { $concentrate } L + { $water } L

mix-how-may_stay-drain_more = Old coolant that may stay: { $after } × (100 % − { $target } %) ÷ (100 % − { $strength } %)
mix-how-may_stay-too_strong = Old coolant that may stay: { $after } × { $target } % ÷ { $strength } %

mix-how-rule-1 = What stays in is what the circuit holds, less what ran out.
mix-how-rule-2 = Concentrate is what the whole circuit needs for its target, less what the old coolant brings.
mix-how-rule-3 = The rest is water. Volumes are added as they are; the freeze point is read from a table by volume. What to pour is rounded, so that a jug can measure it.
