"""Words for streets, houses and towns in several languages, and the patterns they make. Common knowledge, no source.

Words that also mean a part or a length (German Weg, Ring; English Drive, Way) count only where nothing technical
stands beside them.
"""

from __future__ import annotations

_CAPITAL = "[A-ZÀ-ÖØ-ÞĄĆČĎĘĚŁŃŇŘŚŠŤŮŹŻŽĐİŞĞŐŰȘȚ]"
_NAME = rf"{_CAPITAL}[\w'’.-]{{1,30}}"
NUMBER = (
    r"[1-9][0-9]{0,3}(?:-?[a-zA-Z](?![\w'’])| (?:[a-hB-H](?![\w'’/])|A(?= [0-9])))?(?:(?:[-/]| ?/ "
    r"?)[0-9]{1,4}[a-zA-Z]?|-[IVX]{1,4}(?!\w)){0,3}"
    r"(?:(?:,? (?:m\.|lok\.|bus|kpl|hs|lgh|app\.|apt\.?|as\.|door) ?)[0-9]{1,4})?(?![\w.,-]?[0-9])(?!\w)"
)
"""A house number, with what follows it: 12a, 3/2/14, 15-2, 17 m. 9."""
_UNIT = (
    r"(?! ?(?:mm|cm|m|km|nm|Nm|v|V|a|A|W|w|ohms?|Ω|kΩ|bar|rpm|min|kg|h|s|ms|Hz|°|%|Ah|mA|mV|l|ml|psi|mi|miles|Meter|"
    r"Minuten|Stunden|Kilometer|Umdrehungen|times|mal)(?!\w))(?! ?[°%])"
)
_NO_STREET = (
    r"(?!(?:Feder|Kolben|Leer|Hub|Schalt|Verstell|Brems|Strom|Steck|Sitz|Stell|Lager|Rück|Mess|Pedal|Spann|Um|Heim|"
    r"Fahr|Anfahrts|Arbeits|Regel|Stau|Park|Stand|Ein|Kabel|Einbau|Kriech|Signal|Ansaug|Luft|Leitungs|Roll|Aus|Rad)"
    r"(?:weg|platz)(?!\w))"
)
"""German words of the trade that end as streets do."""
_PARTS_IN = (
    "Stecker|Regler|Pin|Kabel|Relais|Rotor|Stator|Motor|Anlasser|Sensor|Ausgang|Eingang|Kontakt|Punkt|Stift|Schalter|"
    "Zylinder|Ventil|Gang|Rad|Ritzel|Bolzen|Winter|Sommer|Herbst|Frühjahr|Januar|Februar|März|April|Mai|Juni|Juli|"
    "August|September|Oktober|November|Dezember|Jahr|Anschluss|Klemme|Multimeter|Messgerät|Tacho|Leerlauf|Stand|Kopf|"
    "Rahmen|Lenker|Tank|Vergaser|Schritt|Bild|Handbuch|Kapitel|Test|Schnitt|Ende|Anfang|Platz|Tag|Monat|Minimum|Maximum"
)
_GERMAN_PREPOSITION = (
    r"(?:[Aa]m|[Aa]n de[rnm]|[Ii]m|[Ii]n de[rnm]|[Aa]uf de[rm]|[Zz]um|[Zz]ur|[Uu]nter den|[Hh]inter de[rmn]|[Vv]or "
    r"de[rm]|"
    r"[Bb]eim|[Bb]ei de[rnm]|[Üü]ber de[rn]|Alte[rn]?|Obere|Untere|Neue[rn]?|Kleine|Große|Lange)"
)
_AT_HOME = (
    r"(?:[Ww]ohn|[Aa]dresse|[Aa]nschrift|[Aa]bzuholen|[Aa]bhol|[Zz]u Hause|[Dd]aheim|[Gg]arage|[Hh]alle|"
    r"[Ww]erkstatt|[Ss]teht|[Pp]ost an|[Bb]esuch)"
)

