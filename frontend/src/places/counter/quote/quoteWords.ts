// Loads the words of a quote only with its screens.

import quote from '../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../lib/text/text'

learn(quote)
