/** Where a report about a plan is written. */

/**
 * @param {{fault: ?string, plan: string, cause: ?string, codes: string[]}} about of a plan of several faults the fault is null, and the
 * cause `fault/cause`
 */
export function reportAddress({ fault, plan, cause, codes }) {
  const { root } = document.querySelector("[data-finder]").dataset;
  const page = new URL("report/", new URL(root.replace(/\/?$/u, "/"), document.baseURI));
  const [of, own] = fault === null && cause !== null && cause.includes("/") ? cause.split("/") : [fault, cause];
  const parts = { fault: of, cause: of !== fault ? own : null, plan: fault === null ? plan : null, codes: codes.join(",") };
  for (const [name, value] of Object.entries(parts)) {
    if (value) {
      page.searchParams.set(name, value);
    }
  }
  return page.href;
}
