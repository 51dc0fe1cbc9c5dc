"""The shapes of plates by country, and the words that name a plate.

`SURE` shapes count alone: hardly anything else has them. `LIKELY` ones are also those of part numbers, terminals and
readings; they count where the words around speak of a machine that somebody saw. The shapes are those that the
countries' vehicle registration laws publish; from memory. The words are common knowledge of the languages, no source.
"""

from __future__ import annotations

_NO_DISTRICT = (
    "ABS|ECU|CAN|SAE|ISO|DIN|API|OEM|LED|USB|TPS|MAP|DOT|EN|IEC|VDE|RS|PT|KTY|SMD|TO|IP|AWG|SW|PH|PZ|TX|OBD|MIL|JIS|"
    "PIN|REV|VER|ID|NO|NR|ART|REF|LH|RH|HT|LT"
)
_NO_FIRST = (
    rf"(?!(?:{_NO_DISTRICT}|IC|FIG|TYP|KIT|BSP|UNC|UNF|CCA|RON|GL|MT|HW|CH|AC|DC|AF|BS|AM|PM|TDC|PCB|NC|CC)(?![A-Z]))"
)
_NO_LETTERS = (
    "RPM|KPH|MPH|LBS|PSI|TDC|BTDC|CCM|KMH|SWG|DTC|HEX|BSP|PIN|VDC|VAC|JAN|FEB|MAR|APR|MAY|JUN|JUL|AUG|SEP|OCT|NOV|DEC|"
    "EUR|USD|GBP|CHF|LED|ABS|ECU|CCA|NUT|CAN|RON|OHM|BAR|KPA|HPA|DOT|UNC|UNF|KHZ|MHZ"
)
_UNITS = (
    "V|A|W|VA|MA|AH|CC|MM|CM|KM|NM|KG|HZ|KW|PS|HP|BAR|LED|EN|XR|RS|RR|GS|GT|LE|SE|ML|MS|MV|KV|FT|LB|IN|OF|TO|AC|DC|NO|"
    "PIN|AT|ON|OR|AF|AM|PM|DIN|ISO|SAE|EUR"
)
_COLOUR = "(?:B|BK|BL|BR|BU|G|GN|GR|GY|L|LB|LG|O|OR|P|PK|R|RD|V|VI|W|WH|Y|YE|SW|WS|RT|GE|BN|OG|VT)"
_NO_COLOURS = rf"(?!{_COLOUR}[ -]{_COLOUR}(?![A-Z]))"
_COUNTY = "(?:C|CE|CN|CW|D|DL|G|KE|KK|KY|L|LD|LH|LK|LM|LS|MH|MN|MO|OY|RN|SO|T|TN|TS|W|WD|WH|WW|WX)"
_CANTON = "(?:AG|AI|AR|BE|BL|BS|FR|GE|GL|GR|JU|LU|NE|NW|OW|SG|SH|SO|SZ|TG|TI|UR|VD|VS|ZG|ZH)"
_STATE_OF_INDIA = (
    "(?:AN|AP|AR|AS|BH|BR|CG|CH|DD|DL|DN|GA|GJ|HP|HR|JH|JK|KA|KL|LA|LD|MH|ML|MN|MP|MZ|NL|OD|OR|PB|PY|RJ|SK|TN|TR|TS|"
    "UK|UP|WB)"
)
_PROVINCE = "(?:GP|MP|NC|NW|FS|EC|ZN|L)"
_CYRILLIC = "[АВЕКМНОРСТУХІ]"
"""The letters of Cyrillic plates: those that look like Latin ones."""
_NO_UNIT_BEHIND = (
    rf"(?! ?(?:{_UNITS}|[VAWΩ°%])(?![A-Za-z]))(?! ?(?:mm|cm|km|kg|rpm|bar|ohm|V|mV|mA|Nm|psi|cc|ml)(?!\w))"
)

