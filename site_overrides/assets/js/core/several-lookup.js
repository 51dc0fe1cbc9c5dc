/**
 * Which faults show a code, in the files that `kbtools/browser_data/several_codes.py` writes; for `core/several.js`.
 *
 * Pure but for `load`, which is given: from a file's name to a promise of its content.
 */

import { structure } from "./codes.js";
import { existsOn } from "./evidence.js";
import { textOf } from "./typed-codes.js";

export class Lookup {
  /** @param {SeveralRoot} root @param {(name: string) => Promise<any>} load */
  constructor(root, load) {
    this.root = root;
    this.load = load;
    /** @type {Map<number, Promise<SeveralFile>>} */
    this.kept = new Map();
  }

  /**
   * The faults that an owner with a code wants to see, nearest first, as `faults_of` in `kbtools/wording/codes.py`
   * orders them: those of the very code, of the code without its failure type, or with any where it has none. `listed`
   * is the code under which it was found, `near` says that it is not the very code.
   *
   * @param {FaultCode[]} matches what the owner's text may be
   */
  async faults(matches) {
    /** @type {Map<string, CodeFault>} */
    const found = new Map();
    for (const code of matches) {
      for (const row of await this.ofCode(code)) {
        found.set(row.fault, found.get(row.fault) ?? row);
      }
    }
    return [...found.values()];
  }

  /** @param {FaultCode} code @returns {Promise<CodeFault[]>} */
  async ofCode(code) {
    const { base } = structure(code, this.root.formats, this.root.tables);
    const key = `${base.format} ${base.text}`;
    const file = await this.file(key);
    if (file === null) {
      return [];
    }
    const family = Object.hasOwn(file.codes, key) ? file.codes[key] : [];
    const isBase = code.text === base.text;
    const fitting = family
      .filter(([text]) => isBase || text === code.text || text === base.text)
      .sort(([one], [other]) => nearness(one, code, base) - nearness(other, code, base));
    return fitting.flatMap(([text, uses]) =>
      uses.map(([place, followOn, ride]) => ({
        ...file.faults[place],
        ride,
        follow_on: followOn,
        listed: text,
        near: text !== code.text,
        components: file.components,
      })),
    );
  }

  /** The codes as a plan of several faults takes them: with the code without its failure type. @param {FaultCode[][]} codes @returns {GivenCode[]} */
  given(codes) {
    return codes.flat().map((code) => {
      const { base } = structure(code, this.root.formats, this.root.tables);
      return { code: [code.format, code.text, base.text], unit: null };
    });
  }

  /** The solved cases about no fault that may show one of these codes, each once. @param {FaultCode[][]} codes */
  async without(codes) {
    const files = await Promise.all(this.given(codes).map(({ code: [format, , base] }) => this.file(`${format} ${base}`)));
    const cases = files.flatMap((file) => file?.without ?? []);
    return [...new Map(cases.map((each) => [each.id, each])).values()];
  }

  /** @param {string} key @returns {Promise<?SeveralFile>} */
  async file(key) {
    const { first } = this.root;
    const number = first.findLastIndex((each) => each <= key);
    if (number < 0) {
      return null;
    }
    if (!this.kept.has(number)) {
      const coming = this.load(`${number}.json`);
      this.kept.set(number, coming);
      // Asked for again where it did not come.
      coming.catch(() => this.kept.delete(number));
    }
    return this.kept.get(number) ?? null;
  }
}

/** @param {string} text @param {FaultCode} code @param {FaultCode} base */
function nearness(text, code, base) {
  return text === code.text ? 0 : text === base.text ? 1 : 2;
}

/**
 * Of faults those that concern a bike; all, where none is named.
 * @template {SeveralFault} F @param {F[]} faults @param {Bike} bike
 */
export function concerned(faults, bike) {
  return faults.filter((fault) => existsOn(fault, bike));
}

/**
 * The strictest advice of the faults, a row of `rides`, which has the strictest first; "not known" of none. Beside a code
 * of which nothing is known (`isPart`: not all codes have a fault) no advice may read as a permission.
 * @param {SeveralFault[]} faults @param {RideRow[]} rides @param {boolean} isPart
 */
export function strictest(faults, rides, isPart) {
  const levels = new Set(faults.map((fault) => fault.ride));
  const found = rides.find(({ level }) => level !== "unknown" && levels.has(level));
  return found && !(isPart && found.level === "no-restriction")
    ? found
    : /** @type {RideRow} */ (rides.find(({ level }) => level === "unknown"));
}

/**
 * What components are called, out of all the files that the faults came from.
 * @param {string} id @param {CodeFault[]} faults
 */
export function componentName(id, faults) {
  const known = faults.find(({ components }) => Object.hasOwn(components, id));
  return known ? known.components[id] : id;
}

/**
 * What is said of one code.
 * @param {FaultCode[]} matches @param {CodeFault[]} faults @param {Bike} bike @param {Suspects} found
 * @returns {CodeRow}
 */
export function rowOf(matches, faults, bike, found) {
  const text = textOf(matches);
  const here = concerned(faults, bike);
  const isSkipped = here.length > 0 && found.follow_on.includes(text);
  const state = here.length ? (isSkipped ? "follow_on" : "known") : faults.length ? "elsewhere" : "unknown";
  // Only a code that an entry lists has a page.
  return { text, page: faults[0]?.listed ?? text, state, faults: here, elsewhere: faults.length };
}

/**
 * Each fault once, with the strictest advice of its codes.
 * @param {CodeFault[]} faults @param {(path: string) => string} address @param {RideRow[]} rides the strictest first
 * @returns {JointFaultRow[]}
 */
export function faultRows(faults, address, rides) {
  const order = rides.map(({ level }) => level);
  /** @type {Map<string, JointFaultRow>} */
  const found = new Map();
  for (const { fault, title, applies, ride } of faults) {
    const before = found.get(fault);
    const isStricter = !before || order.indexOf(ride) < order.indexOf(before.level ?? "unknown");
    const level = isStricter ? (ride === "unknown" ? null : /** @type {RideLevel} */ (ride)) : before.level;
    found.set(fault, { id: fault, title, applies, level, address: address(`faults/${fault}/`) });
  }
  return [...found.values()];
}