_TYPES = (
    r"Street|St\.|St|Road|Rd\.?|Avenue|Ave\.?|Lane|Ln\.?|Crescent|Cres\.?|Terrace|Tce|Boulevard|Blvd\.?|Gardens|"
    r"Gdns|Mews|Close|"
    r"Court|Ct|Drive|Dr\.?|Way|Grove|Hill|Row|Square|Sq|Place|Pl|Walk|Rise|Park|Parade|Pde|Highway|Hwy|Parkway|Pkwy|"
    r"Green|"
    r"Wharf|Quay|Yard|Cottages?|House|Villas?|View|Vale|End|Path|Loop|Trail|Circle|Alley|Esplanade|Common|Fields?|"
    r"Meadows?|Buildings|Mansions|Estate|Wynd|Brae|Gate|Passage|Arcade|Bank|Heights|Farm|Croft|Nook|Turnpike|Marg|Nagar"
)
_SURE_TYPES = (
    r"Street|St\.?|Road|Rd\.?|Avenue|Ave\.?|Lane|Ln|Crescent|Terrace|Boulevard|Gardens|Close|Drive|Hill|Row|Mews|Grove"
)
_SMALL_TYPES = r"street|st\.?|road|rd\.?|avenue|ave\.?|lane|crescent|cres|terrace|close|drive|grove|gardens|mews"
_NO_SMALL_NAME = (
    r"(?!(?:km|kms|mile|miles|mi|m|metres?|meters?|yards?|feet|ft|way|lanes?|hours?|minutes?|mins?|seconds?|wheels?|"
    r"stroke|of|"
    r"the|on|per|a|an|good|bad|wet|dry|gravel|mountain|main|straight|tyres?|tires?|speed|in|at|to|for|and|or|from|with|"
    r"degrees?|rpm|mph|kmh|days?|weeks?|months?|years?|bends?|more|by|mm|cm|inch|inches|v|volts?|amps?|a|nm|times|"
    r"star|lap|season|country|open|public|forest|dirt|b|test|off|same|side|back|fast|slow|left|right|hand|city|town|"
    r"motorway|"
    r"tight|too|very|up|down|cross|hard|end)(?!\w))"
)
_NO_PART_BEHIND = (
    r"(?! (?:valve|plug|connector|chain|socket|shaft|gear|belt|side|bar|bolt|sprocket|circuit|wire|unit|screw|nut|"
    r"bearing|pin|pulley|wheel|ratio|fuse|mode|light|lamp|test|Test|terminal)s?(?!\w))"
)

_ROMAN = (
    r"Via|Viale|V\.le|Piazza|P\.zza|Piazzale|Corso|C\.so|Vicolo|Strada|Largo|Borgo|Contrada|Lungomare|Località|"
    r"Loc\.|Salita|"
    r"Calle|C/|C\.|Avenida|Avda\.?|Av\.|Paseo|Pº|Plaza|Pza\.|Plza\.|Camino|Ronda|Carrera|Cra\.?|Carretera|Ctra\.|"
    r"Travesía|"
    r"Callejón|Carrer|Passeig|Avinguda|Rambla|Rua|R\.|Travessa|Praça|Alameda|Estrada|Beco|Rodovia|Urbanización|Urb\.|"
    r"Strada|Str\.|Bulevardul|Bd\.|Aleea|Calea"
)
_FRENCH = (
    r"rue|avenue|av\.|boulevard|bd|bld|chemin|impasse|allée|quai|route|cours|place|sentier|square|passage|faubourg|"
    r"cité|"
    r"ruelle|venelle|montée|lotissement|hameau|esplanade|rond-point|traverse|villa"
)
_SURE_FRENCH = r"rue|boulevard|chemin|impasse|allée|quai|ruelle|sentier|hameau|lotissement|faubourg|venelle"
_OF = r"(?:(?:de|du|des|la|le|les|l['’]|d['’]|aux?|à) ?){0,3}"
_HOUSE = (
    r"Cottage|Farm(?:house)?|Lodge|Barn|Forge|Mill|Rectory|Vicarage|Manor|Bungalow|House|Hall|Maltings|Villa|"
    r"Stables|Croft|"
    r"Grange|Oast|Granary|Smithy"
)
_LIVES = (
    r"(?:lives?|living|house|parked|stands?|stood|kept|stored|lock-up|home|collect(?:ed)?|pick(?:ed)? (?:it )?up|"
    r"address|workshop|shed|garage)"
)

_TOWN = (
    r"(?!(?:Kilo|Meil|Umdr|Zyklen|Starts?|Stops?|Cycles|Relay|Ohm|Hertz|Volt|Newton|Service|Miles|Euro|Stund|Kilom|"
    r"Meter|Stück|Prozent)[a-z]*)[A-ZÀ-ÖØ-ÞŁŚŻŽŠČŘ][^\W\d_A-Z]{3,30}"
)