SURE = (
    # Germany, and Austria with hyphens; colours of wires have three digits at least.
    rf"(?!(?:{_NO_DISTRICT})-)(?!{_COLOUR}-{_COLOUR}[ -]?[0-9]{{1,2}}(?![0-9]))[A-ZÄÖÜ]{{1,3}}-[A-ZÄÖÜ]{{1,2}}[ -]?"
    rf"[1-9][0-9]{{1,3}}[EH]?",
    rf"(?!(?:{_NO_DISTRICT})-){_NO_COLOURS}[A-ZÄÖÜ]{{1,3}}-[A-ZÄÖÜ]{{1,2}} [1-9][EH]",
    rf"[A-Z]{{1,2}}-[1-9](?:[0-9]{{1,2}} ?(?!(?:{_UNITS})(?![A-Z]))|[0-9]{{3,5}} ?)[A-Z]{{1,3}}",
    # The same with blanks, as they are spoken: two letters behind the district, or three digits.
    rf"{_NO_FIRST}{_NO_COLOURS}[A-ZÄÖÜ]{{1,3}} (?!{_UNITS})[A-ZÄÖÜ]{{2}} [1-9][0-9]{{1,3}}[EH]?{_NO_UNIT_BEHIND}",
    rf"{_NO_FIRST}[A-ZÄÖÜ]{{1,2}} [1-9][0-9]{{2,4}} (?!(?:{_NO_LETTERS}|{_UNITS})(?![A-Z]))[B-DF-HJ-NP-TV-Z]{{2,3}}",
    # United Kingdom since 2001, since 1983, since 1963.
    rf"[A-HJ-PR-Y]{{2}}[0-9]{{2}}[ -]?(?!{_NO_LETTERS})[A-HJ-PR-Z]{{3}}",
    rf"[A-HJ-NPR-TV-Y][1-9][0-9]{{2}} ?(?!{_NO_LETTERS})[A-HJ-PR-Z]{{3}}",
    rf"{_NO_FIRST}[A-HJ-PR-Y]{{3}} ?[1-9][0-9]{{2}}(?!V|A|W|F|K|C)[B-HJ-NPR-TV-Y]",
    # France since 2009 and before, Italy, Slovakia, others that share the shape.
    rf"(?!AC|DC|EN|MY)[A-HJ-NP-TV-Z]{{2}}(?P<between>[ -]?)[0-9]{{3}}(?P=between)(?!{_UNITS})[A-HJ-NP-TV-Z]{{2}}",
    rf"(?!AC|DC|EN|MY)[A-Z]{{2}}[ -][0-9]{{3}}(?!{_UNITS})[A-HJ-NP-TV-Z]{{2}}",
    rf"[0-9]{{2,4}}-(?!{_NO_LETTERS})[A-HJ-NP-TV-Z]{{2,3}}-[0-9]{{2}}",
    rf"[0-9]{{3,4}} (?!{_NO_LETTERS}|{_UNITS})[A-HJ-NP-TV-Z]{{2,3}} [0-9]{{2}}",
    # The Netherlands, Portugal, Belgium: letters and digits in three groups with hyphens.
    r"[A-Z]{2}-[0-9]{2}-[A-Z]{2}|[A-Z]{2}-[A-Z]{2}-[0-9]{2}|[0-9]{2}-[A-Z]{2}-[0-9]{2}|[0-9]{2}-[0-9]{2}-[A-Z]{2}",
    rf"[0-9]{{2}}-[A-Z]{{2}}-[A-Z]{{2}}|[A-Z]-[0-9]{{3}}-[A-Z]{{2}}|[0-9]-(?!{_NO_LETTERS})[A-Z]{{3}}-[0-9]{{2,3}}",
    rf"[A-Z]{{2}}-[0-9]{{3}}-[A-Z]|[0-9]{{2}}-(?!{_NO_LETTERS})[A-Z]{{3}}-[0-9]|[0-9]-[A-Z]{{2}}-[0-9]{{3}}",
    # Spain, before 2000 and since, which has no vowels; years and capacities stand before names of models.
    r"[A-Z]{1,2}-[0-9]{4}-[A-Z]{1,2}",
    rf"(?!19|20|[0-9]{{2}}[05]0)[0-9]{{4}}[ -]?(?!{_NO_LETTERS})[BCDFGHJKLMNPRSTVWXYZ]{{3}}",
    # Ireland: year, county, number.
    rf"(?:[0-9]{{2}}|[12][0-9][12])-{_COUNTY}-[0-9]{{3,6}}|[12][0-9][12] ?{_COUNTY} ?[0-9]{{3,6}}{_NO_UNIT_BEHIND}",
    # Switzerland with the dot that its plates have, and as one reads them: in two groups, or in one of five and six.
    rf"{_CANTON} ?[·•] ?[0-9]{{1,6}}",
    rf"{_CANTON} ?-? ?[1-9][0-9]{{1,2}} [0-9]{{3}}(?! ?[0-9]){_NO_UNIT_BEHIND}|"
    rf"{_CANTON} ?-? ?[1-9][0-9]{{4,5}}(?! ?[0-9]){_NO_UNIT_BEHIND}",
    # Poland: a letter behind the digits or among them.
    rf"(?!(?:{_NO_DISTRICT})(?![A-Z]))[A-Z]{{2,3}} [0-9]{{4}}(?!V|A|W)[ACE-HJ-NP-Y]",
    # Croatia, Slovenia, Serbia, Romania, Hungary since 2022, Turkey.
    r"[A-ZČŠŽĐ]{2}[ -]?[0-9]{3,4}-[A-ZČŠŽĐ]{1,2}|[A-ZČŠŽ]{2} [A-Z]{2}-[0-9]{3}|[A-Z]{2}[ -][A-Z]{2}-[0-9]{3}",
    rf"{_NO_FIRST}[A-Z]{{1,2}}[ -][0-9]{{2,3}}[ -](?!{_NO_LETTERS}|{_UNITS})[B-DF-HJ-NP-TV-Z][A-PR-Z]{{2}}",
    rf"(?:0[1-9]|[1-7][0-9]|8[01]) (?!{_NO_LETTERS}|{_UNITS})[A-PR-VYZ]{{2,3}} [0-9]{{2,4}}{_NO_UNIT_BEHIND}",
    # Bulgaria, Ukraine, Russia; the last two also in Cyrillic letters.
    r"(?!AC|DC)[ABCEHIKMOPTXY]{2} [0-9]{4} [ABCEHIKMOPTXY]{2}",
    rf"{_CYRILLIC} ?[0-9]{{3}} ?{_CYRILLIC}{{2}} ?[0-9]{{2,3}}|{_CYRILLIC}{{2}} ?[0-9]{{4}} ?{_CYRILLIC}{{2}}|"
    rf"[0-9]{{4}} ?{_CYRILLIC}{{2}} ?[0-9]{{2,3}}",
    # Czechia, where the letter is none of a number in base sixteen.
    r"[1-9][HJKLMPSTUZ][0-9A-Z] ?[0-9]{4}",
    # India, South Africa.
    rf"{_STATE_OF_INDIA}[ -]?[0-9]{{2}}[ -]?[A-Z]{{1,3}}[ -]?[0-9]{{4}}|[0-9]{{2}} ?BH ?[0-9]{{4}} ?[A-Z]{{1,2}}",
    rf"(?:C[A-Z]{{1,2}}|N[A-Z]{{1,3}}) [0-9]{{3}}-[0-9]{{3}}|[A-Z]{{3}} ?[0-9]{{3}} ?{_PROVINCE}|"
    rf"[A-Z]{{2}} ?[0-9]{{2}} ?[A-Z]{{2}} ?{_PROVINCE}",
    # California, Brazil, Argentina, Mexico, Singapore, Victoria.
    rf"[1-9](?!{_NO_LETTERS})[A-Z]{{3}}[0-9]{{3}}|[A-Z]{{3}}[0-9][A-J][0-9]{{2}}|[A-Z]{{3}}-[0-9]{{2}}-[0-9]{{2}}",
    rf"(?!AC|DC)[A-Z]{{2}}[0-9]{{3}}(?!{_UNITS})[A-Z]{{2}}|[SFG][A-Z]{{2}} [0-9]{{1,4}} [A-Z]|[0-9][A-Z]{{2}}[ "
    rf"-][0-9][A-Z]{{2}}",
    # Japan, Korea, China.
    r"[一-鿿]{1,4} ?[0-9]{0,3} ?[ぁ-ん] ?[0-9]{1,2}[-・ ]?[0-9]{2}|[0-9]{2,3} ?[가-힣] ?[0-9]{4}",
    r"[京津沪渝冀豫云辽黑湘皖鲁新苏浙赣鄂桂甘晋蒙陕吉闽贵粤青藏川宁琼][A-Z][ ·•]?[A-Z0-9]{5,6}",
)
SMALL = (
    r"(?!no|nr|mk|ip|ph|pz|tx|sw|ch)[a-z]{2}[0-9]{2} (?!the|and|was|had|for|not|all|one|two|are|but|off|out|new|old|"
    r"mm|rpm|bar|per|der|die|das|"
    r"und|ist)[a-z]{3}(?![\w-])",
    rf"(?!(?i:{_NO_DISTRICT})-)(?!(?:{_COLOUR.lower()})-(?:{_COLOUR.lower()})-)[a-zäöü]{{1,3}}-(?!(?:to|of|in|at|is|"
    rf"am|im|on|no)-)"
    r"[a-z]{1,2}-[1-9][0-9]{1,3}(?![\w.]|-[0-9])|"
    r"[a-z]{1,2}-[1-9][0-9]{3,4}(?!v|a|w|k|cc|mm|km|nm|rpm|ps|hp|hz)[a-z]{1,2}(?![\w-])",
)
"""Those that even small letters do not hide, as in ids and names of files."""
LIKELY = (
    rf"{_NO_FIRST}(?!{_NO_LETTERS})[A-ZÄÖÜ]{{1,4}}[ ·-]?[0-9]{{2,6}}",
    rf"{_NO_FIRST}(?!{_NO_LETTERS})[A-ZÄÖÜ]{{1,3}}[ ·-]?[0-9]{{1,4}}[ ·-]?[A-ZÄÖÜ0-9]{{1,3}}",
    rf"{_NO_FIRST}[A-ZÄÖÜ]{{1,3}}[ ·-][A-ZÄÖÜ]{{1,3}}[ ·-]?[0-9]{{1,4}}[EH]?",
    rf"[0-9]{{1,4}}[ ·-]?(?!{_NO_LETTERS}|{_UNITS})[A-ZÄÖÜ]{{1,3}}[ ·-]?[0-9]{{2,5}}",
    rf"[0-9]{{2,4}}[ ·-]?(?!{_NO_LETTERS}|(?:{_UNITS})(?![A-Z]))[A-ZÄÖÜ]{{2,3}}",
    r"[A-ZÄÖÜ]{1,3}[ ·-][0-9]{2}[ ·-][0-9]{3}",
)

