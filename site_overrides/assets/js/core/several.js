/**
 * Several fault codes at once: the one part that would explain all of them. `tests/support/common_part.py` says how that
 * is reckoned, and this is held to it; a code's faults are what `code_faults_record` there gives.
 */

import { existsOn, means } from "./evidence.js";

const LEAST = 0.02;

/**
 * The components that may explain all these codes, the likeliest first.
 *
 * @param {[string, FaultOfCode[]][]} codes each code as the owner wrote it, with the faults that show it
 * @param {Bike} bike only faults and causes of this machine count; null: all
 * @returns {Suspects}
 */
export function suspects(codes, bike = null) {
  /** @type {Map<string, Map<string, number>>} */
  const used = new Map();
  /** @type {Record<"follow_on" | "unknown", string[]>} */
  const found = { follow_on: [], unknown: [] };
  for (const [code, faults] of codes) {
    const concerned = faults.filter((fault) => existsOn(fault, bike));
    const roots = concerned.filter((fault) => !fault.follow_on);
    const shares = meanShares(roots, bike);
    if (shares.size) {
      used.set(code, shares);
    } else {
      found[concerned.length && !roots.length ? "follow_on" : "unknown"].push(code);
    }
  }
  return { suspects: ranked(used), used: [...used.keys()], ...found };
}

/** @param {FaultOfCode[]} faults @param {Bike} bike */
function meanShares(faults, bike) {
  /** @type {Map<string, number>} */
  const total = new Map();
  for (const { evidence } of faults) {
    const componentOf = new Map(evidence.causes.map((cause) => [cause.id, cause.component]));
    for (const [cause, share] of means(evidence, bike)) {
      const component = componentOf.get(cause) ?? null;
      if (component !== null) {
        total.set(component, (total.get(component) ?? 0) + share);
      }
    }
  }
  return new Map([...total].map(([component, share]) => [component, share / faults.length]));
}

/** @param {Map<string, Map<string, number>>} used @returns {Suspect[]} */
function ranked(used) {
  const components = [...new Set([...used.values()].flatMap((shares) => [...shares.keys()]))];
  const rows = components.map((component) => {
    /** @type {[code: string, factor: number][]} */
    const factors = [...used].map(([code, shares]) => [code, Math.max(LEAST, shares.get(component) ?? 0)]);
    const product = factors.reduce((so, [, factor]) => so * factor, 1);
    return { component, product, by_code: Object.fromEntries(factors) };
  });
  const whole = rows.reduce((sum, { product }) => sum + product, 0);
  return rows
    .map(({ component, product, by_code: byCode }) => ({ component, probability: product / whole, by_code: byCode }))
    .sort((one, other) => other.probability - one.probability);
}