_NO_POST_LETTERS = r"(?!RPM|KM|NM|MM|CM|EN|OF|CC|PS|HP|KW|AH|VA|MA|MV|OR|TO|ON|AT|IN)"

_STATES = (
    "A[KLRZ]|C[AOT]|D[CE]|FL|GA|HI|I[ADLN]|K[SY]|LA|M[ADEINOST]|N[CDEHJMVY]|O[HKR]|P[AR]|RI|S[CD]|T[NX]|UT|V[AT]|"
    "W[AIVY]"
)
"""Of the United States, by the two letters of the postal service."""

PATTERNS = (
    # German, Dutch, Scandinavian, Finnish: the number behind.
    rf"(?<!\w){_NO_STREET}{_CAPITAL}[\w.'’-]{{1,40}}(?:straße|strasse|str\.|gasse|allee|chaussee|weg|platz|damm|ufer|"
    r"straat|laan|gracht|plein|kade|singel|steeg|dijk|dreef|gatan|gade|gata|gate|gaten|vägen|veien|vegen|vei|vej|"
    r"stræde|gränd|"
    r"stigen|torget|backen|bakken|katu|kuja|polku|kaari|(?<!ran)(?<!ar)tie)"
    rf"(?: |(?<=[.])(?=[0-9]))(?:[Nn]r\.? ?)?{NUMBER}{_UNIT}",
    rf"(?<!\w){_CAPITAL}[\w.'’-]{{1,40}}[ -](?:Straße|Strasse|Str\.|Gasse|Allee|Weg|Platz|Chaussee|Damm|Ufer|Ring|"
    rf"Steig|Markt|"
    rf"Straat|Laan|Vej|Gade|Gate|Vei|Allé|Väg|Gata|Katu) (?:[Nn]r\.? ?)?{NUMBER}{_UNIT}",
    rf"(?<!\w)[a-zäöüéåø][\w'’-]{{2,40}}(?:straße|strasse|str\.|gasse|allee|straat|laan|gracht|gatan|vägen|veien|katu)"
    rf" {NUMBER}{_UNIT}",
    # German with a preposition, where a letter, a town or a word for a home proves it.
    rf"(?<!\w){_GERMAN_PREPOSITION} (?!(?:{_PARTS_IN}))(?:{_CAPITAL}[\w-]{{2,30}} ){{1,2}}"
    rf"(?:[1-9][0-9]{{0,2}} ?[a-h](?!\w)|[1-9][0-9]{{0,2}}(?=(?:, (?:[0-9]{{4,5}} )?| (?:[0-9]{{4,5}}|in) "
    rf"){_TOWN}(?:$|[.,;!?)]))){_UNIT}",
    rf"(?<!\w){_AT_HOME}[^.!?;0-9]{{0,24}}(?<!\w){_GERMAN_PREPOSITION} "
    rf"(?!(?:{_PARTS_IN}))(?:{_CAPITAL}[\w-]{{2,30}} ){{1,2}}"
    rf"[1-9][0-9]{{0,2}}(?![0-9.,])(?!\w){_UNIT}",
    # Slavic, Hungarian, Romanian, Turkish, Greek.
    rf"(?<!\w)(?:ul\.|ulica|ulicy|ulice|al\.|aleja|alei|pl\.|plac|placu|os\.|osiedle|osiedlu|nám\.|náměstí|tř\.|"
    rf"třída|trg|ulici)"
    rf" ?{_NAME}(?: {_NAME}){{0,2}} {NUMBER}",
    rf"(?<!\w){_CAPITAL}[\w-]{{1,30}}(?: {_CAPITAL}?[\w-]{{2,30}})? (?:ulica|cesta|trg|utca|u\.|út|útja|tér|körút|"
    rf"köz|sokak|sok\.|"
    rf"caddesi|cad\.|bulvarı|ulice|náměstí|třída) (?:[Nn]o[.:]{{0,2}} ?|br\. ?|č\. ?)?{NUMBER}{_UNIT}",
    rf"(?<!\w){_CAPITAL}[^\W\d_A-Z]{{2,30}}(?:á|ova|ská|cká|ní|ého|ých|ích|ova|ska|cka) "
    rf"[1-9][0-9]{{0,3}}/[0-9]{{1,4}}[a-z]?(?![\w,.]?[0-9])",
    r"(?<!\w)(?:ул\.|улица|пр\.|просп\.|проспект|пер\.|переулок|бул\.|вул\.|вулиця) ?[А-ЯІЇЄ][\w-]{2,30},? (?:д\. ?|"
    r"дом ?|буд\. ?)?[0-9]{1,4}",
    r"(?<!\w)(?:οδός|Οδός|Λεωφόρος|λεωφόρος|Λεωφ\.) [Α-ΩΆ-Ώ]\w{2,30} [0-9]{1,3}",
    # Boxes.
    r"(?<!\w)(?:Postfach|(?i:P\.? ?O\.? ?Box)|Postbus|Postboks|Apartado|Boîte postale|BP|Casella postale|Skrytka)"
    r" (?:[nN]r\.? )?[0-9]{2,6}(?!\w)",
    # English: the number in front.
    rf"(?<![\w.,:/+-])[1-9][0-9]{{0,4}}[a-zA-Z]?(?:[-/][0-9]{{1,4}}[a-zA-Z]?)?,? (?:[NSEW]\.? )?(?:{_NAME} "
    rf"){{1,3}}(?:{_TYPES})(?![\w-]){_NO_PART_BEHIND}",
    rf"(?<![\w.,:/+-])[1-9][0-9]{{0,4}}[a-zA-Z]?,? (?:[NSEWnsew]\.? |North |South |East |West "
    rf")?[1-9][0-9]{{0,2}}(?:st|nd|rd|th) "
    rf"(?:{_SURE_TYPES}|st\.?|street|ave\.?|avenue)(?!\w)",
    rf"(?<![\w.,:/+-])[1-9][0-9]{{0,3}}[a-z]?,? (?:{_NO_SMALL_NAME}[a-z][a-z'’]{{2,20}} "
    rf"){{1,2}}(?:{_SMALL_TYPES})(?![\w-])"
    r"(?! (?:tyres?|tires?|gear|legal|bikes?|use|side|circuit|shaft|works?|noise|surface))",
    rf"(?<!\w)(?:[0-9]{{1,3}}(?:st|nd|rd|th) (?:Cross|Main|Phase|Block|Stage|Floor)),? (?:{_NAME},? ){{0,2}}(?:Road|"
    rf"Rd|Street|Nagar|Layout|Lane|Marg|Colony)(?!\w)",
    r"(?<!\w)(?:House|Plot|Flat|Door|H\.) ?[Nn]o\.? ?[0-9]{1,4}[A-Za-z]?(?![\w.])",
    rf"(?<!\w)(?:Flat|Apt\.?|Apartment|Suite|Unit|Plot|Shop|Villa|H\. ?No\.?|House|Door) (?:[Nn]o\.? "
    rf"?)?[0-9]{{1,4}}[A-Za-z]?(?:[-/][0-9]{{1,4}})?, (?:[0-9]{{1,4}} )?(?:The )?{_NAME} {_NAME}",
    rf"(?<!\w)(?:The )?{_CAPITAL}[a-z'’]{{2,20}}(?: {_CAPITAL}[a-z'’]{{2,20}})? (?:{_HOUSE}),? "
    rf"(?:{_CAPITAL}[\w'’]{{2,20}} ){{1,2}}(?:{_SURE_TYPES})(?![\w-]){_NO_PART_BEHIND}",
    rf"(?<!\w){_LIVES}[^.!?;0-9]{{0,24}} (?:in|on|at|off|behind|from|is|to) (?:the )?(?:{_CAPITAL}[\w'’]{{2,20}} "
    rf"){{1,2}}(?:{_SURE_TYPES})(?![\w-]){_NO_PART_BEHIND}",
    rf"(?<![\w.,:/+-])[1-9][0-9]{{0,3}}[a-z]? The {_CAPITAL}[a-z'’]{{2,20}}(?:s|ings)?, {_CAPITAL}[a-z]{{2,}}",
    # In ids and names of files.
    r"(?<![\w-])(?:[a-z]+-)*[a-zäöüß]{3,30}(?:strasse|straße|gasse|allee|straat|laan|"
    r"gatan)-[1-9][0-9]{0,3}(?![\w.]*[0-9])",
    rf"(?<!\w){_CAPITAL}[\w'’-]{{2,30}} (?:Dijk|Plein|Gracht|Kade|Singel|Steeg|Hof|Dreef|Straat|Laan) "
    rf"{NUMBER}(?:-[IVX]{{1,4}})?(?!\w)",
    # French: the number in front, or behind as in Belgium.
    rf"(?<![\w.,:/+-])[1-9][0-9]{{0,3}}(?: ?(?:bis|ter|quater|[a-dA-D]))?,? (?i:{_FRENCH}) {_OF}{_NAME}",
    rf"(?<![\w.,:/+-])[1-9][0-9]{{0,3}}(?: ?(?:bis|ter|quater))?,? (?:{_SURE_FRENCH}) (?:(?:de|du|des|la|le|les|"
    rf"l['’]|d['’]|aux) ?){{1,3}}[a-zà-ÿ]{{3,20}}",
    rf"(?<!\w)(?i:{_SURE_FRENCH}|avenue|place) {_OF}{_NAME}(?: {_NAME})?,? (?:n° ?)?{NUMBER}{_UNIT}",
    # Italian, Spanish, Portuguese, Romanian: the number behind.
    rf"(?<!\w)(?:{_ROMAN}|viale|piazza|piazzale|corso|vicolo|calle|avenida|paseo|plaza|rua|travessa|carrer)"
    rf" ?(?!(?:Pin|Relay|Plug|Fuse|Stecker|Regler|Kabel|Klemme|Regulator|Relais|Sicherung|Bus|Line|Port|Connector|"
    rf"Terminal|Wire)(?!\w))"
    rf"(?:(?:de|del|della|delle|degli|dei|dell['’]|dello|da|do|das|dos|dels|d['’]|la|las|los|el) "
    rf"?){{0,2}}{_NAME}(?: (?:(?:de|del|di|da|do|e|y) )?{_NAME}){{0,3}}"
    rf",? ?(?:[nN]\.?[º°.r]\.? ?|nr\.? ?|# ?|núm\.? ?|No\.? ?)?(?:{NUMBER}{_UNIT}|s/n(?!\w))",
    r"(?<!\w)(?:Calle|Cra\.?|Carrera|Cl\.?|Avenida|Av\.?) [0-9]{1,3}[A-Za-z]? ?(?:#|[Nn]o\.?|[Nn]º) "
    r"?[0-9]{1,3}[A-Za-z]?-[0-9]{1,3}",
    rf"(?<!\w)(?:in|abito in|sta in|vive en|vivo en|moro na|en la|na) (?:via|piazza|corso|viale|calle|avenida|rua)"
    rf" (?:(?:de|del|della|dei|da|do|la|las|los|el) )?[a-zà-ÿ]{{3,20}}(?: [a-zà-ÿ]{{3,20}})?,? {NUMBER}{_UNIT}",
    # Towns: a post code in front, by country.
    rf"(?<=[0-9a-zA-Z], )(?:(?:D|F|I|E|A|B|L|CH|NL|DK|S|PL|CZ)-)?[0-9]{{4,5}} {_TOWN}",
    rf"(?<!\w)(?:D|F|I|E|A|B|L|CH|DK|FI|SE|NO)-[0-9]{{4,5}} {_TOWN}",
    rf"(?<!\w)(?:in|aus|nach|à|a|PLZ|near|bei|from|to|,) [0-9]{{5}} {_TOWN}(?=$|[.,;!?)]| [a-z(])",
    rf"(?<![\w.,/-])[0-9]{{2}}-[0-9]{{3}} {_TOWN}",
    rf"(?<=[0-9a-zA-Z], )[0-9]{{3}} [0-9]{{2}} {_TOWN}",
    rf"(?<![\w.,:/+-])[1-9][0-9]{{3}} ?{_NO_POST_LETTERS}[A-Z]{{2}},? {_TOWN}",
    rf"(?<!\w){_TOWN},? (?:{_STATES}) [0-9]{{5}}(?:-[0-9]{{4}})?(?![\w.,]?[0-9])(?! ?(?:km|mi|rpm)(?!\w))",
    r"(?<=[a-z] )(?:NSW|VIC|QLD|TAS|NT|ACT|WA|SA) [0-9]{4}(?!\w)",
    r"(?<!\w)(?i:post ?code|zip ?code|zip|PLZ|CAP|code postal|código postal|postnummer|PSČ|eircode|pin "
    r"code)(?i:(?: is|:)? )"
    r"(?=[A-Z -]{0,4}[0-9])[0-9A-Z]{2,5}[ -]?[0-9A-Z]{2,4}(?!\w)",
    # A British post code behind a town, one of Ireland, of Canada.
    r"(?<=[a-z],|[a-z] ) ?[A-Z]{1,2}[1-9][0-9A-Z]? [0-9][ABD-HJLNP-UW-Z]{2}(?!\w)",
    r"(?<![\w-])[AC-FHKNPRTV-Y][0-9]{2} (?=[0-9]{0,3}[A-Z])(?=[A-Z]{0,3}[0-9])[AC-FHKNPRTV-Y0-9]{4}(?![\w.-])",
    r"(?<=[a-z],|[a-z] |[A-Z] ) ?[ABCEGHJ-NPRSTVXY][0-9][A-Z] [0-9][A-Z][0-9](?![\w-])",
    # East Asia.
    r"(?<![\w.-])[0-9]{1,3}-[0-9]{1,3}(?:-[0-9]{1,3})? (?:[A-Z][\w-]{1,20} )?[A-Z]\w{1,20}-?(?:cho|chō|machi|chome|"
    r"ku|shi|mura|dori|dong|gu|gil|ro)(?!\w)",
    r"(?<!\w)[A-Z][a-zō]{2,20}-(?:cho|chō|machi|chome|ku|shi|ken|gun|mura|dong|gu|gil|ro|si) "
    r"[0-9]{1,3}(?:-[0-9]{1,3}){0,2}(?!\w)",
    r"[一-鿿]{1,6}[都道府県市区町村][一-鿿ぁ-んァ-ン]{0,12}[0-9]{1,3}(?:丁目|番|号|[-−][0-9])|"
    r"[一-鿿]{2,8}(?:路|街|道|巷) ?[0-9]{1,4} ?号",
    r"[가-힣]{1,10}(?:로|길|대로) ?[0-9]{1,4}(?!\w)",
)

