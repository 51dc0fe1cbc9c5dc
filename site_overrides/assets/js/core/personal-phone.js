/**
 * Telephone numbers by plain rules: with a country's code, with the 0 that most countries dial, in the groups of those that
 * have none, behind or before a word. A word for another number, and a unit, speak against it. Pure.
 */

const RUN = /(?<![\p{L}\p{N}_-])(?<![0-9][.,])(?:\(?\+|\()?[0-9O](?:[ ().\-/]{0,3}[0-9O]){5,16}(?:(?![\p{L}\p{N}])|(?=x[0-9]))/gu;
const WORD =
  /(?<!\p{L})(?:tel|tél|telefon\p{L}*|tele?phone|téléphone|telefoon|phone|mobile?|mobil|móvil|handy|cell|gsm|fax|whatsapp|sms|ruf\p{L}*|anruf\p{L}*|call|ring|dial|text|bel|appel\p{L}*|llama\w*|chiama\w*|numéro|numero|n[úu]mero|nummer|number|fon|mob|ph|reach|erreichbar|signal|contact|kontakt|puh|tlf|line|m|t|w|p)(?![\p{L}])[^0-9]{0,32}$|[☎📞📱]\s*$/iu;
const WORD_BEHIND = /^[ ,;:(–-]{1,3}(?:(?:is|was) )?(?:(?:my|his|her|the owner's) (?:\p{L}+ )?(?:number|mobile|phone|cell)|mobile|cell|texts? only|\(?(?:call|ring|text|phone)|whatsapp|evenings|after (?:[5-9]|six|seven|eight))/iu;
const OTHER =
  /(?<!\p{L})(?:parts?|p\/n|pn|art(?:icle|ikel)?|teil\p{L}*|order|best\p{L}*|ref|réf\p{L}*|frames?|engines?|vin|bulletin|campaign|recall|isbn|ean|batch|serials?|thread|topic|post|pins?|version|software|firmware|kit|n°|code|catalogue|item|stock|oem|iso|din|bearing|seal|invoice|teeth|odometer|mileage|sku|s\/n)\b[^0-9]{0,14}$/iu;
const UNIT = /^ ?(?:km|mi|miles|rpm|nm|v|mv|a|ma|ah|w|kw|ohms?|kohm|Ω|kΩ|mm2?|cm3?|cc|m|kg|g|bar|hpa|kpa|psi|eur|€|\$|£|h|hours|s|ms|min|°c?|%|l|ml|hz|pulses|cycles|units|pcs)(?![\p{L}])/iu;
const DAY = /^(?:(?:0?[1-9]|1[0-2])\/(?:19|20)[0-9]{2} ?- ?(?:0?[1-9]|1[0-2])\/(?:19|20)[0-9]{2}|0[.,][0-9]+ ?- ?0[.,][0-9]+|[0-3]?[0-9][./-][0-3]?[0-9][./-](?:[0-9]{2}|[0-9]{4})|(?:19|20)[0-9]{2}[./-][0-9]{1,2}[./-][0-9]{1,2}(?:[ T][0-9]{1,2})?|(?:19|20)[0-9]{2} ?[-/] ?(?:19|20)[0-9]{2}|(?:19|20)[0-9]{6})$/u;
const AMERICAN = /^(?:\+?1[ .-]?)?(?:\([2-9][0-9]{2}\) ?|[2-9][0-9]{2}[ .-])[2-9][0-9]{2}[ .-][0-9]{4}$/u;
const SERVICE = /^1[38]00[ -][0-9]{3}[ -][0-9]{3}$/u;
const SPOKEN_START = "zero|oh|nought|naught|null|plus|zéro|cero|double|triple";
const SPOKEN = new RegExp(
  String.raw`(?<!\p{L})(?:${SPOKEN_START})(?:[ ,-]{1,2}(?:${SPOKEN_START}|one|two|three|four|five|six|seven|eight|nine|eins|zwei|zwo|drei|vier|fünf|sechs|sieben|acht|neun|un|deux|trois|quatre|cinq|sept|huit|neuf|uno|dos|tres|cuatro|cinco|seis|siete|ocho|nueve|[0-9]{1,6})){6,20}(?!\p{L})`,
  "giu",
);
/** Whole numbers of countries that dial no 0: bare digits, and how many. Their regulators publish the plans; from memory. */
const WITHOUT_ZERO = new Map([
  ["ES", /^[6-9][0-9]{8}$/u],
  ["PT", /^[29][0-9]{8}$/u],
  ["PL", /^[1-9][0-9]{8}$/u],
  ["CZ", /^[2-7][0-9]{8}$/u],
  ["IT", /^(?:3[0-9]{8,9}|0[0-9]{7,10})$/u],
  ["GR", /^[26][0-9]{9}$/u],
  ["DK", /^[2-9][0-9]{7}$/u],
  ["NO", /^[2-9][0-9]{7}$/u],
  ["LU", /^6[0-9]{8}$/u],
  ["EE", /^[5-8][0-9]{6,7}$/u],
  ["LV", /^[26][0-9]{7}$/u],
  ["US", /^[2-9][0-9]{2}[2-9][0-9]{6}$/u],
  ["CA", /^[2-9][0-9]{2}[2-9][0-9]{6}$/u],
]);
const NEAR = 40;

/** @param {string} text @param {string[]} countries @returns {Iterable<[number, number]>} */
export function* phones(text, countries) {
  const flat = text.replace(/_/gu, " ").replace(/(?:https?:\/\/|www\.)[^\s<>()[\]"]+/giu, (address) => " ".repeat(address.length));
  for (const match of flat.matchAll(RUN)) {
    const end = match.index + match[0].length;
    const before = flat.slice(Math.max(0, match.index - NEAR), match.index);
    if (/[0-9]/u.test(match[0]) && isPhone(match[0], before, flat.slice(end, end + NEAR), countries)) {
      yield [match.index, end];
    }
  }
  for (const match of flat.matchAll(SPOKEN)) {
    yield [match.index, match.index + match[0].length];
  }
}

/** @param {string} raw @param {string} before @param {string} behind @param {string[]} countries */
function isPhone(raw, before, behind, countries) {
  const digits = raw.replace(/O/gu, "0").replace(/[^0-9]/gu, "");
  const groups = raw.replace(/O/gu, "0").match(/[0-9]+/gu) ?? [];
  if (UNIT.test(behind) || DAY.test(raw) || isSeries(groups)) {
    return false;
  }
  if (WORD.test(before) || (digits.length > 6 && WORD_BEHIND.test(behind))) {
    return !OTHER.test(before);
  }
  return !OTHER.test(before) && hasShape(raw, digits, groups, countries);
}

/** @param {string} raw @param {string} digits @param {string[]} groups @param {string[]} countries */
function hasShape(raw, digits, groups, countries) {
  if (raw.includes("+")) {
    return digits.length >= 8;
  }
  if (digits.startsWith("00")) {
    return digits.length >= 10 && !digits.startsWith("000");
  }
  if (digits.startsWith("0")) {
    const isGlued = groups.length === 1 && countries.length > 0 && digits.length >= 10 && digits.length <= 12;
    return isGlued || (groups.length > 1 && digits.length >= 9 && digits.length <= 13);
  }
  return [AMERICAN, SERVICE].some((shape) => shape.test(raw)) || hasCode(digits, groups) || countries.some((country) => WITHOUT_ZERO.get(country)?.test(digits));
}

/** A country's code without + or 00. @param {string} digits @param {string[]} groups */
function hasCode(digits, groups) {
  return groups.length <= 4 && digits.length >= 11 && digits.length <= 13 && /^(?:44|49|33|31|34|39|353|61)[1-9]/u.test(digits);
}

/** A range, or a row that rises evenly. @param {string[]} groups */
function isSeries(groups) {
  const numbers = groups.map(Number);
  const steps = new Set(numbers.slice(1).map((each, place) => each - numbers[place]));
  if (groups.length === 2 && groups[0].length === groups[1].length && groups[0].length > 3) {
    return numbers[0] < numbers[1] && groups[0][0] === groups[1][0];
  }
  return groups.length > 2 && steps.size === 1;
}
