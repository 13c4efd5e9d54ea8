import { render } from 'svelte/server'
import { expect, test } from 'vitest'
import Highlighted from './Highlighted.svelte'

test('matches are underlined and no space comes or goes', () => {
  const { body } = render(Highlighted, { props: { words: 'Front big-brake kit', typed: 'brakes kit' } })
  expect(body.replace(/<!--.*?-->/g, '')).toBe('Front big-<u>brake</u> <u>kit</u>')
})