NAMES = (
    r"number ?-?plates?|licen[cs]e ?-?plates?|vanity plates?|plates?|registration(?: mark)?|registered(?: as)?|reg|"
    r"rego|"
    r"reg'd|vrm|vrn|licen[cs]e (?:no|number)|(?:bike|vehicle|machine) (?:no|nr|number)|tags?|(?:amtl\.? )?kennzeichen|"
    r"kennz|kfz(?:-kennzeichen)?|nummernschild(?:er|s)?|kontrollschild(?:er)?|nummerntafel|kz|(?:schild|nummer)|"
    r"immatriculation|immatriculée?s?|immat|plaques?(?: d['’]immatriculation)?|plaque minéralogique|placas?|chapa|"
    r"patente|dominio|matriculad[ao]|targ(?:a|he|ata|ato)|matr[ií]culas?|kentekens?|kentekenplaat|nummerpla(?:at|"
    r"ten?|de)|"
    r"nummerskilt|skilt|nummerskylt|registreringsnummer|reg\.?[ -]?(?:nr|nummer|no)|regnr|regskylt|skylt(?:en)?|"
    r"kjennemerke|"
    r"(?:nr|numer)\.? rej(?:estracyjny)?|rejestracj[ai]|rejestracyjn[aey]|tablic[aey]|spz|špz|ečv|rz|"
    r"(?:poznávací )?značk[ay]|registrsk[aá] oznaka|registracij[ae]|tablice|înmatricular\w*|numărul|rendszám\w*|"
    r"rekisteri(?:numero|kilpi|tunnus)|registarska|númeraplata|plaka(?:sı)?|kilpi|"
    r"номер|госномер|номерной знак|πινακίδα|ナンバー|车牌|번호판"
)
"""Behind which any shape counts, in any case of letters."""
HINTS = (
    "skilt",
    *(
        "plate",
        "registration",
        "registered",
        "registreringsnummer",
        "rego",
        "reg ",
        "reg.",
        "reg:",
        "reg=",
        "reg#",
        "regnr",
    ),
    *(
        "regn",
        "regskylt",
        "reg'd",
        "reg-n",
        "vrm",
        "vrn",
        "license",
        "licence",
        "bike n",
        "vehicle n",
        "machine n",
        "tag ",
        "tag:",
        "tags",
        "kennz",
        "kfz",
    ),
    *(
        "schild",
        "tafel",
        "kz ",
        "kz:",
        "kz.",
        "nummer",
        "immat",
        "plaque",
        "placa",
        "chapa",
        "patente",
        "dominio",
        "matr",
        "targ",
    ),
    *(
        "kenteken",
        "skilt",
        "skylt",
        "kjennemerke",
        "nr rej",
        "nr. rej",
        "numer",
        "rejestr",
        "nr rej",
        "tablic",
        "spz",
        "špz",
    ),
    *(
        "ečv",
        "rz ",
        "rz:",
        "značk",
        "înmatric",
        "număr",
        "rendszám",
        "rekisteri",
        "númeraplata",
        "plaka",
        "kilpi",
        "номер",
    ),
    *("πινακίδα", "ナンバー", "车牌", "번호판"),
)
"""One of these, in small letters, stands in every text in which a word names a plate."""
AROUND = (
    *(
        "plate",
        "parked",
        "parks next",
        "stood next",
        "stood beside",
        "stood outside",
        "regist",
        "stolen",
        "on the back",
    ),
    *(
        "on the tail",
        "in the photo",
        "in the picture",
        "photo of",
        "picture of",
        "pic of",
        "video of",
        "foto",
        "dashcam",
    ),
    *("schwärz", "verpixel", "blur", "pixel", "blacked out", "black out", "auf dem bild", "sur la photo", "rider of"),
    *(
        "number on the",
        "number on his",
        "number on her",
        "seen at",
        "seen on",
        "seen in",
        "spotted",
        "saw a ",
        "saw the ",
    ),
    *("saw it", "saw him", "saw her", "saw his", "historic", "oldtimer", "kennz", "cape side", "insured as", "mot for"),
    *("mot on", "mot expired", "dvla", "dmv", "tüv für", "zulassung", "zugelassen", " my reg", "with the reg"),
)
"""Words, in small letters, of a machine that somebody saw, near which the likely shapes count."""
