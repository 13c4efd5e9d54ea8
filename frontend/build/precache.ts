import { createHash } from 'node:crypto'
import type { Plugin } from 'vite'

const LEFT_OUT = /\.map$|(^|\/)(sw\.js|index\.html)$|^\.vite\//

/** Returns a plugin that writes the list of built files, and a version derived from them, into sw.js. */
export function precache(base: string): Plugin {
  return {
    name: 'precache',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const worker = bundle['sw.js']
        if (worker?.type !== 'chunk') return this.error('sw.js is no chunk of this build')
        if (worker.imports.length)
          return this.error(`sw.js must stand alone, but imports ${worker.imports.join(', ')}`)
        const files = Object.keys(bundle)
          .filter((name) => !LEFT_OUT.test(name))
          .sort()
        const shell = bundle['index.html']
        const version = createHash('sha256')
          .update(files.join())
          .update(shell?.type === 'asset' ? shell.source : '')
          .update(worker.code)
          .digest('hex')
          .slice(0, 12)
        worker.code = worker.code
          .replace('__FILES__', JSON.stringify(files.map((name) => base + name)))
          .replaceAll('__VERSION__', JSON.stringify(version))
      },
    },
  }
}
