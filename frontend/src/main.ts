import './app.css'
import { mount } from 'svelte'
import App from './App.svelte'
import { watchChanges } from './lib/api/feed.svelte'
import { watchResources } from './lib/api/resource.svelte'
import { watchAddress } from './lib/app/router.svelte'
import { watchSession } from './lib/app/session.svelte'
import { watchConnection } from './lib/device/connection.svelte'
import { applyTheme } from './lib/device/theme'
import { watchForUpdates } from './lib/device/updates.svelte'

applyTheme()
watchConnection()
watchAddress()
watchSession()
watchResources()
watchChanges()
mount(App, { target: document.getElementById('app') as HTMLElement })
void watchForUpdates()
void navigator.storage?.persist?.()
void import('./lib/counts/watch').then(({ watchCounts }) => watchCounts())
