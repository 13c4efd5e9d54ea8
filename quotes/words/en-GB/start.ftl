### The guided start: the steps from an empty shop to its first quote.

start-hours = Opening hours and holidays
start-hours-why = Dates for customers are worked out from these. Most workshops change little here.
start-hours-example = Example: Monday to Friday 8:00 to 17:30, and the holidays of your country.
start-rates = Rates by skill
start-rates-why = The rules began with example rates. Enter what an hour of your work costs the customer.
start-rates-example = Example: mechanical 99.00 an hour, programming 130.00.
start-taxes = Taxes
start-taxes-why = The rules began with a tax of 0 %. Enter your own rate, or leave this for later if you charge none.
start-taxes-example = Example: one row of 20 %. Your tax adviser knows the rate.
start-people = People
start-people-why = Each person has a sign-in of their own. You invite them with a link that you hand over.
start-people-example = Example: one advisor for the counter, one technician for the bay.
start-kit = First kit
start-kit-why = A price and hours are enough for a quote: under “A kit with only a price and hours”. Contents can come later and give you a pull list.
start-kit-example = Example: front brake kit, 1,240.00, 5.2 hours.
start-labour = First labour
start-labour-why = Steps with hours share work between kits and give a better date. A kit with hours of its own needs none.
start-labour-example = Example: wheels off and on, mechanical, 0.6 hours. You can import many of them at once: “Labour” under “Import a file”.
start-quote = First quote
start-quote-why = Choose a kit, add the customer, and send the link.
start-quote-example = Example: a customer's name and telephone are enough.
