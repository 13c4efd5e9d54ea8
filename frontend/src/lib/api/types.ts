// Derives the paths of one shop from the OpenAPI document, so that screens write `quotes/{id}`.
import type { components, paths } from './schema'

export type Method = 'get' | 'post' | 'put' | 'patch' | 'delete'
type Within = '/api/v1/shops/{slug}/'

/** The paths of a shop, without the prefix, that accept this method. */
export type Rel<M extends Method> = {
  [P in keyof paths]: P extends `${Within}${infer R}`
    ? paths[P] extends { [m in M]: { responses: unknown } }
      ? R
      : never
    : never
}[keyof paths]

/** The whole paths that accept this method. */
export type Whole<M extends Method> = {
  [P in keyof paths]: paths[P] extends { [m in M]: { responses: unknown } } ? P : never
}[keyof paths]

type OperationAt<M extends Method, P> = P extends keyof paths
  ? paths[P] extends { [m in M]: infer O }
    ? O
    : never
  : never

type Operation<M extends Method, P extends string> = OperationAt<M, `${Within}${P}`>

type Json<S> = S extends { content: { 'application/json': infer T } } ? T : null
type Success<R> = R extends { 200: infer S } ? Json<S> : R extends { 201: infer S } ? Json<S> : null

/** The body of a successful answer. */
export type Data<M extends Method, P extends string> =
  Operation<M, P> extends { responses: infer R } ? Success<R> : never

/** The body of a successful answer, by whole path. */
export type DataAt<M extends Method, P> =
  OperationAt<M, P> extends { responses: infer R } ? Success<R> : never

/** The parameters of a path without the shop. */
export type At<M extends Method, P extends string> =
  Operation<M, P> extends { parameters: { path: infer T } } ? Omit<T, 'slug'> : Record<never, never>

/** The body of the request. */
export type Body<M extends Method, P extends string> =
  Operation<M, P> extends { requestBody?: { content: { 'application/json': infer T } } } ? T : undefined

/**
 * A query accepts any text: numbers are text in an address, and TypeScript widens a literal in a closure to string.
 * The server refuses wrong values.
 */
type AsText<Q> = {
  [K in keyof Q]: Q[K] extends string | undefined
    ? string | undefined
    : Q[K] extends number | undefined
      ? number | string | undefined
      : Q[K]
}
type Query<P extends string> =
  Operation<'get', P> extends { parameters: { query?: infer Q } } ? AsText<Q> : undefined

export type Read<P extends string> = (keyof At<'get', P> extends never
  ? { at?: undefined }
  : { at: At<'get', P> }) & {
  query?: Query<P>
}

/** A named schema of the OpenAPI document, for props: `Shape<'QuoteOut'>`. */
export type Shape<Name extends keyof components['schemas']> = components['schemas'][Name]
