// Formats instants in the shop's time zone. A date includes its weekday.

import { tag } from './language'
import { t } from './text'

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

/**
 * Formats a date: "Fri 11 Dec". A bare date (ten characters) has no zone. Adds the year if it is not the present one.
 */
export function day(value: string, zone?: string, now = new Date()): string {
  const when = instant(value)
  const used = value.length === 10 ? 'UTC' : zone
  const thisYear = when.getUTCFullYear() === now.getUTCFullYear()
  return format(used, thisYear ? DAY : { ...DAY, year: 'numeric' })
    .format(when)
    .replace(',', '') // after the weekday, like the server
}

/** Formats a date with its year, for what stays valid over years: "Tue 1 Sept 2026". */
export function dated(value: string, zone?: string): string {
  return day(value, zone, new Date(0))
}

/** Formats a date and time: "Fri 11 Dec, 15:00". */
export function moment(value: string, zone?: string, now = new Date()): string {
  return t('day.at', { day: day(value, zone, now), time: clock(value, zone) })
}

/** Formats a time: "15:00". */
export function clock(value: string, zone?: string): string {
  return format(zone, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(instant(value))
}

/** Returns the time since an instant in its largest unit, for "4 min", "4 h", "2 d". */
export function since(value: string, now = new Date()): { unit: 'minutes' | 'hours' | 'days'; n: number } {
  const minutes = Math.max(0, Math.floor((now.getTime() - instant(value).getTime()) / 60_000))
  if (minutes < 60) return { unit: 'minutes', n: minutes }
  if (minutes < 48 * 60) return { unit: 'hours', n: Math.floor(minutes / 60) }
  return { unit: 'days', n: Math.floor(minutes / 1440) }
}

/** Returns the present day in a zone, for a date field: "2026-12-11". */
export function dateIn(zone?: string, now = new Date()): string {
  const parts = new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' })
  return parts.format(now)
}
