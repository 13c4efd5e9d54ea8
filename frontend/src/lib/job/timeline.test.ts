import { expect, test } from 'vitest'
import { type Promised, picture } from './timeline'

// Two weeks from Thu 3 Dec 2026, open 08:00 to 16:00 UTC, closed at weekends.
const run = (length: number) => Array.from({ length }, (_, i) => dayAt(i))
function dayAt(i: number) {
  const day = new Date(Date.UTC(2026, 11, 3 + i)).toISOString().slice(0, 10)
  const open = ![0, 6].includes(new Date(`${day}T12:00Z`).getUTCDay())
  return {
    day,
    words: day,
    opens: open ? `${day}T08:00:00Z` : null,
    closes: open ? `${day}T16:00:00Z` : null,
  }
}
const days = run(12)
type Step = [start: string, end: string, until?: string]
const booked = ([start, end, until]: Step) => ({
  code: 'A',
  position: 1,
  title: 'A',
  hours: '1.0',
  start,
  end,
  until: until ?? null,
})
const promise = (schedule: Step[], coming: [title: string, at: string | null][] = []): Promised =>
  ({
    since: '2026-12-03T08:00:00Z',
    ready: { day: '2026-12-14', half: 'morning', at: '2026-12-14T12:00:00Z', words: '' },
    days,
    schedule: schedule.map(booked),
    coming: coming.map(([title, at]) => ({ title, at, operation: '', words: title })),
  }) as unknown as Promised

const drawn = (...changes: Parameters<typeof promise>) => picture(promise(...changes), 872) as never as Drawn
type Drawn = NonNullable<ReturnType<typeof picture>>
const unit = 72 // 8 open days and 4 narrow ones fill less than the width at the largest column

test('days are columns, closed ones narrow, and a week begins on its Monday', () => {
  const { columns, weeks, width } = drawn([])
  expect(columns).toHaveLength(12)
  expect(columns.filter(({ open }) => !open)).toHaveLength(4)
  expect((columns[2] as Drawn['columns'][0]).width).toBeLessThan(unit / 2)
  expect(weeks.map(({ day, monday, named }) => [day, monday, named])).toEqual([
    ['2026-12-03', false, true],
    ['2026-12-07', true, true],
    ['2026-12-14', true, false], // its name would cross the edge
  ])
  expect(width).toBeGreaterThanOrEqual(872)
})

test('where weeks are narrow, every other one is named', () => {
  const { weeks = [] } = picture({ ...promise([]), days: run(40) }, 10) ?? {}
  expect(weeks.filter(({ named }) => named).map(({ day }) => day)).toEqual(['2026-12-07', '2026-12-21'])
})

test('work over a weekend is cut where the shop is closed', () => {
  const { work, columns } = drawn([['2026-12-04T12:00:00Z', '2026-12-07T12:00:00Z']])
  const [friday, monday] = [columns[1], columns[4]] as [Drawn['columns'][0], Drawn['columns'][0]]
  expect(work).toEqual([
    { x: friday.x + friday.width / 2, width: friday.width / 2 },
    { x: monday.x, width: monday.width / 2 },
  ])
})

test('a wait goes on over the weekend', () => {
  const { waits, columns } = drawn([['2026-12-04T12:00:00Z', '2026-12-04T16:00:00Z', '2026-12-07T08:00:00Z']])
  const [saturday, monday] = [columns[2], columns[4]] as [Drawn['columns'][0], Drawn['columns'][0]]
  expect(waits).toHaveLength(1)
  expect(waits[0]?.x).toBeCloseTo(saturday.x)
  expect((waits[0]?.x ?? 0) + (waits[0]?.width ?? 0)).toBeCloseTo(monday.x)
})

test('what comes on one day is one numbered mark, in the order of the days; what has no date is none', () => {
  const { arrivals } = drawn(
    [],
    [
      ['late', '2026-12-08T16:00:00Z'],
      ['soon', '2026-12-04T16:00:00Z'],
      ['too', '2026-12-08T10:00:00Z'],
      ['too', '2026-12-08T10:00:00Z'],
      ['never', null],
    ],
  )
  expect(arrivals.map(({ number, titles }) => [number, titles])).toEqual([
    [1, ['soon']],
    [2, ['too', 'late']],
  ])
})

test('many days are drawn wider than the room there is; none are no picture', () => {
  expect(picture(promise([]), 100)?.width).toBeGreaterThan(100)
  expect(picture({ ...promise([]), days: [] }, 100)).toBeNull()
})
