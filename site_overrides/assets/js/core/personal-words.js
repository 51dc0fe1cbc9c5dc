/** Plates, addresses and names, which only their look and the words beside them tell. Pure. */

import { spans } from "./spans.js";

const NO_PLATE = /^(?:ABS|ECU|CAN|SAE|ISO|DIN|DOT|EN|USB|LED|PIN|REV|TX|SW|M|HW|CR|RS|IC|LM|AGM|FET|IRF|BS|TS|SB|BT|AWG|GL|JASO|API)[ -]?[0-9][0-9A-Z ]*$|^[A-Z]{1,2} [0-9]{1,2} ?[A-Z]{1,2}$|^[0-9]{1,2}-(?:JAN|FEB|MAR|APR|MAY|JUN|JUL|AUG|SEP|OCT|NOV|DEC)-|^[A-Z]-[A-Z] [0-9]$|^[A-Z]{2} [0-9]{4,5}$|^[0-9]+ ?(?:RPM|KM|NM|MM|EUR|KPA|PSI|BAR|OHM|VAC|VDC|KHZ|MHZ)|(?:RPM|EUR|PSI|BAR|OHM)$/u;
const PLATES = [
  /(?<![\p{L}\p{N}-])[A-ZÄÖÜ]{1,3}-[A-ZÄÖÜ]{1,2}[ -]?[1-9][0-9]{0,3}[EH]?(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[A-ZÄÖÜ]{1,3} [A-ZÄÖÜ]{2} [1-9][0-9]{1,3}[EH]?(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[A-Z]{1,2}[ -][1-9][0-9]{1,5} ?[A-Z]{1,3}(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[A-Z]{2}[0-9]{2}[ -]?[A-Z]{3}(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[A-Z][0-9]{2,3} ?[A-Z]{3}(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[A-Z]{3} ?[0-9]{2,3} ?[A-Z](?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[A-Z]{2}[ -]?[0-9]{3}[ -]?[A-Z]{2}(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[0-9]{2,4}[ -][A-Z]{2,3}[ -][0-9]{2,4}(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])(?=[A-Z0-9-]*[A-Z])(?=[A-Z0-9-]*[0-9])[A-Z0-9]{1,3}-[A-Z0-9]{2,3}-[A-Z0-9]{1,3}(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[0-9]{4}[ -]?[BCDFGHJKLMNPRSTVWXYZ]{3}(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])(?:AG|AI|AR|BE|BL|BS|FR|GE|GL|GR|JU|LU|NE|NW|OW|SG|SH|SO|SZ|TG|TI|UR|VD|VS|ZG|ZH) ?[·•-]? ?[1-9][0-9]{1,2}[ ']?[0-9]{2,3}(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[0-9]{2,3}-[A-Z]{1,2}-[0-9]{3,6}(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[A-Z]{2,3} [0-9]{4,5}[A-Z]{0,2}(?![\p{L}\p{N}-])/gu,
  /(?<![\p{L}\p{N}-])[А-ЯІ]{1,2} ?[0-9]{3,4} ?[А-ЯІ]{2}(?: ?[0-9]{2,3})?/gu,
];
const PLATE_WORD = "rejestracja|nummerplade|rekisteri\\p{L}*|spz|kennz\\.?|rendszám\\p{L}*|rego|tag(?: #| is)?|placa(?: do carro)?|registreringsnummer|regnr|(?:licen[cs]e|number|registration|reg|rear)[ -]?(?:plates?|number|no\\.?|mark)|reg(?:istration)?\\.?|registered(?: as)?|number ?plate|kennzeichen|nummernschild|immatriculation|immatriculée?|plaque|matr[íi]cula|targa|placa|kenteken|nummerplaat|plates?";
const BY_WORD = new RegExp(
  String.raw`(?<!\p{L})(?<!(?:clutch|friction|steel|pressure|skid|bash|base|back|backing|stator|lock|cover|valve|type|data|top|name|mounting|adapter|lead) )(?:${PLATE_WORD})(?:[ .:=#(]{1,3}(?:(?:is|was|ist|number|no|nr|reads|the|of|as|on|my|his|her|bike)\.?[ :]{1,2}){0,3})["“„'‘«]?(?=[\p{L}\p{N} .-]{0,9}[0-9])(?=[0-9 .-]{0,9}\p{L})(?!(?:[0-9.,]+ ?(?:V|A|W|mm|cm|Nm|kg|km|rpm|bar|ohm)(?!\p{L})|(?:lamp|light|bulb|voltage|output|year|at|is|in|side|thick|says|of|and|bracket|holder|screw)(?!\p{L})))[\p{L}\p{N}]{1,8}(?:[ .·-](?!(?:V|A|W|VA|mm|cm|Nm|kg|km|rpm|bar|ohm|side|rec|fuse|at|to|thick|and|of)(?!\p{L}))[\p{L}\p{N}]{1,6}){0,3}(?! ?(?:V|A|W|mm|cm|rpm|Nm)(?!\p{L}))`,
  "giu",
);

/** @param {string} text @returns {[number, number][]} */
export function plates(text) {
  return [...spans(PLATES, text, (found) => !NO_PLATE.test(found)), ...spans([BY_WORD], text, (found) => /[0-9]/u.test(found))];
}

const STREET = "street|st|road|rd|avenue|ave|lane|ln|crescent|terrace|boulevard|blvd|gardens|mews|close|court|drive|grove|square|parade|highway|cottages?|row|hill|way|place|rise";
const HOUSES = [
  new RegExp(String.raw`(?<![\p{N}.,])[1-9][0-9]{0,4}[a-z]?,? (?:\p{Lu}[\p{L}'’.-]+ ){1,3}(?:${caseless(STREET)})(?!\p{L})`, "gu"),
  new RegExp(String.raw`(?<!\p{L})(?:no\.?|number|nr\.?) [1-9][0-9]{0,3}[a-z]?,? (?:[\p{L}'’.-]+ ){0,2}(?:${STREET})(?!\p{L})`, "giu"),
  new RegExp(String.raw`(?<!\p{L})\p{Lu}[\p{L}'’.-]+ (?:Street|St\.|Road|Rd|Avenue|Ave|Lane|Crescent|Terrace|Boulevard|Close|Drive|Grove|Square)(?:,? (?:no\.? ?)?[1-9][0-9]{0,3}| in \p{Lu})`, "gu"),
  /(?<!\p{L})(?!(?:Feder|Kolben|Kabel|Leitungs|Schalt|Brems|Hub|Steck|Mess|Stand|Park|Sitz)(?:weg|platz))[\p{L}.'’-]{2,40}(?:straße|strasse|str\.|gasse|allee|weg|platz|damm|ufer|chaussee|straat|laan|gracht|plein|kade|gatan|gade|gata|gate|vägen|veien|vej|katu)(?:(?: (?:nr\.? ?)?| ?)[1-9][0-9]{0,3}[a-z]?(?![\p{L}\p{N}.,]?[\p{L}0-9]))/giu,
  /(?<!\p{L})\p{Lu}[\p{L}'’.-]+[ -](?:Straße|Strasse|Str\.|Gasse|Allee|Weg|Platz|Ring|Damm|Ufer|Chaussee|Straat|Laan|Vej|Gade|Gata) (?:Nr\.? ?)?[1-9][0-9]{0,3}/gu,
  /(?<!\p{L})(?:[Aa]m|[Aa]n der|[Ii]m|[Ii]n der|[Aa]uf dem|[Zz]um|[Zz]ur) (?!(?:Stecker|Regler|Pin|Kabel|Relais|Rotor|Stator|Motor|Anlasser|Sensor|Kontakt|Schalter|Zylinder|Ventil|Gang|Rad|Lenk|Rahmen|Tank|Stand|Fahren|Leerlauf|Batterie|Klemme|Winter|Sommer|Januar|Februar|März|April|Mai|Juni|Juli|August|Sept|Okt|Nov|Dez))\p{Lu}[\p{L}-]+ [1-9][0-9]{0,3}[a-z]?(?! ?(?:V|A|W|mm|km|Nm|°|%|bar|U)(?!\p{L}))(?![\p{N}.,]?[0-9])/gu,
  /(?<![\p{L}\p{N}])[1-9][0-9]{0,3}(?: ?(?:bis|ter|[a-d]))?,? (?:rue|avenue|av\.|boulevard|bd|chemin|impasse|allée|quai|route|cours|place|sentier|square|passage|ruelle) (?:de |du |des |de la |d['’]|la |le |les |l['’])*\p{L}{2,}/giu,
  /(?<!\p{L})(?:rue|boulevard|chemin|impasse|allée|quai) (?:de |du |des |de la |d['’]|la |le |les |l['’])*\p{Lu}[\p{L}-]+/gu,
  /(?<!\p{L})(?:Via|Viale|Piazza|Corso|Vicolo|Largo|Calle|C\/|Avenida|Avda\.?|Paseo|Plaza|Camino|Carretera|Carrer|Rua|Travessa|Praça|Estrada|ul\.|ulica|al\.)(?: (?:de|del|della|dei|di|da|do|dos|la|las|los|el|San|Santa|Sant['’]))* ?\p{Lu}[\p{L}'’.-]+(?: \p{Lu}[\p{L}'’.-]+)*,? (?:n[º°.]? ?)?[1-9][0-9]{0,3}/gu,
  // Post codes with a town; British ones.
  /(?<![\p{L}\p{N}.,-])(?:[A-Z]{1,2}-)?[0-9]{4,5}(?: ?[A-Z]{2})? (?!(?:Kilo|Meil|Umdr|Zyklen|Stops|Starts|Cycles|Ohm|Hertz|Volt|Newton|Miles|Euro|Stund|Meter|Service|Years|Times))\p{Lu}\p{Ll}{3,}/gu,
  /(?<![\p{L}\p{N}])[A-Z]{1,2}[0-9][A-Z0-9]? ?[0-9][ABD-HJLNP-UW-Z]{2}(?![\p{L}\p{N}])/gu,
  /(?<!\p{L})(?:I |we |he |she |who |owner )?(?:lives?|living|stays?) (?:at|in|on) (?:the )?(?:number )?(?:[0-9]+ )?\p{Lu}[\p{L}'’-]+/gu,
  /(?<!\p{L})(?:P\.? ?O\.? ?Box|Postfach|Boîte postale|Apartado) ?[0-9]+/giu,
  /(?<!\p{L})(?:The )?\p{Lu}[\p{L}'’]+ (?:Cottage|Farm|Farmhouse|Lodge|Rectory|Vicarage|Manor|Bungalow|Villa|Mill|Grange)(?!\p{L})/gu,
];

/** @param {string} text @returns {[number, number][]} */
export function addresses(text) {
  return spans(HOUSES, text);
}

const CAPITAL = String.raw`\p{Lu}[\p{Ll}\p{M}'’]+(?:-\p{Lu}[\p{Ll}\p{M}'’]+)?`;
const PART = String.raw`(?:(?:[DLO]['’]|Mac|Mc)?${CAPITAL}|\p{Lu}\.)`;
const OF = String.raw`(?: (?:von|van|de|der|den|del|della|di|da|dos|le|la|zu|ten|ter|bin|al|af))*`;
const STRONG =
  "thanks? (?:a lot |again |so much |very much )?(?:go(?:es)? )?to|thank you,?|thanks,?|thx,?(?: to)?|credits? (?:goes |go )?to|credits?|cheers,?(?: to)?|kudos to|props to|hat tip to|regards,?|greetings,?(?: from)?|yours,?|courtesy of|ask(?:ed|ing)?(?: for)?|(?:speak|talk|spoke|talked) (?:to|with)|my name(?: is|['’]s)|name is|i am called|call me|signed,?(?: by)?|my (?:good |old |best )?(?:friend|mate|pal|buddy|neighbou?r|brother|sister|dad|father|mum|mother|uncle|aunt|cousin|son|daughter|wife|husband|colleague|nephew|niece|girlfriend|boyfriend|mechanic)|(?:the |a )?(?:mechanic|foreman|owner|rider|seller|previous owner|neighbou?r|friend|mate),?(?: (?:is|was|called|named))?|named|called|written by|reported by|told by|shown by|photo(?:s|graphs?)? by|pictures? by|drawn by|found by|fixed by|mended by|repaired by|measured by|diagnosed by|done by|lent by|borrowed from|bought from|heard from|tip from|help from|dear|c\\/o|attn\\.?|ich heiße|ich bin|mein name ist|dank an|danke an|gruß|grüße(?: von)?|mfg|frag(?:t|en)?(?: nach)?|gemeldet von|repariert von|mein (?:freund|kumpel|nachbar|bruder)|je m['’]appelle|je suis|merci à|demandez|mon (?:ami|voisin|frère)|me llamo|soy|gracias a|pregunta por|mi (?:amigo|vecino|hermano)|mi chiamo|grazie a|chiedi di|ik heet|mijn naam is|bedankt|vraag naar";
const TITLE = String.raw`(?:Mr|Mrs|Ms|Mx|Miss|Mister|Dr|Prof|Professor|Sir|Capt|Captain|Sgt|Sergeant|Uncle|Aunt|Auntie|Herrn?|Frau|Familie|Onkel|Tante|Mme|Mlle|Monsieur|Madame|Signora?|Señora?|Senhora?|Meneer|Mevrouw|Dhr|Mevr|Pan|Pani|Hr|Fru|M)`;
const NO_NAME = String.raw`(?!(?:The|This|That|These|Those|It|Its|He|She|We|They|You|My|His|Her|Our|Your|Then|After|Before|When|While|With|Without|And|But|Or|If|In|On|At|To|From|For|By|Of|No|Not|All|New|Old|Both|One|Two|Three|First|Second|Last|Only|Engine|Bike|Battery|Lamp|Plug|Cable|Everything|Nothing|Der|Die|Das|Den|Dem|Im|Am|Ein|Eine|Nach|Vor|Mit|Bei|Le|La|Les|Il|Elle|Un|Une|El|Los|Las|Una|Dunlin|Bittern|Curlew|Ostrel|Spring|Regulator|Regler|Stecker|Hand|Handbuch|Schaltplan|Werkstatt|Regen|Check|Charging|Green|Owners|Circle|Section|Chapter|Way|Wires|Valve|Radio|System|Test|Report|Mode|Warranty|Parts|Number|Fuse|Remove|Disconnect|Side|Accident|Machine|Ohm|January|February|March|April|May|June|July|August|September|October|November|December|Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday)(?!\p{L}))`;
const SMALL = "my name(?: is|['’]s)|ask for|thanks to|thanks|tack|hilsen|kiitos|groetjes,?|thx to|my mate|mr\\.?|mrs\\.?|herr|frau|monsieur|mme|regards,?|i am called|call me|ich heiße|je m['’]appelle|me llamo|mi chiamo";
const NO_SMALL = "the|a|an|my|his|her|our|this|that|these|those|you|all|it|some|any|both|help|new|one|two|for|and|in|on|at|to|not|no|der|die|das|ein|me|when|if|it's|its|them|him|us|are|better|dielectric|again|everybody|everyone|who|needs|heated|grease|cold|warm|good|bad|more|less|had|has|was|is|said|says|found|also";
const SAID_OF = String.raw`owners?|rider|seller|buyer|customer|member|contact|reporter|author|credit|photo|picture|mechanic|name|signed|from|besitzer|halter|fahrer|kontakt|propriétaire|dueño|proprietario|eigenaar`;
const NAMES = [
  new RegExp(String.raw`(?<=(?:^|[^\p{L}])(?:${caseless(STRONG)}) )${NO_NAME}${PART}(?:${OF} ${PART})*`, "gu"),
  new RegExp(String.raw`(?<!\p{L})${TITLE}\.? ${NO_NAME}${PART}(?:${OF} ${PART})*`, "gu"),
  // Without capitals, behind what hardly anything but a name stands behind.
  new RegExp(String.raw`(?<=(?:^|[^\p{L}])(?:${caseless(SMALL)}) )(?!(?:${NO_SMALL})(?!\p{L}))\p{Ll}{3,}(?!\p{L})(?! (?:plug|part|parts|relay|code|codes)(?!\p{L}))`, "gu"),
  new RegExp(String.raw`(?<!\p{L})(?:${caseless(SAID_OF)}) ?[:=] ?${NO_NAME}\p{Lu}[\p{L}.'’-]+(?: \p{Lu}[\p{L}.'’-]+)*`, "gu"),
  // Two words with capitals side by side, and a thing of somebody's.
  new RegExp(String.raw`(?<![\p{L}\p{N}'’.-])${NO_NAME}(?:${CAPITAL}|(?:\p{Lu}\. ?)+)${OF} ${NO_NAME}(?:[DLO]['’]|Mac|Mc)?${CAPITAL}(?!\p{L})`, "gu"),
  new RegExp(String.raw`(?<![\p{L}'’-])${NO_NAME}${CAPITAL}['’]s (?:bike|garage|shed|workshop|place|machine|house|barn|battery|tool|multimeter|mechanic|wife|brother|friend)`, "gu"),
  new RegExp(String.raw`(?<!\p{L})(?:by|from|with|told|says|said|met|via|and|von|bei|mit|par|chez|avec|por|con|da|door|met) ${NO_NAME}(?:${CAPITAL})(?= (?:at|in|from|of|who|says?|said|told|found|fixed|mended|lent|showed|measured|has|had|helped|did|made|wrote|on|über|aus|hat)(?!\p{L})|[.,;!?]|$)`, "gu"),
  new RegExp(String.raw`(?<![\p{L}'’.-])${NO_NAME}${CAPITAL} (?:lent me|told me|helped|showed me|says|said|found it|fixed it|mended it|measured|and I|from the club|at the club|next door)(?!\p{L})`, "gu"),
  // A name below a letter.
  new RegExp(String.raw`(?<=(?:${caseless("regards|thanks|cheers|greetings|yours|best|gruß|grüße|salut|saludos|ciao")})[,.!]?\s{1,3})(?:${PART} ){0,2}${NO_NAME}${PART}\s*$`, "gu"),
];

/** Each letter in both forms: the words around a name are asked for in any, the name itself with its capital. @param {string} pattern */
function caseless(pattern) {
  return pattern.replace(/(?<!\\)\p{L}/gu, (letter) => `[${letter}${letter.toUpperCase()}]`);
}

/** @param {string} text @returns {[number, number][]} */
export function names(text) {
  return spans(NAMES, text);
}
