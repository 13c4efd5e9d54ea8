import './app.css'
import { mount } from 'svelte'
import App from './App.svelte'
import { watchChanges } from './lib/feed.svelte'
import { watchConnection } from './lib/online.svelte'
import { layPaper } from './lib/paper'
import { watchResources } from './lib/resource.svelte'
import { watchAddress } from './lib/router.svelte'
import { watchSession } from './lib/session.svelte'
import { watchForUpdates } from './lib/updates.svelte'

layPaper()
watchConnection()
watchAddress()
watchSession()
watchResources()
watchChanges()
mount(App, { target: document.getElementById('app') as HTMLElement })
void watchForUpdates()
void navigator.storage?.persist?.()
void import('./lib/counts/watch').then(({ watchCounts }) => watchCounts())
