import { recall, remember } from '../../../lib/device/database'

const key = (job: string) => `step in hand of ${job}`

/** Returns the step named by the hash of an address: "…#step-14" gives "step-14". */
export const namedStep = (hash: string): string | undefined => /^#(step-\d+)$/.exec(hash)?.[1]

/** The chosen step of a job on this phone, such as "step-14": from the address, else the last one kept. */
export class ChosenStep {
  name = $state<string>()
  private asked = $state(false)
  private job = ''

  async open(job: string, named: string | undefined): Promise<void> {
    this.job = job
    this.name = named
    this.asked = false
    const remembered = await recall<string>(key(job)).catch(() => undefined)
    if (job !== this.job) return
    this.name ??= remembered
    this.asked = true
  }

  /** Keeps the shown step if nobody has chosen one. Waits until the kept step was read. */
  stay(name: string): void {
    if (this.asked) this.name ??= name
  }

  choose(name: string): void {
    this.name = name
    void remember(key(this.job), name).catch(() => {}) // without a database it lasts as long as the screen
  }
}
