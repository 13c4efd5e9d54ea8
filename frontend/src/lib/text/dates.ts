// Words instants in the shop's own zone. A date carries its weekday.

import { tag } from './language'

const formats = new Map<string, Intl.DateTimeFormat>()

function format(zone: string | undefined, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${tag} ${zone} ${JSON.stringify(options)}`
  let formatter = formats.get(key)
  if (!formatter) {
    formatter = new Intl.DateTimeFormat(tag, { timeZone: zone, ...options })
    formats.set(key, formatter)
  }
  return formatter
}

const DAY: Intl.DateTimeFormatOptions = { weekday: 'short', day: 'numeric', month: 'short' }

function instant(value: string): Date {
  return new Date(value.length === 10 ? `${value}T12:00:00Z` : value)
}

/** "Fri 11 Dec"; a bare date (ten characters) belongs to no zone. The year is added when it is not this one. */
export function day(value: string, zone?: string, now = new Date()): string {
  const when = instant(value)
  const used = value.length === 10 ? 'UTC' : zone
  const thisYear = when.getUTCFullYear() === now.getUTCFullYear()
  return format(used, thisYear ? DAY : { ...DAY, year: 'numeric' })
    .format(when)
    .replace(',', '') // after the weekday, as the server writes it
}

/** "Tue 1 Sept 2026": with its year, whichever it is, for what stays valid over years. */
export function dated(value: string, zone?: string): string {
  return day(value, zone, new Date(0))
}

/** "Fri 11 Dec, 15:00" */
export function moment(value: string, zone?: string, now = new Date()): string {
  return `${day(value, zone, now)}, ${clock(value, zone)}`
}

/** "15:00" */
export function clock(value: string, zone?: string): string {
  return format(zone, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(instant(value))
}

/** How long ago, in the short form of a margin: "4 min", "4 h", "2 d". */
export function since(value: string, now = new Date()): { unit: 'minutes' | 'hours' | 'days'; n: number } {
  const minutes = Math.max(0, Math.floor((now.getTime() - instant(value).getTime()) / 60_000))
  if (minutes < 60) return { unit: 'minutes', n: minutes }
  if (minutes < 48 * 60) return { unit: 'hours', n: Math.floor(minutes / 60) }
  return { unit: 'days', n: Math.floor(minutes / 1440) }
}
