/**
 * What in a text leads to a person, as a browser can tell it: coarser than `kbtools/personal`, and so that what that refuses
 * is shown here. It has no lists of names: two words with capitals side by side are shown, and may be written otherwise.
 * Held with the other side to `tests/vectors/personal_texts.json`. Pure.
 *
 * @typedef {(text: string, countries: string[]) => Iterable<[number, number]>} Finder
 */

import { bankAccounts, cards, frameNumbers, positions } from "./personal-numbers.js";
import { phones } from "./personal-phone.js";
import { addresses, names, plates } from "./personal-words.js";
import { spans } from "./spans.js";

/** Blanks, hyphens and digits of other scripts and full-width signs, as ASCII has them; every index stays what it was. @param {string} text */
export function even(text) {
  return text
    .replace(/[\uff01-\uff5e]/gu, (sign) => String.fromCharCode(sign.charCodeAt(0) - 0xfee0))
    .replace(/[\u0660-\u0669\u06f0-\u06f9\u0966-\u096f]/gu, (sign) => String(digit(sign.charCodeAt(0))))
    .replace(/[\u00a0\u2007\u2009\u202f\u3000]/gu, " ")
    .replace(/[\u2010-\u2014\u2212]/gu, "-");
}

/** @param {number} code */
function digit(code) {
  return [0x0660, 0x06f0, 0x0966].map((first) => code - first).find((value) => value >= 0 && value <= 9) ?? 0;
}

const AT = String.raw`(?: ?(?:@|%40|&#64;|&commat;) ?| ?[([{<*|]+ ?@ ?[)\]}>*|]+ ?|\s*[-_\s([{<*|]+(?:at|ät|arroba|arobase|chiocciola|klammeraffe)[-_\s)\]}>*|]+\s*|\s*[([{<*|]+ ?a ?[)\]}>*|]+\s*)`;
const DOT = String.raw`(?:\.|, ?| \. ?|\s*[-_\s([{<*|]+(?:dot|punkt|punto|point|punt|ponto|kropka|\.)[-_\s)\]}>*|]+\s*)`;
const MAILS = [
  // The last label is of letters, so that 5 A @ 12.6 V is none.
  new RegExp(String.raw`[\p{L}\p{N}._%+'-]+(?:@|%40|&#64;)[\p{L}\p{N}-]+(?:[.,][\p{L}\p{N}-]+)*[.,]\p{L}[\p{L}\p{N}-]+`, "giu"),
  new RegExp(String.raw`[\p{L}\p{N}._%+'-]+${AT}[\p{L}\p{N}-]+(?:${DOT}[\p{L}\p{N}-]+)*(?:\.|\s*[-_\s([{<*|]+(?:dot|punkt|punto|point|punt|ponto|kropka|\.)[-_\s)\]}>*|]+\s*| \. ?)(?:[a-z]{2}|com|org|net|info|biz|edu|name|pro|club|bike|app|dev|online|site|shop|email|cloud|blog|web|example|test|invalid)(?![\p{L}\p{N}])`, "giu"),
  /(?<![\p{L}\p{N}.])(?:[\p{L}\p{N}.+-] ){2,40}(?:@|\(at\)|at) (?:[\p{L}\p{N}-] ){2,40}(?:\.|dot) (?:\p{L} ?){2,10}/giu,
];

/** @type {Finder} */
function mails(text) {
  return spans(MAILS, text, (found) => !/^\S+\s+at\s+the\s|^(?:look|aim|runs?|is|was|are|v|a|rpm)\s+at\s/iu.test(found));
}

