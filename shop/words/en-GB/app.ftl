### The app itself, sign-in, jobs, attributes of a vehicle, days and VINs.

## app

app-foreign_form = This form has expired. Go back, reload and send it again.
app-not_built = The app has not been built yet. Run `make demo`.
app-not_found = Page not found. Check the address, or go back.
app-unforeseen = Something went wrong on our side. Nothing was changed as far as we know. Check before you try again.

## password

password-too_long = A password has at most { $n } characters.
password-too_plain = This password is too simple: use at least { $n } different characters, spaces not counted.
password-own = This password is made of your own name, your e-mail address or the name of your workshop. Choose another.

## job

job-high_voltage = High voltage. Only a trained person isolates this vehicle, locks it and proves that it is dead before anybody works near the system. The vehicle manufacturer's instructions come first.
job-wheel_check = Wheels came off: tell the customer to have the torque of the wheel fasteners checked after { $distance }.

## day

day-at = { $day }, { $time }
day-due = { $day } { $time }
day-short_morning = { $day }, morning
day-short_afternoon = { $day }, afternoon
day-morning = { $day }, in the morning
day-afternoon = { $day }, in the afternoon

## owner

owner-recorded = since { $day }; recorded by { $by } on { $at }
owner-recorded_here = since { $day }; recorded on { $at }
owner-of_draft = { $vehicle } has belonged to { $owner } since { $day }. This quote is for { $customer }: change the customer if that is wrong.

## vin

vin-valid = The check digit is right.
vin-not_checkable = No check digit is used here.
vin-check_digit_wrong = The check digit does not match. Compare it with the vehicle again.
vin-malformed = A VIN has 17 letters and digits, without I, O and Q.
vin-suggested = A VIN never contains I, O or Q. Did you mean { $suggestion }?

vin-how-title = Check of the VIN
vin-how-characters = Number of characters
vin-how-not_allowed = Never in a VIN
vin-how-malformed = Saved as typed, with a warning
vin-how-values = Value of each character, a digit for itself
vin-how-sum = Each value times its position weight, added up: { $products }
vin-how-remainder = { $total } divided by 11 leaves
vin-how-should = So position 9 should be
vin-how-is = Position 9 is
vin-how-wrong = Saved as typed, with a warning

vin-how-rule-marks = A VIN has 17 characters: digits, and letters without I, O and Q, which look like 1 and 0.
vin-how-rule-digit = Each character has a value and each position a weight. The values times the weights are added up, the sum is divided by 11, and the remainder has to be at position 9.
vin-how-rule-ten = If the remainder is 10, position 9 is an X. Vehicles sold outside North America need not follow this.
vin-how-rule-kept = This is only a warning: the VIN is saved as typed.

## attribute

attribute-transmission = gearbox
