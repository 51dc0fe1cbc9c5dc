/**
 * Quantiles of the beta distribution: the ends of the interval of a share.
 *
 * The distribution function is the continued fraction of the incomplete beta function (DLMF 8.17.22), by the modified
 * Lentz method; the quantile is found on it by Newton's steps, kept inside a bracket that halving narrows.
 */

const TINY = 1e-300;
const ENOUGH = 1e-15;

// Lanczos, g = 7, n = 9: good to about 1e-15 for arguments above 0.5.
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** The logarithm of the gamma function, of a number above 0. @param {number} x @returns {number} */
function logGamma(x) {
  if (x < 0.5) {
    return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  }
  const shifted = x - 1;
  const series = LANCZOS.slice(1).reduce((sum, each, place) => sum + each / (shifted + place + 1), LANCZOS[0]);
  const base = shifted + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(base) - base + Math.log(series);
}

/** @param {number} a @param {number} b */
function logBeta(a, b) {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}

/** @param {number} a @param {number} b @param {number} x */
function continuedFraction(a, b, x) {
  /** @param {number} value */
  const kept = (value) => (Math.abs(value) < TINY ? TINY : value);
  let c = 1;
  let d = 1 / kept(1 - ((a + b) * x) / (a + 1));
  let product = d;
  for (let m = 1; m <= 1000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    for (const step of [even, odd]) {
      d = 1 / kept(1 + step * d);
      c = kept(1 + step / c);
      product *= d * c;
    }
    if (Math.abs(d * c - 1) < ENOUGH) {
      break;
    }
  }
  return product;
}

/**
 * The probability that a Beta(a, b) variable is at most x; a, b above 0, x from 0 to 1.
 * @param {number} a @param {number} b @param {number} x
 */
export function betaBelow(a, b, x) {
  if (x <= 0 || x >= 1) {
    return x <= 0 ? 0 : 1;
  }
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - logBeta(a, b));
  // The fraction converges fast on this side of the mean only.
  return x < (a + 1) / (a + b + 2)
    ? (front * continuedFraction(a, b, x)) / a
    : 1 - (front * continuedFraction(b, a, 1 - x)) / b;
}

/**
 * The value that a Beta(a, b) variable does not exceed with probability p.
 * @param {number} a @param {number} b @param {number} p
 */
export function betaQuantile(a, b, p) {
  let low = 0;
  let high = 1;
  let x = a / (a + b);
  const scale = logBeta(a, b);
  for (let round = 0; round < 200; round += 1) {
    const off = betaBelow(a, b, x) - p;
    if (off > 0) {
      high = x;
    } else {
      low = x;
    }
    const slope = Math.exp((a - 1) * Math.log(x) + (b - 1) * Math.log1p(-x) - scale);
    let next = x - off / slope;
    if (!(next > low && next < high)) {
      // A small quantile of a small a lies at 1e-20 or lower: there halving must be of the exponent.
      next = low > 0 && high / low > 4 ? Math.sqrt(low * high) : low === 0 && high < 0.5 ? high / 1024 : (low + high) / 2;
    }
    if (Math.abs(next - x) <= 1e-15 * x || next === 0) {
      return next;
    }
    x = next;
  }
  return x;
}
