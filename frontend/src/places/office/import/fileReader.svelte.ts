import { type Answer, commandId, type Problem, write } from '../../../lib/api/client'
import type { Shape } from '../../../lib/api/types'
import { t } from '../../../lib/text/text'

export type Import = Shape<'ImportOut'>
export type Mapping = Record<string, string>

/**
 * A file that a person gave. It is kept while the page is open, so that other columns need no second choice of the
 * file.
 */
export interface SourceFile {
  kind: string
  file: File
  /** Further files of the same list: carton A.csv and carton B.csv. */
  more?: File[]
  supplier: string
  mapping: Mapping
}

const sources = new Map<string, SourceFile>()

/** Returns the source of a reading, if it was chosen on this page. */
export function sourceOf(id: string): SourceFile | undefined {
  return sources.get(id)
}

/** One file being read: the seconds that it has taken, and the server's refusal. */
export class Reader {
  name = $state('')
  seconds = $state(0)
  problem = $state.raw<Problem | null>(null)

  get busy(): boolean {
    return this.name !== ''
  }

  /** Sends a file to be read. Returns the id of the reading, or null with `problem` set. */
  async read(what: SourceFile): Promise<string | null> {
    if (this.busy) return null
    this.name = what.file.name
    this.seconds = 0
    this.problem = null
    const clock = setInterval(() => this.seconds++, 1000)
    const answer = tooLarge([what.file, ...(what.more ?? [])]) ?? (await send(what))
    clearInterval(clock)
    this.name = ''
    if (!answer.ok) {
      this.problem = answer.problem
      return null
    }
    sources.set(answer.data.id, what)
    return answer.data.id
  }
}

/** The largest file, in MiB, that the server reads. A larger one is refused without sending it. */
export const MIB = 5

function tooLarge(files: File[]): Refused | null {
  return files.reduce((bytes, file) => bytes + file.size, 0) > MIB * 1024 * 1024
    ? refused('office.too_large', t('office.too_large.detail', { mib: MIB }))
    : null
}

type Refused = Extract<Answer<Import>, { ok: false }>

function refused(title: 'office.too_large' | 'office.gone', detail: string): Refused {
  return { ok: false, problem: { type: 'file', title: t(title), status: 400, detail } }
}

// The command ids of files: a file sent again without an answer is the same command.
const names = new WeakMap<SourceFile, string>()
// A copy of each file as first read. Other columns are read from the copy, even if the file has changed since.
const copies = new WeakMap<File, File>()

async function send(what: SourceFile): Promise<Answer<Import>> {
  const id = names.get(what) ?? commandId()
  names.set(what, id)
  const files = await Promise.all([what.file, ...(what.more ?? [])].map(hold)).catch(() => [])
  const [file, ...more] = files
  if (!file) return refused('office.gone', t('office.gone.detail'))
  return write('post', 'imports', {}, form({ ...what, file, more }), { id })
}

async function hold(file: File): Promise<File> {
  const copy = copies.get(file) ?? new File([await file.arrayBuffer()], file.name, { type: file.type })
  copies.set(file, copy)
  return copy
}

export function form({ kind, file, more = [], supplier, mapping }: SourceFile): FormData {
  const body = new FormData()
  body.set('kind', kind)
  body.set('file', file)
  for (const other of more) body.append('file', other)
  if (supplier.trim()) body.set('supplier', supplier.trim())
  if (Object.keys(mapping).length) body.set('mapping', JSON.stringify(mapping))
  return body
}
