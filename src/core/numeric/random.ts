const twoTo32 = 2 ** 32

/** Strips of equal area under exp(-x x / 2), right edges falling from the first; the last edge is 0. */
const strips = 256
const stripEdge = 3.6541528853610088
const stripArea = 0.00492867323399

function buildStrips(): { readonly edge: Float64Array; readonly height: Float64Array } {
  const edge = new Float64Array(strips + 1)
  const height = new Float64Array(strips + 1)
  edge[0] = stripArea / Math.exp(-0.5 * stripEdge * stripEdge)
  edge[1] = stripEdge
  for (let i = 2; i < strips; i++) {
    const x = edge[i - 1]!
    edge[i] = Math.sqrt(-2 * Math.log(stripArea / x + Math.exp(-0.5 * x * x)))
  }
  edge[strips] = 0
  for (let i = 0; i <= strips; i++) height[i] = Math.exp(-0.5 * edge[i]! * edge[i]!)
  return { edge, height }
}

const { edge, height } = buildStrips()

/**
 * A seeded stream of random numbers: the same seed and name give the same numbers on every machine. It is for sampling,
 * not for secrets.
 *
 * The generator is sfc32 (128 bits of state with a counter, so that a period is never shorter than 2^32). Streams of
 * different names from one seed do not repeat each other.
 *
 * @see C. Doty-Humphrey, PractRand (2010 and later), sfc32
 */
export class Random {
  #a: number
  #b: number
  #c: number
  #d = 1
  #rare: Random | undefined

  /**
   * @param seed any number; its fraction is not looked at
   * @param name which of the streams of this seed
   */
  constructor(seed: number, name = '') {
    const text = `${Math.trunc(seed)}\n${name}`
    this.#a = hash(text, 0x9e3779b9)
    this.#b = hash(text, 0x243f6a88)
    this.#c = hash(text, 0xb7e15162)
    for (let i = 0; i < 15; i++) this.word()
  }

  /** 32 random bits, as a number from 0 to 2^32 - 1. */
  word(): number {
    const t = (((this.#a + this.#b) | 0) + this.#d) | 0
    this.#d = (this.#d + 1) | 0
    this.#a = this.#b ^ (this.#b >>> 9)
    this.#b = (this.#c + (this.#c << 3)) | 0
    this.#c = (((this.#c << 21) | (this.#c >>> 11)) + t) | 0
    return t >>> 0
  }

  /** Evenly between 0 and 1, neither reached. */
  uniform(): number {
    return (this.word() + 0.5) / twoTo32
  }

  /** A whole number from 0 to `count` - 1, each equally likely. */
  integer(count: number): number {
    const most = twoTo32 - (twoTo32 % count)
    let w = this.word()
    while (w >= most) w = this.word()
    return w % count
  }

  /** Evenly between 0 and 1, neither reached. */
  fillUniform(into: Float64Array): void {
    let a = this.#a | 0
    let b = this.#b | 0
    let c = this.#c | 0
    let d = this.#d | 0
    for (let i = 0; i < into.length; i++) {
      const t = (((a + b) | 0) + d) | 0
      d = (d + 1) | 0
      a = b ^ (b >>> 9)
      b = (c + (c << 3)) | 0
      c = (((c << 21) | (c >>> 11)) + t) | 0
      into[i] = ((t >>> 0) + 0.5) / twoTo32
    }
    this.#a = a
    this.#b = b
    this.#c = c
    this.#d = d
  }

  /**
   * Standard normal values.
   *
   * @see G. Marsaglia and W. W. Tsang, The ziggurat method for generating random variables, J. Stat. Software 5 (2000) 8
   */
  fillNormal(into: Float64Array): void {
    // the few values near an edge draw on a stream of their own, so that this one stays in local variables
    this.#rare ??= new Random(this.word(), 'near an edge')
    const rare = this.#rare
    let a = this.#a | 0
    let b = this.#b | 0
    let c = this.#c | 0
    let d = this.#d | 0
    for (let i = 0; i < into.length; i++) {
      // two steps of the generator: one picks the strip, both make the number
      const t = (((a + b) | 0) + d) | 0
      a = b ^ (b >>> 9)
      b = (c + (c << 3)) | 0
      c = (((c << 21) | (c >>> 11)) + t) | 0
      const s = (((a + b) | 0) + ((d + 1) | 0)) | 0
      d = (d + 2) | 0
      a = b ^ (b >>> 9)
      b = (c + (c << 3)) | 0
      c = (((c << 21) | (c >>> 11)) + s) | 0
      const strip = s & 255
      const x = (t * 2 ** -31 + (s >>> 12) * 2 ** -51) * edge[strip]!
      if (Math.abs(x) < edge[strip + 1]!) into[i] = x
      else into[i] = rare.#nearEdge(strip, Math.abs(x)) * (t < 0 ? -1 : 1)
    }
    this.#a = a
    this.#b = b
    this.#c = c
    this.#d = d
  }

  /** The rare cases of the ziggurat: the curved end of a strip, and the tail beyond the last. */
  #nearEdge(strip: number, x: number): number {
    let s = strip
    let y = x
    for (;;) {
      if (s === 0) return this.#tail()
      if (height[s]! + this.uniform() * (height[s + 1]! - height[s]!) < Math.exp(-0.5 * y * y)) return y
      s = this.word() & 255
      y = this.uniform() * edge[s]!
      if (y < edge[s + 1]!) return y
    }
  }

  #tail(): number {
    for (;;) {
      const x = -Math.log(this.uniform()) / stripEdge
      const y = -Math.log(this.uniform())
      if (y + y >= x * x) return stripEdge + x
    }
  }

  /** Evenly spread about 0 with standard deviation 1: between plus and minus the root of 3. */
  fillRectangular(into: Float64Array): void {
    this.fillUniform(into)
    const width = 2 * Math.sqrt(3)
    for (let i = 0; i < into.length; i++) into[i] = (into[i]! - 0.5) * width
  }

  /** Triangular about 0 with standard deviation 1: between plus and minus the root of 6. */
  fillTriangular(into: Float64Array): void {
    this.fillUniform(into)
    const half = Math.sqrt(6)
    for (let i = 0; i < into.length; i++) {
      const u = into[i]!
      into[i] = half * (u < 0.5 ? Math.sqrt(2 * u) - 1 : 1 - Math.sqrt(2 - 2 * u))
    }
  }

  /** Arcsine (U-shaped) about 0 with standard deviation 1: between plus and minus the root of 2. */
  fillArcsine(into: Float64Array): void {
    this.fillUniform(into)
    for (let i = 0; i < into.length; i++) into[i] = Math.SQRT2 * Math.sin(Math.PI * (into[i]! - 0.5))
  }

  /**
   * Student's t, not scaled: its standard deviation is above 1, and infinite up to 2 degrees of freedom.
   *
   * @see R. W. Bailey, Polar generation of random variates with the t-distribution, Math. Comp. 62 (1994) 779-781
   */
  fillStudent(into: Float64Array, dof: number): void {
    const power = -2 / dof
    for (let i = 0; i < into.length; i++) {
      let u = 0
      let w = 0
      do {
        u = 2 * this.uniform() - 1
        const v = 2 * this.uniform() - 1
        w = u * u + v * v
      } while (w >= 1)
      into[i] = u * Math.sqrt((dof * (w ** power - 1)) / w)
    }
  }
}

/** 32 well-mixed bits from a text (FNV-1a, then the finish of MurmurHash3). */
function hash(text: string, start: number): number {
  let h = start | 0
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193)
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b)
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35)
  return h ^ (h >>> 16)
}
