// Shapes agreed on before their endpoints were there. Each goes as soon as the OpenAPI document has it.
import './schema'

interface Op<D, Q = never, B = never, P = { slug: string }> {
  parameters: { path: P; query?: Q }
  requestBody?: { content: { 'application/json': B } }
  responses: { 200: { content: { 'application/json': D } } }
}

interface QuoteRow {
  id: string
  number: string
  state: string
  issue: number
  customer: string | null
  vehicle: string | null
  kits: string[]
  gross: string | null
  sent_at: string | null
  valid_until: string | null
  changed_at: string
}

interface Found {
  kind: 'customer' | 'vehicle' | 'quote' | 'kit' | 'part' | 'job'
  id: string
  title: string
  detail: string
  state: string | null
  amount: string | null
  customer: string | null
  vehicle: string | null
  quote: string | null
  pull_list: string | null
  vehicles?: { id: string; title: string }[]
}

declare module './schema' {
  interface paths {
    '/api/v1/shops/{slug}/find': { get: Op<{ items: Found[] }, { q?: string }> }
    '/api/v1/shops/{slug}/counter': {
      get: Op<{ answers: QuoteRow[]; lapsing: QuoteRow[]; laid_aside: QuoteRow[] }>
    }
    '/api/v1/shops/{slug}/quotes': {
      post: Op<{ id: string }, never, { kits: string[]; customer?: string | null; vehicle?: string | null }>
    }
  }
}
