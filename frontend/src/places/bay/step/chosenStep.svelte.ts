import { recall, remember } from '../../../lib/device/database'

const key = (job: string) => `step in hand of ${job}`

/** The step that an address such as "…#step-14" names: "step-14". */
export const namedStep = (hash: string): string | undefined => /^#(step-\d+)$/.exec(hash)?.[1]

/** The step of a job that somebody took in hand on this phone, such as "step-14": the one of the address, else the last one kept. */
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

  /** Stays with what is shown where nobody chose: only once this phone was asked what it kept. */
  stay(name: string): void {
    if (this.asked) this.name ??= name
  }

  choose(name: string): void {
    this.name = name
    void remember(key(this.job), name).catch(() => {}) // without a database it lasts as long as the screen
  }
}
