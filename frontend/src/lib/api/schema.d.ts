// Made by `make openapi` from frontend/openapi.json.
interface Op<D, Q = undefined, B = undefined, P = { slug: string }> {
  parameters: { path: P; query?: Q }
  requestBody?: { content: { 'application/json': B } }
  responses: { 200: { content: { 'application/json': D } } }
}
interface QuoteRow {
  id: string; number: string; state: string; issue: number
  customer: string | null; vehicle: string | null; kits: string[]; gross: string | null
  sent_at: string | null; valid_until: string | null; changed_at: string
}
interface Found {
  kind: string; id: string; title: string; detail: string; state: string | null; amount: string | null
  customer: string | null; vehicle: string | null; quote: string | null; pull_list: string | null
  vehicles?: { id: string; title: string }[]
}
interface QuoteOut { id: string; number: string }
type At = { slug: string; id: string }
export interface paths {
  '/api/v1/shops/{slug}/find': { get: Op<{ items: Found[] }, { q?: string }> }
  '/api/v1/shops/{slug}/counter': { get: Op<{ answers: QuoteRow[]; lapsing: QuoteRow[]; laid_aside: QuoteRow[] }> }
  '/api/v1/shops/{slug}/quotes': { get: Op<{ items: QuoteRow[] }, { q?: string; state?: string }>; post: Op<QuoteOut, undefined, { kits: string[]; customer?: string | null; vehicle?: string | null }> }
  '/api/v1/shops/{slug}/quotes/{id}': { get: Op<QuoteOut, undefined, undefined, At>; patch: Op<QuoteOut, undefined, { customer?: string | null }, At> }
}
export interface components { schemas: { QuoteOut: QuoteOut } }
