/**
 * Where what stands in the finder's files, see `kbtools/browser_data/finder/files.py`.
 *
 * Pure but for `load`, which is given: from a file's name to a promise of its content. What was fetched once is kept.
 */

export class Shelves {
  /** @param {FinderRoot} root @param {(name: string) => Promise<any>} load */
  constructor(root, load) {
    this.root = root;
    this.load = load;
    /** @type {Map<string, Promise<any>>} */
    this.kept = new Map();
  }

  /**
   * A file's content; asked for again where it did not come the last time.
   * @template {string} N @param {N} name @returns {Promise<FinderFile<N>>}
   */
  file(name) {
    if (!this.kept.has(name)) {
      const coming = this.load(name);
      this.kept.set(name, coming);
      coming.catch(() => this.kept.delete(name));
    }
    return /** @type {Promise<FinderFile<N>>} */ (this.kept.get(name));
  }

  /**
   * The number of the file that holds a key if any does; -1: none does.
   * @param {keyof FinderRoot["shelves"]} shelf @param {string} key
   */
  place(shelf, key) {
    const first = this.root.shelves[shelf];
    let [low, high] = [0, first.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (first[middle] <= key) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low - 1;
  }

  /** @template {keyof FinderShelves} S @param {S} shelf @param {string} key @returns {Promise<FinderShelves[S] | null>} */
  async value(shelf, key) {
    const number = this.place(shelf, key);
    const file = /** @type {Record<string, FinderShelves[S]>} */ (number < 0 ? {} : await this.file(`${shelf}/${number}.json`));
    return Object.hasOwn(file, key) ? file[key] : null;
  }

  /**
   * Keys that begin so, with their values, from at most `most` files.
   * @template {keyof FinderShelves} S @param {S} shelf @param {string} start @param {number} most
   * @returns {Promise<[key: string, value: FinderShelves[S]][]>}
   */
  async beginning(shelf, start, most) {
    const from = Math.max(0, this.place(shelf, start));
    const to = Math.min(this.place(shelf, `${start}\uffff`), from + most - 1);
    const numbers = Array.from({ length: Math.max(0, to - from + 1) }, (_, step) => from + step);
    const files = await Promise.all(numbers.map((number) => this.file(`${shelf}/${number}.json`)));
    return files.flatMap((file) => Object.entries(file).filter(([key]) => key.startsWith(start)));
  }

  /**
   * The words among which one with this beginning would stand: those of its file, and of the next where it is last.
   * @param {"start" | "end"} shelf @param {string} word
   */
  async wordsAround(shelf, word) {
    const from = Math.max(0, this.place(shelf, word.slice(0, 2)));
    const to = Math.min(this.place(shelf, `${word.slice(0, 2)}\uffff`), from + 2);
    const numbers = Array.from({ length: Math.max(0, to - from + 1) }, (_, step) => from + step);
    const files = await Promise.all(numbers.map((number) => this.file(`${shelf}/${number}.json`)));
    return files.flatMap((file) => file.split(" "));
  }

  /** @param {number} place */
  async entry(place) {
    const { per_file: perFile } = this.root;
    return (await this.file(`entries/${Math.floor(place / perFile)}.json`))[place % perFile];
  }

  /**
   * Places of the faults and codes that concern a machine; null where the site knows no such machine.
   * @param {{model: string, year: number}} bike
   */
  async bike({ model, year }) {
    const known = this.root.models.find(({ id, first, last }) => id === model && first <= year && year <= last);
    return known ? new Set(risen(await this.file(`bikes/${model}/${year}.json`))) : null;
  }
}

/** Numbers of which the steps between them are given. @param {number[]} steps */
export function risen(steps) {
  let at = 0;
  return steps.map((step) => (at += step));
}
