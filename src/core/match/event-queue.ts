/** A queue of events by time, earliest first; of one time, lowest event number first, so that the order is always the same. */
export class EventQueue {
  #times = new Float64Array(1024)
  #events = new Int32Array(1024)
  length = 0

  clear(): void {
    this.length = 0
  }

  /** Time of the earliest event. */
  get time(): number {
    return this.length === 0 ? Number.POSITIVE_INFINITY : this.#times[0]!
  }

  push(time: number, event: number): void {
    if (this.length === this.#times.length) this.#grow()
    const times = this.#times
    const events = this.#events
    let i = this.length++
    while (i > 0) {
      const up = (i - 1) >> 2
      const t = times[up]!
      if (t < time || (t === time && events[up]! <= event)) break
      times[i] = t
      events[i] = events[up]!
      i = up
    }
    times[i] = time
    events[i] = event
  }

  /** Takes the earliest event out. */
  pop(): number {
    const events = this.#events
    const first = events[0]!
    const last = --this.length
    if (last > 0) this.#sink(this.#times[last]!, events[last]!)
    return first
  }

  #sink(time: number, event: number): void {
    const times = this.#times
    const events = this.#events
    const n = this.length
    let i = 0
    for (;;) {
      const first = 4 * i + 1
      if (first >= n) break
      const end = Math.min(first + 4, n)
      let least = first
      for (let c = first + 1; c < end; c++) {
        const t = times[c]!
        if (t < times[least]! || (t === times[least]! && events[c]! < events[least]!)) least = c
      }
      const t = times[least]!
      if (t > time || (t === time && events[least]! >= event)) break
      times[i] = t
      events[i] = events[least]!
      i = least
    }
    times[i] = time
    events[i] = event
  }

  #grow(): void {
    const times = new Float64Array(2 * this.#times.length)
    times.set(this.#times)
    this.#times = times
    const events = new Int32Array(2 * this.#events.length)
    events.set(this.#events)
    this.#events = events
  }
}
