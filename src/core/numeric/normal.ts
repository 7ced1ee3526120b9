/** Value of a polynomial with coefficients from the constant up. */
function polynomial(c: readonly number[], x: number): number {
  let sum = 0
  for (let i = c.length - 1; i >= 0; i--) sum = sum * x + c[i]!
  return sum
}

const sqrtTwoPi = Math.sqrt(2 * Math.PI)

/** Density of the standard normal distribution. */
export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / sqrtTwoPi

// W. J. Cody, Rational Chebyshev approximations for the error function, Math. Comp. 23 (1969) 631-637, in the form for
// the normal distribution (ALGORITHM 715, SPECFUN, function ANORM).
const centre = {
  top: [18154.98125334356, 1067.6894854603709, 161.02823106855587, 2.2352520354606837, 0.06568233791820745],
  bottom: [45507.78933502673, 10260.932208618979, 976.0985517377767, 47.202581904688245, 1],
}
const middle = {
  top: [
    9842.714838383978, 11602.65143764735, 6848.190450536283, 2494.5375852903726, 597.2702763948002, 93.50665613217785,
    8.883149794388377, 0.39894151208813466, 1.0765576773720192e-8,
  ],
  bottom: [
    19685.429676859992, 38912.00328609327, 34900.95272114598, 18615.571640885097, 6485.558298266761, 1519.3775994075547,
    235.387901782625, 22.266688044328117, 1,
  ],
}
const far = {
  top: [
    2.9112874951168793e-5, 0.0014216191932278934, 0.0222352778706498, 0.12740116116024736, 0.215898534057957,
    0.023073441764940174,
  ],
  bottom: [7.297515550839662e-5, 0.0037823963320275824, 0.06598813786892856, 0.4682382124808651, 1.284260096144911, 1],
}

/**
 * Probability that a standard normal value lies above `z`; keeps its relative accuracy (about 1e-15) far into the tail.
 */
export function normalTail(z: number): number {
  if (Number.isNaN(z)) return Number.NaN
  if (!Number.isFinite(z)) return z > 0 ? 0 : 1
  const y = Math.abs(z)
  if (y < 0.67448975) {
    const s = z * z
    return 0.5 - (z * polynomial(centre.top, s)) / polynomial(centre.bottom, s)
  }
  const above = y <= Math.sqrt(32) ? polynomial(middle.top, y) / polynomial(middle.bottom, y) : farRatio(y)
  // exp(-y*y/2) in two factors, so that squaring loses nothing
  const coarse = Math.trunc(y * 16) / 16
  const tail = Math.exp(-coarse * coarse * 0.5) * Math.exp(-(y - coarse) * (y + coarse) * 0.5) * above
  return z > 0 ? tail : 1 - tail
}

function farRatio(y: number): number {
  const s = 1 / (y * y)
  return (1 / sqrtTwoPi - (s * polynomial(far.top, s)) / polynomial(far.bottom, s)) / y
}

/** Probability that a standard normal value lies below `z`. */
export const normalCdf = (z: number): number => normalTail(-z)

// M. J. Wichura, Algorithm AS 241: The percentage points of the normal distribution, Appl. Statist. 37 (1988) 477-484,
// routine PPND16.
const inner = {
  top: [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
    33430.57558358813, 2509.0809287301227,
  ],
  bottom: [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852854,
  ],
}
const outer = {
  top: [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  bottom: [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
}
const last = {
  top: [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  bottom: [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 1.8463183175100548e-5,
    1.421511758316446e-7, 2.0442631033899397e-15,
  ],
}

/**
 * The value a standard normal variable stays below with probability `p`; relative accuracy about 1e-16.
 *
 * @param p probability, 0 to 1; 0 gives minus infinity, outside gives NaN
 * @see M. J. Wichura, Algorithm AS 241, PPND16
 * @example normalQuantile(0.975) // 1.959963984540054
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return Number.NaN
  const q = p - 0.5
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q
    return (q * polynomial(inner.top, r)) / polynomial(inner.bottom, r)
  }
  const smaller = q < 0 ? p : 1 - p
  if (smaller === 0) return q < 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY
  const r = Math.sqrt(-Math.log(smaller))
  const z =
    r <= 5
      ? polynomial(outer.top, r - 1.6) / polynomial(outer.bottom, r - 1.6)
      : polynomial(last.top, r - 5) / polynomial(last.bottom, r - 5)
  return q < 0 ? -z : z
}
