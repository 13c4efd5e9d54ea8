// The quote's words come with its screens; a place's other screens do without.

import quote from '../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../lib/text/text'

learn(quote)
