// The quote's words come with its screens; a place's other screens do without.
import { learn } from '../../../lib/text'
import { quote } from '../../../lib/words/quote'

learn(quote)
