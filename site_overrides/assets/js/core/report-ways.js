/** The ways by which a report goes: how long an address may be, and what others see of each. Pure. */

/** Mail programs cut longer addresses off. Common practice, no source. */
export const LONGEST_MAIL = 2000;
/** What hosts of repositories and browsers take. Common practice, no source. */
export const LONGEST_ISSUE = 8000;

/**
 * The address that opens a mail with all in it; `whole` is false where the text is too long to go along.
 * @param {string} email @param {string} subject @param {string} text @returns {Way}
 */
export function mailWay(email, subject, text) {
  const start = `mailto:${encodeURIComponent(email).replace("%40", "@")}?subject=${encodeURIComponent(subject)}`;
  return withText(start, "body", text.replaceAll("\n", "\r\n"), LONGEST_MAIL);
}

/** The page on which an issue is written, filled in. @param {string} page @param {string} title @param {string} text @returns {Way} */
export function issueWay(page, title, text) {
  return withText(`${page}?title=${encodeURIComponent(title)}`, "body", text, LONGEST_ISSUE);
}

/** @param {string} start @param {string} name @param {string} text @param {number} longest @returns {Way} */
function withText(start, name, text, longest) {
  const address = `${start}&${name}=${encodeURIComponent(text)}`;
  return address.length <= longest ? { address, whole: true } : { address: start, whole: false };
}