const HOSTS =
  /(?:line:\/\/\S+|(?:https?:\/\/)?(?:[\w-]+\.)*(?:messenger\.com|wechat\.com|zoom\.us|twitch\.tv|meet\.google\.com|teams\.microsoft\.com)\/\S+|(?:https?:\/\/)?(?:[\w-]+\.)+[a-z]{2,}\/(?:\S*\/)?(?:@|~|u\/|c\/|users?\/|members?\/|profiles?\/)[\w.-]{2,}\S*|\S*(?:viewprofile|action=profile|member\.php|[?&;]u=[0-9])\S*|(?<![\p{L}\p{N}])\/?u\/[\w-]{3,}|(?:https?:\/\/)?(?:[\w-]+\.)*(?:wa\.me|t\.me|m\.me|fb\.me|facebook|instagram|whatsapp|telegram|signal\.(?:me|group)|discord(?:app)?\.(?:gg|com)|discord|tiktok|linkedin|twitter|x\.com|threads\.net|bsky\.app|snapchat|youtube\.com\/(?:@|c\/|user|channel)|reddit\.com\/u|steamcommunity|paypal|vk\.com|matrix\.to|threema\.id|line\.me|skype|zello)[\w.]*\/[^\s]+|(?:tel|mailto|sms|smsto|skype|whatsapp|tg|xmpp|sip|facetime|callto|threema|sgnl|viber|weixin|matrix):(?!\s)[^\s]+|(?<![\p{L}\p{N}])(?!(?:part|drawing|page|pin|no|fig|item|step|post|thread|case|issue)#)[\w.-]+#[0-9]{4}(?!\w))/giu;

/** @type {Finder} */
function messengers(text) {
  return spans([HOSTS], text);
}

const SITES = "insta(?:gram)?|ig|facebook|fb|telegram|tg|discord|mastodon|threema|tiktok|youtube|yt|twitter|twitch|snap(?:chat)?|reddit|bluesky|bsky|threads|skype|signal|whatsapp|wechat|kik|icq|matrix|strava|github|flickr|linkedin";
const HANDLES = [
  /(?<![\p{L}\p{N}.%+/)=°Ω@-])(?<![0-9] )(?<![0-9] [VAW] )@(?!(?:battery|fuse|idle|cold|hot|warm|rest|plug|pin|regulator|stator|ecu|km|rpm)(?!\p{L}))[\p{L}_][\p{L}\p{N}_.-]{1,30}(?![\p{L}\p{N}@/])/giu,
  new RegExp(String.raw`(?<!\p{L})(?:(?:user|screen|account|login|profile|forum|board|nick|member|display|skype|discord|benutzer|nutzer|mitglieds|forums)[ -]?(?:names?|nick|id|handle|tag)|nick|nickname|handle|gamertag|username|call ?sign|pseudo|pseudonyme|usuario|apodo|nome utente|gebruikersnaam)(?: (?:on|in|at|auf|im|sur|en|su|op) (?:the |our |le |la |il |el )?[\p{L}]+)?(?: ?[:=] ?@?| (?:is|was|ist|est|es) | ["“„'‘«]|\s)(?!(?:is|was|not|in|on|the|a|an|bar|side|turn|clutch|open|bent|loose|weak|required|field|empty|change|and|at|of|to|it|with|needed)(?!\p{L}))[\p{L}\p{N}_][\p{L}\p{N}_.-]{2,30}`, "giu"),
  new RegExp(String.raw`(?<!\p{L})(?:${SITES})(?: (?:name|user|nick|account|profile|channel|page|handle))?(?: ?[:=] ?@?| (?:is|as|under|me) @?| ["“„'‘«]| @?(?=[\p{L}\p{N}]*[0-9_.]))(?!(?:weak|connector|pwm|not|the|at|low|high|good|lost|there|missing|gone|wire|is)(?!\p{L}))[\p{L}\p{N}_][\p{L}\p{N}_.-]{2,30}`, "giu"),
  // A made-up word with a capital in it, or with digits, by what is said of it.
  /(?<!\p{L})(?:[Bb]y|[Ff]rom|[Aa]sk|[Dd]m|DM|[Pp]m|PM|PN|[Mm]essage|[Qq]uote|[Pp]er|[Vv]on|[Aa]n|[Mm]ember|[Uu]ser|[Nn]utzer|[Bb]enutzer|[Uu]tente|[Aa]lias|[Aa]ka|[Kk]nown as|[Gg]oes by|bin ich|[Tt]hanks to|forum ?:) ?:? ?["“„'‘«]?(?:\p{Lu}\p{Ll}{2,}\p{Lu}\p{Ll}{2,}[\p{L}\p{N}]*|\p{Ll}{3,}_[\p{L}\p{N}_]+|\p{Ll}{5,}[0-9]{2,3})(?![\p{L}\p{N}_.]*\.(?:jpe?g|png|csv|txt|pdf))/gu,
  /(?<![\p{L}\p{N}])(?:\p{Lu}\p{Ll}{2,}\p{Lu}\p{Ll}{2,}|\p{Ll}{3,}[0-9]{2,4}),? (?:on|in|im|auf|from|over on) (?:the |our |dem |this )?(?:owners['’] |club )?(?:forum|board|group|chat|discord|facebook|youtube|instagram|reddit)/gu,
  /(?<!\p{L})(?:goes by|find me as|known as|like) ["“„'‘«]?[\p{L}\p{N}_]{3,}["”’'»]? (?:on|says)/giu,
  /(?<!\p{L})(?:användarnamn|brukernavn|brugernavn|nazwa użytkownika|uživatel|steam id|benutzer|nutzer) ?:? ?[\p{L}\p{N}_]{4,}/giu,
  /(?<!\p{L})(?:user|member|poster|seller|goes by|known as|posts? as|posting as|registered as|find (?:me|him|her) (?:as|under)|aka|alias|by|from|ask|to|pm|dm|ping|contact|follow|von|par|por|von user) ["“„'‘«]?(?=[\p{L}\p{N}_.-]*[\p{L}])(?=[\p{L}_.-]*[0-9_])(?!["“„'‘«]?(?:curator|mechanic|member|rev|type|log|img|owner|pin)[-_]?[0-9])(?!["“„'‘«]?(?:[0-9]+|[PCBU][0-9]|[vp][0-9]|h[0-9]|m[0-9])[\p{L}\p{N}]{0,5}(?![\p{L}\p{N}_]))[\p{L}][\p{L}\p{N}_.-]{3,30}/giu,
  /(?<!\p{L})(?:posts? as|posting as|goes by|registered as|known as|user|member|find (?:me|him|her) (?:as|under)|i['’]?a?m|(?:on|in|im|auf|sur) (?:the |our |your |dem |le )?(?:club |owners['’]? )?(?:forums?|board|group|chat|discord|facebook|telegram)[, ]+(?:as|als|comme|i['’]m|i am|he['’]?s|she['’]?s)) ["“„'‘«]?[\p{L}]+[0-9_-][\p{L}\p{N}_-]*/giu,
  /(?<![\p{L}\p{N}_.-])[\p{L}][\p{L}\p{N}]*_[\p{L}\p{N}_]+ (?:on|in|im|auf|from|over on) (?:the |our |dem )?(?:forum|board|group|chat|discord|facebook)/giu,
];

/** @type {Finder} */
function handles(text) {
  return spans(HANDLES, text);
}

/** @type {[kind: string, say: string, find: Finder][]} */
const KINDS = [
  ["email", "an e-mail address", mails],
  ["messenger", "a way to somebody's messenger or page", messengers],
  ["iban", "a bank account", bankAccounts],
  ["card", "a payment card", cards],
  ["vin", "a frame number", frameNumbers],
  ["position", "a position on the map", positions],
  ["phone", "a telephone number", phones],
  ["plate", "a number plate", plates],
  ["address", "an address", addresses],
  ["handle", "a name on a forum or elsewhere on the web", handles],
  ["name", "somebody's name", names],
];

/**
 * What in a text leads to a person, in its order, none within another.
 * @param {string} text @param {string[]} countries ISO 3166-1 of which national telephone numbers are known @returns {Personal[]}
 */
export function personal(text, countries = []) {
  const flat = even(text);
  const all = KINDS.flatMap(([kind, say, find]) => [...find(flat, countries)].map(([start, end]) => ({ kind, say, start, end })));
  all.sort((one, other) => one.start - other.start || other.end - one.end);
  /** @type {Personal[]} */
  const apart = [];
  for (const each of all) {
    if (!apart.length || each.start >= apart[apart.length - 1].end) {
      apart.push(each);
    }
  }
  return apart;
}
