import { svelte } from '@sveltejs/vite-plugin-svelte'
import { defineConfig } from 'vitest/config'
import { fluent } from './build/fluent.ts'
import { precache } from './build/precache.ts'
import { projects } from './build/tests.ts'

const base = '/static/app/'

export default defineConfig(({ command }) => ({
  base: command === 'build' ? base : '/',
  plugins: [fluent('src/lib/messages/en-GB'), svelte({ configFile: false }), precache(base)],
  build: {
    target: 'es2022',
    manifest: true,
    assetsInlineLimit: 0,
    reportCompressedSize: true,
    modulePreload: { polyfill: false },
    rollupOptions: {
      input: { index: 'index.html', sw: 'src/worker/sw.ts' },
      output: {
        entryFileNames: (chunk) => (chunk.name === 'sw' ? 'sw.js' : 'assets/[name]-[hash:7].js'),
        chunkFileNames: 'assets/s-[hash:7].js', // the first JavaScript lists all of them: names are half a kilobyte
        assetFileNames: 'assets/[name]-[hash:7][extname]',
      },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:8000', '/q': 'http://127.0.0.1:8000' } },
  test: { environment: 'node', projects: projects('src') },
}))
