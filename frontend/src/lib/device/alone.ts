/** Runs `act` while no other tab runs one of this name (Web Locks). */
export async function alone<T>(name: string, act: () => Promise<T>): Promise<T> {
  if (typeof navigator === 'undefined' || !navigator.locks) return act()
  return (await navigator.locks.request(name, act)) as T
}
