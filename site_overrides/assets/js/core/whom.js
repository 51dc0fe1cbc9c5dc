/** Whom something concerns, as pages write it: `curlew-1100:2010-2015,2018-2018 dunlin-650:1996-2001`. */

/**
 * Whether a bike is one of those. @param {string} whom @param {{model: string, year: number}} bike
 */
export function concerns(whom, { model, year }) {
  return whom.split(" ").some((each) => {
    const [id, years = ""] = each.split(":");
    return id === model && years.split(",").some((run) => {
      const [first, last] = run.split("-").map(Number);
      return first <= year && year <= last;
    });
  });
}