WORDS = frozenset(
    """
    Street St Road Rd Avenue Ave Lane Ln Crescent Cres Terrace Tce Boulevard Blvd Gardens Gdns Mews Close Court Ct Drive
    Dr Way Grove Hill Row Square Sq Place Pl Walk Rise Park Parade Pde Highway Hwy Parkway Pkwy Green Wharf Quay Yard
    Cottage Cottages House Villa Villas View Vale End Path Loop Trail Circle Alley Esplanade Common Field Fields Meadow
    Meadows Buildings Mansions Estate Wynd Brae Gate Passage Arcade Bank Heights Farm Croft Nook Turnpike Marg Nagar
    street st road rd avenue ave lane crescent cres terrace close drive grove gardens mews Layout Colony
    Flat Apt Apartment Suite Postfach Postbus Postboks Apartado postale BP Casella Skrytka
    Via Viale Piazza Piazzale Corso Vicolo Strada Largo Borgo Contrada Lungomare Località Loc Salita Calle Avenida Avda
    Av Paseo Pº Plaza Pza Plza Camino Ronda Carrera Cra Carretera Ctra Travesía Callejón Carrer Passeig Avinguda Rambla
    Rua Travessa Praça Alameda Estrada Beco Rodovia Urbanización Urb Str Bulevardul Bd Aleea Calea Cl
    via piazza corso viale calle avenida rua rue Rue av boulevard bd bld chemin impasse allée quai route cours
    sentier square passage faubourg cité ruelle venelle montée lotissement hameau esplanade traverse villa
    Boulevard Chemin Impasse Allée Quai Place Ruelle Sentier Hameau Lotissement Faubourg Venelle Avenue RUE
    ul ulica ulicy ulice al aleja alei pl plac placu os osiedle osiedlu nám náměstí tř třída trg ulici
    cesta utca út útja tér körút köz sokak sok Sokak Sok caddesi Caddesi cad Cad bulvarı Utca
    Straße Strasse Gasse Allee Weg Platz Chaussee Damm Ufer Ring Steig Markt Straat Laan Vej Gade Gate Vei Allé Väg Gata
    Katu ул улица пр просп проспект пер переулок бул вул вулиця οδός Οδός Λεωφόρος λεωφόρος Λεωφ
    postcode Postcode zip Zip ZIP PLZ CAP postal postnummer Postnummer PSČ eircode Eircode
    """.split()  # noqa: SIM905 - a list would take a hundred lines
)
"""One of these, as it is written, stands in most addresses; the others have what `address` looks for beside a digit."""
