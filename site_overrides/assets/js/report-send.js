/** The ways by which a report leaves, each with what others will see of it. Nothing is sent before the owner presses. */

import { fileText } from "./core/report-yaml.js";
import { issueWay, mailWay } from "./core/report-ways.js";
import { button, el } from "./dom.js";

const LATER = "There is no network now. The report waits on this device, and is offered again here and on the home page.";

/** @param {string} look @param {Child} what @param {string} seen */
function row(look, what, seen) {
  return el("li", { class: `way-out way-out--${look}` }, what, el("p", { class: "way-out__seen" }, seen));
}

/**
 * @param {{text: string, subject: string}} report @param {ReportClub} club
 * @param {{said(words: string): void, sent(way: string): void}} act
 */
export function waysView({ text, subject }, club, act) {
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      act.said("Copied. Paste it into a mail or an issue.");
      return true;
    } catch {
      act.said("This browser does not allow it. Mark the text above and copy it by hand.");
      return false;
    }
  };
  return [
    club.email !== null && mailRow(mailWay(club.email, subject, text), club.email, copy, act),
    club.issues !== null && issueRow(issueWay(club.issues, subject, `\`\`\`\n${text}\`\`\`\n`), copy, act),
    typeof navigator.share === "function" && row("share", button("my-bike__button", () => share(text, subject, act), "Share"), "Whoever you share it with sees it, and that it comes from you."),
    row("copy", button("my-bike__button", copy, "Copy the text"), "Nobody sees it until you paste it somewhere."),
    row("save", button("my-bike__button", () => save(text), "Save as a file"), "It stays on this device, as report.yml."),
    row("done", button("report__end", () => act.sent("by hand"), "I have sent it"), "Then it is no longer offered here."),
  ].filter(Boolean);
}

/** @param {Way} way @param {string} email @param {() => Promise<boolean>} copy @param {{said(words: string): void, sent(way: string): void}} act */
function mailRow({ address, whole }, email, copy, act) {
  const press = () => {
    if (whole) {
      act.sent("mail");
    } else {
      copy();
      act.said("The text is too long for a mail program to take along, so it was copied: paste it into the mail.");
    }
  };
  const link = el("a", { class: "my-bike__button my-bike__button--main way-out__link", href: address, onclick: press }, "Write a mail");
  return row("mail", link, `To ${email}. Who reads it there sees your address and the name that your mail program adds; the published case has neither.${whole ? "" : " It is too long to go along by itself: it is copied, and you paste it."}`);
}

/** @param {Way} way @param {() => Promise<boolean>} copy @param {{said(words: string): void, sent(way: string): void}} act */
function issueRow({ address, whole }, copy, act) {
  /** @param {Event} event */
  const press = (event) => {
    if (navigator.onLine === false) {
      event.preventDefault();
      act.said(LATER);
    } else if (whole) {
      act.sent("issue");
    } else {
      copy();
      act.said("The text is too long for the address, so it was copied: paste it there.");
    }
  };
  const link = el("a", { class: "my-bike__button way-out__link", href: address, target: "_blank", rel: "noopener noreferrer", onclick: press }, "Open an issue");
  return row("issue", link, `On the club's repository, with an account there. Everybody sees the account's name, for good.${whole ? "" : " It is too long to go along by itself: it is copied, and you paste it."}`);
}

/** @param {string} text @param {string} subject @param {{said(words: string): void, sent(way: string): void}} act */
async function share(text, subject, act) {
  try {
    await navigator.share({ title: subject, text });
    act.sent("shared");
  } catch {
    act.said(navigator.onLine === false ? LATER : "It was not shared.");
  }
}

/** @param {string} text */
function save(text) {
  const address = URL.createObjectURL(new Blob([fileText(text)], { type: "application/yaml" }));
  const link = el("a", { href: address, download: "report.yml" });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
