/** What a report knows of its fault: the words of the fault's own page, which is kept without a network already. */

import { faultPage } from "./fault-pages.js";

/** @param {Document} page @param {string} selector */
function texts(page, selector) {
  return [...page.querySelectorAll(selector)].map((each) => (each.textContent ?? "").trim()).filter(Boolean);
}

/**
 * The fault of this id. An old id leads on; null: there is no such entry, or it is withdrawn. Fails where the page does not come.
 * @param {string} id @param {URL} root @returns {Promise<?ReportFault>}
 */
export async function faultOf(id, root, follow = true) {
  if (!/^[a-z0-9-]{1,100}$/u.test(id)) {
    return null;
  }
  const { shown, data } = await faultPage(id, new URL(`faults/${id}/`, root).href);
  const next = /faults\/([a-z0-9-]+)\/$/u.exec(shown.querySelector('meta[http-equiv="refresh"]')?.getAttribute("content") ?? "");
  if (next) {
    return follow ? faultOf(next[1], root, false) : null;
  }
  const article = shown.querySelector("article[data-fault]");
  return article ? readFault(article.getAttribute("data-fault") ?? id, shown, data) : null;
}

/** @param {string} id @param {Document} shown @param {?PlanPage} data @returns {ReportFault} */
function readFault(id, shown, data) {
  const causes = [...shown.querySelectorAll("[data-cause]")].map((each) => ({ id: each.dataset.cause, title: (each.querySelector("h3")?.textContent ?? "").trim() }));
  return {
    id,
    title: (shown.querySelector("h1")?.textContent ?? id).trim(),
    causes: causes.filter((each) => each.id !== "unlisted"),
    checks: (data?.problem.checks ?? []).map((check) => ({
      id: check.id,
      title: data?.names.checks[check.id] ?? check.id,
      results: Object.hasOwn(check.outcomes, "bad") ? ["good", "bad", "unclear"] : ["low", "good", "high", "unclear"],
      unit: data?.units[check.id] ?? "",
    })),
    symptoms: texts(shown, ".signs li"),
    codes: [...new Set(texts(shown, "#codes .code__text"))],
    models: data?.models ?? [],
  };
}

/**
 * What was answered in the plan of this fault, as fields of a report.
 * @param {ReportFault} fault @param {?string} plan the key of a plan of several faults @returns {Filled}
 */
export function planOf(fault, plan) {
  const own = (/** @type {unknown} */ id) => (typeof id === "string" && id.startsWith(`${fault.id}/`) ? id.slice(fault.id.length + 1) : id);
  /** @type {Filled} */
  const filled = {};
  /** @type {string[]} */
  const order = [];
  for (const each of answersOf(plan ?? fault.id)) {
    const check = fault.checks.find(({ id }) => id === own(each.check));
    const cause = fault.causes.find(({ id }) => id === own(each.fix));
    const field = check ? `check ${check.id}` : cause ? `fix ${cause.id}` : null;
    if (field === null || typeof each.result !== "string") {
      continue;
    }
    filled[field] = [each.result];
    order.push(field);
    if (check && typeof each.value === "number") {
      filled[`reading ${check.id}`] = [`${each.value} ${check.unit}`.trim()];
    }
    if (cause && each.result === "helped") {
      Object.assign(filled, { state: ["solved"], cause: [cause.id], where: ["home"] });
    }
  }
  return order.length ? { ...filled, order } : filled;
}

/** @param {string} plan @returns {{check?: unknown, fix?: unknown, result?: unknown, value?: unknown}[]} */
function answersOf(plan) {
  try {
    const { list } = JSON.parse(localStorage.getItem(`plan:${plan}`) ?? "null") ?? {};
    return Array.isArray(list) ? list.filter((each) => typeof each === "object" && each !== null) : [];
  } catch {
    // Forbidden, or what another page wrote.
    return [];
  }
}
