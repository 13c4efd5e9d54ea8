// The findings of reading a file, as a list to filter and to download.
import type { Shape } from '../../../lib/api/types'
import { t } from '../../../lib/text/text'

export type Finding = Shape<'FindingOut'>
export const WEIGHTS = ['must_fix', 'please_check', 'done_for_you'] as const
export type Weight = (typeof WEIGHTS)[number]

/** Returns where a finding is, for the margin: a cell, a row, a column or the sheet. */
export function place(finding: Finding): string {
  if (finding.cell) return finding.cell
  if (finding.row) return String(finding.row)
  return finding.column
}

/** Returns the list as CSV, with a byte-order mark so that spreadsheets read UTF-8. */
export function asCsv(findings: readonly Finding[]): string {
  const head = ['weight', 'sheet', 'cell', 'words', 'remedy', 'says'] as const
  const rows = [
    head.map((name) => t(`office.problems.head.${name}`)),
    ...findings.map((finding) => [
      t(`state.${finding.weight}`),
      finding.sheet,
      place(finding),
      finding.words,
      finding.remedy,
      finding.says,
    ]),
  ]
  return `\uFEFF${rows.map((row) => row.map(field).join(',')).join('\r\n')}\r\n`
}

/** Escapes a cell that begins like a formula, which a spreadsheet would run. */
function field(text: string): string {
  const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}

/** Downloads a file that was made in the browser. */
export function save(name: string, text: string): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }))
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000)
}
