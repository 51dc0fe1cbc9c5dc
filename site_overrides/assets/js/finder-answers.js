/** How an answer looks. Only texts are set, so nothing in the finder's data can become markup. */

const KINDS = { fault: "Fault", code: "Code", none: "Code", model: "Model", system: "System", component: "Part" };
const WHY = {
  failure: "Same code, other failure type",
  near: "Another code, close to what was typed",
};

/**
 * One answer: a link that is an option of the list. A link in an option would not do, as nothing in an option can have
 * the focus. `address` makes an address of the site into one of this page.
 */
export function option({ why, entry, matched }, place, data, address) {
  const link = document.createElement("a");
  link.id = `finder-answer-${place}`;
  link.className = `answer answer--${entry.kind}`;
  link.href = address(entry.address);
  link.setAttribute("role", "option");
  link.setAttribute("aria-selected", "false");
  const ride = entry.ride && data.rides[entry.ride];
  const parts = [
    ["kind", KINDS[entry.kind]],
    ["title", entry.title],
    [`ride answer__ride--${ride?.look}`, ride?.word],
    ["detail", detail(entry)],
    ["matched", WHY[why] ?? (why === "words" && `Matches: ${[...new Set(matched)].join(", ")}`)],
  ];
  for (const [name, text] of parts.filter(([, text]) => text)) {
    const part = document.createElement("span");
    part.className = `answer__${name}`;
    part.dir = "auto";
    part.textContent = text;
    // The space keeps the parts apart where the link is read out in one.
    link.append(part, " ");
  }
  return link;
}

function detail(entry) {
  const models = entry.models.map(([, name, years]) => (entry.title === name ? years : `${name} ${years}`));
  const told = entry.kind === "code" ? entry.words.meanings : entry.words.told;
  return [...(told ?? []), ...models, entry.system].filter(Boolean).join(" · ");
}

/** What a screen reader says of the answers, and the line above them. */
export function summary({ codes, known, answers, more }, data) {
  if (!known) {
    return codes.length ? `No entry has this code. ${data.rides.unknown.word}.` : "Nothing found. Try fewer or other words.";
  }
  const count = answers.length === 1 ? "1 answer" : `${answers.length} answers`;
  return more ? `${count}; ${more} more with another word or digit.` : `${count}.`;
}
