/** Links from a code to its faults. */

/** A fault's page, which is told which codes were read. @param {string} address @param {string[]} labels */
export function withCodes(address, labels) {
  const to = new URL(address, document.baseURI);
  to.searchParams.set("codes", labels.join(","));
  return to.href;
}
