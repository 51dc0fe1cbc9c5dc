/** Numbers that lead to a person, by their form and check digits: accounts, cards, frame numbers, positions. Pure. */

const ACCOUNT = /(?<![0-9A-Za-z])[A-Za-z]{2}[0-9]{2}(?:[ .-]?[0-9A-Za-z]){11,30}/gu;

/** The remainder of ISO 13616, taken digit by digit. @param {string} account */
function isAccount(account) {
  let rest = 0;
  for (const sign of `${account.slice(4)}${account.slice(0, 4)}`.toUpperCase()) {
    for (const each of String(Number.parseInt(sign, 36))) {
      rest = (rest * 10 + Number(each)) % 97;
    }
  }
  return rest === 1;
}

/** Bank accounts (ISO 13616); only the country tells how long one is, so each end is tried. @param {string} text @returns {Iterable<[number, number]>} */
export function* bankAccounts(text) {
  for (const match of text.matchAll(ACCOUNT)) {
    for (let end = match[0].length; end >= 15; end -= 1) {
      const bare = match[0].slice(0, end).replace(/[ .-]/gu, "");
      if (bare.length >= 15 && bare.length <= 34 && isAccount(bare)) {
        yield [match.index, match.index + end];
        break;
      }
    }
  }
}

/** The sum of Luhn, ISO/IEC 7812-1. @param {string} number */
function isCard(number) {
  const digits = [...number].reverse().map(Number);
  const sum = digits.reduce((all, each, place) => all + (place % 2 ? (each > 4 ? 2 * each - 9 : 2 * each) : each), 0);
  return sum % 10 === 0 && !/^([0-9])\1*$/u.test(number);
}

const CARD_WORD = /card|credit|debit|visa|karte|carte|tarjeta|carta|kaart|kort|paid|cvv|cvc|exp/iu;

/** Cards. Thirteen digits are mostly an article's, so those need a word. @param {string} text @returns {Iterable<[number, number]>} */
export function* cards(text) {
  for (const match of text.matchAll(/(?<![0-9A-Za-z])[2-6](?:[ .-]?[0-9]){12,22}(?![0-9A-Za-z])/gu)) {
    for (let end = match[0].length; end >= 13; end -= 1) {
      const number = match[0].slice(0, end).replace(/[^0-9]/gu, "");
      const isWhole = !/[0-9]/u.test(match[0][end] ?? "");
      const near = text.slice(Math.max(0, match.index - 40), match.index + end + 30);
      const isLong = [14, 15, 16, 18, 19].includes(number.length) || (number.length === 13 && CARD_WORD.test(near));
      if (isWhole && isLong && isCard(number)) {
        yield [match.index, match.index + end];
        break;
      }
    }
  }
}

/** Seventeen signs of ISO 3779, in one piece or, in capitals, in groups. @param {string} text @returns {Iterable<[number, number]>} */
export function* frameNumbers(text) {
  const whole = text.matchAll(/(?<![0-9A-Za-z])[A-HJ-NPR-Za-hj-npr-z0-9]{17}(?![0-9A-Za-z])/gu);
  const grouped = text.matchAll(/(?<![0-9A-Za-z])(?:[A-HJ-NPR-Z0-9][ .-]?){16}[A-HJ-NPR-Z0-9](?![0-9A-Za-z])/gu);
  for (const match of [...whole, ...grouped]) {
    const bare = match[0].replace(/[ .-]/gu, "");
    if (/[A-Za-z]{2}/u.test(bare) && (bare.match(/[0-9]/gu) ?? []).length >= 4) {
      yield [match.index, match.index + match[0].length];
    }
  }
}

const ANGLE = String.raw`[NSEWO]? ?[-+]?[0-9]{1,3}[.,][0-9]{3,}°? ?[NSEWO]?`;
const BEHIND_UNIT = /^ ?(?:mm|cm|m|km|mi|miles|V|mV|A|mA|W|Nm|bar|psi|rpm|ohms?|Ω|kΩ|s|ms|%|kg|g|l)(?!\p{L})/u;
const PLACES = [
  new RegExp(String.raw`(?<![0-9.])${ANGLE}(?:\s*[,;/|]\s*|\s+)(?:(?:and|lon|long|lng|und|et|y)\.? ?[:=]? ?)?${ANGLE}(?![0-9])`, "gu"),
  /[0-9]{1,3} ?° ?[0-9]{1,2}(?:[.,][0-9]+)? ?['′’](?: ?[0-9]{1,2}(?:[.,][0-9]+)? ?(?:["″”]|''))?/gu,
  /(?:lat(?:itude)?|lon(?:gitude)?|breite|länge)\.? ?[:=]? ?[-+]?[0-9]{1,3}[.,][0-9]{2,}/giu,
  /(?<![0-9A-Z])[23456789CFGHJMPQRVWX]{4,8}\+[23456789CFGHJMPQRVWX]{2,3}(?![0-9A-Z])/gu,
  /(?<![:\p{L}])\/\/\/\p{Ll}{2,}\.\p{Ll}{2,}\.\p{Ll}{2,}|w3w ?[:=]? ?\p{Ll}{2,}\.\p{Ll}{2,}\.\p{Ll}{2,}/gu,
  /(?<![\p{L}\p{N}])[NS] ?[0-9]{1,2}°? ?[0-9]{1,2}[.,][0-9]+'?,? ?[EWO] ?[0-9]{1,3}°? ?[0-9]{1,2}[.,][0-9]+|[0-9]{1,2}°? [0-9]{1,2}[.,][0-9]{2,}'? ?[NS],? ?[0-9]{1,3}°? [0-9]{1,2}[.,][0-9]{2,}'? ?[EWO](?!\p{L})/gu,
  /[-+][0-9]{2}[.,][0-9]{3,}[-+][0-9]{2,3}[.,][0-9]{3,}|(?<![0-9])[0-9]{1,2}[.,][0-9]{4,}_[0-9]{1,3}[.,][0-9]{4,}|(?<![\p{L}\p{N}])[0-9]{1,2}[C-X] ?[0-9]{6} ?[0-9]{6,7}(?![0-9])/gu,
  /(?<!\p{L})(?:gps|coordinates|koordinaten|grid ref(?:erence)?|locator)[ :]+(?:[A-Z]{2} ?[0-9]{3} ?[0-9]{3}|[A-Z]{2}[0-9]{2}[A-Za-z]{2}|[-+]?[0-9]{1,3}[.,][0-9]{2,}[,; ]+[-+]?[0-9]{1,3}[.,][0-9]{2,})/giu,
  /[0-9]{1,3} ?(?:deg(?:rees)?|grad) [0-9]{1,2} ?(?:min(?:utes)?)/giu,
  /(?:maps\.app|goo\.gl\/maps|maps\.google|google\.[a-z.]+\/maps|openstreetmap\.org|osm\.org|what3words|w3w\.co|geo:|maps\.apple)\S*/giu,
];

/** Two angles on the earth, or a code of a place. @param {string} text @returns {Iterable<[number, number]>} */
export function* positions(text) {
  for (const pattern of PLACES) {
    for (const match of text.matchAll(pattern)) {
      const end = match.index + match[0].length;
      // Thousands are no angles, and neither are readings.
      const isReading = BEHIND_UNIT.test(text.slice(end).trimStart()) || /^\s*[0-9]{1,3},000(?:[^0-9]|$)/u.test(match[0]);
      if (!isReading || /[°NSEWO+]|gps|grid/iu.test(match[0])) {
        yield [match.index, end];
      }
    }
  }
}
