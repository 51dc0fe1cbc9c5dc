/** News for one bike since a day; days are texts like `2026-03-14`, which sort as they follow each other. */

/**
 * The news that concern a bike, from the day of the last visit on: what came later that day was not seen then.
 * @param {NewsItem[]} items the newest first
 * @param {{model: string, year: number}} bike
 * @param {string} since
 */
export function newsSince(items, { model, year }, since) {
  const runs = (/** @type {NewsItem} */ { machines }) => (Object.hasOwn(machines, model) ? machines[model] : []);
  return items.filter((item) => item.on >= since && runs(item).some(([first, last]) => first <= year && year <= last));
}

/**
 * What is kept of visits: the day of this one, and of the one before, since all visits of a day are one.
 * @param {?string} kept as it was kept, `before today`
 * @param {string} today
 * @returns {{since: ?string, keep: string}} `since` is null on the first visit
 */
export function visits(kept, today) {
  const [before, last] = /^(\d{4}-\d\d-\d\d|-) (\d{4}-\d\d-\d\d)$/.exec(kept ?? "")?.slice(1) ?? ["-", null];
  const since = last && last !== today ? last : before;
  return { since: since === "-" ? null : since, keep: `${since} ${today}` };
}
