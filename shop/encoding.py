"""How an answer is written as JSON.

UTF-8, an instant in UTC with Z, a Decimal as text. An instant of another zone would keep its offset, so answers hold
`shop.answers.base.Instant` and plain data the text of `iso`.
"""

import msgspec

encode = msgspec.json.Encoder(decimal_format="string").encode
