"""The words beside a person's name, and those that are none. Common knowledge of the languages, no source."""

from __future__ import annotations

import re

LABELS = (
    r"(?<!\w)(?i:owners?|(?:previous |first |second |last |current )?owner|rider|seller|buyer|customer|member|contact|"
    r"contact person|reporter|(?:report|reported|sent|written|told|photo|drawn|found|signed|filmed|measured|posted|"
    r"shot|"
    r"drawing|pictures?|video|text|translated|translation|submitted|tested|fixed|checked|seen) by|author|credits?|"
    r"photo(?:s|graph(?:s|er)?)?|picture|pic|image|drawing|sketch|diagram|video|source|signed|name|thanks|thx|courtesy|"
    r"mechanic|attn\.?|attention|fao|cc|from|to|witness|translator|technician|engineer|treasurer|chair(?:man|woman)?|"
    r"secretary|president|editor|halter(?:in)?|besitzer(?:in)?|fahrer(?:in)?|eigentümer(?:in)?|verkäufer(?:in)?|"
    r"ansprechpartner(?:in)?|kontakt|autor(?:in)?|foto|fotos|bild|quelle|dank|von|z\. ?hd\.?|auteur|merci|crédits?|"
    r"source|"
    r"propriétaire|dessin|proprietari[oa]|propietari[oa]|dueñ[oa]|autor[ae]?|titular|dono|eigenaar|bron|ägare|ejer|"
    r"eier|"
    r"fotograf|właściciel|majitel|tulajdonos|omistaja|sahibi|vlasnik|владелец|фото|автор) ?(?:[:=]| [-–—]) ?"
)
TITLE_WORDS = (
    r"Mr|Mrs|Ms|Mx|Miss|Mister|Dr|Prof|Professor|Sir|Lady|Lord|Capt|Captain|Sgt|Sergeant|Col|Father|Sister|Uncle|Aunt|"
    r"Auntie|Herrn?|Frau|Familie|Fam|Onkel|Tante|Opa|Oma|Dipl\.?-Ing|Ing|Mme|Mlle|Monsieur|Madame|Maître|Signora?|Sig|"
    r"Sig\.ra|Dott(?:\.ssa)?|Señora?|Sra?|Don|Doña|Senhora?|Dona|Meneer|Mevrouw|Dhr|Mevr|Mw|Pan|Pani|Pana|Panu|Pán|"
    r"Paní|"
    r"Panem|Gospodin|Gospa|Kyrios|Kyria|Fröken|Fru|Sheikh|Shri|Smt"
)
ADDRESS = re.compile(
    rf"(?<!\w)(?:(?:{TITLE_WORDS})\.? (?:(?:[A-Z]\.|von|van|de|der|di|da|del|la|le|zu|al|af|O['’]) ?){{0,2}}|"
    r"(?:uncle|aunt|auntie|onkel|tante|pana|panu|pani|panem|paní|pána|señora?|señorita|signora?|senhora?|monsieur|"
    r"madame|"
    r"herrn?|frau|meneer|mevrouw|fru|fröken|gospod|professor|sergeant|captain|sig\.ra|sig\.|doña) |"
    r"(?<![0-9] )(?:Hr|Lt|Rev|Fr|Cpt|Cpl|Maj|Hon|Sra?|Sres|Bros|Gebr)\. |(?:^|[.,;:] |od |podle |dla |że |el |a "
    r")(?:pan|pán|don) |"
    r"(?:d['’]après|chez|par|à|avec|selon|merci|que|et|pour|demander|voir) M\. )$"
)
SMALL_TITLE = re.compile(
    r"(?<!\w)(?:mr|mrs|ms|herrn?|mme|mlle|monsieur|mevrouw|meneer|dhr|señora?|signora?|frau|prof|doctor)\.? "
    r"(?P<name>(?!(?:hat|und|ist|von|der|die|das|aus|am|im|mit|war|for|the|and|at|is|was|in|on|right|fix\w*|nobody|big|"
    r"clean|so|vom|meint|sagt|et|de|du|e|y)(?!\w))[^\W\d_]{3,20})(?!\w)"
)
_DONE = (
    r"written|reported|told|shown|sent|posted|taken|spotted|noticed|owned|ridden|lent|loaned|sold|said|photos?|"
    r"pictures?|pics?|"
    r"photographed|drawings?|drawn|words|report|tip|hint|found|diagnosed|fixed|mended|repaired|measured|tested|"
    r"confirmed|"
    r"solved|rebuilt|serviced|checked|helped|taught|borrowed|traced|sketched|scanned|translated|"
    r"filmed|recorded|discovered|explained|signed|submitted|contributed|written up|video|notes|diagram|readings|"
    r"measurements"
)
STRONG = re.compile(
    r"(?<!\w)(?:(?:thanks|thx|thanx|tnx|ta|thank you|thank|cheers|kudos|credits?|hat tip|props|respect|shout ?-?out|"
    r"a nod|"
    r"big up|greetings|regards|hugs|grateful|indebted|obliged|kindly|all credit|hats off)(?: a lot| a million| very "
    r"much| so much)?"
    r"(?: again| goes?| go| due| also| all| out| especially| mostly)? (?:to|2)|"
    r"(?:thanks|thx|cheers|kudos|props|ta|nice one|well done|good catch|thank you),?|h/t|"
    r"(?:thanks|thank you|credit) (?:go|goes) (?:out )?to|"
    r"courtesy,?(?: of)?|(?:kindness|help|advice|loan|assistance|generosity|patience) of|(?:help|tip|advice|drawing|"
    r"spares?) from|"
    r"ask(?:ed|ing)?(?: for)?|(?:speak|talk|spoke|talked|chat|spoken) (?:to|with)|"
    rf"(?:{_DONE})(?: to)?(?: me)?(?: kindly)? by|"
    r"(?:tip|hint|message|mail|letter|call|advice|borrowed|bought|heard|learnt|learned|note|email|scan|copy|photo|"
    r"picture|drawing|inherited|loan|on loan) from|"
    r"(?:care of|c/o|attn\.?|fao|dear)|"
    r"(?:my|our|his|her|your|the)(?: good| old| best| late)? (?:friends?|mate|pal|neighbou?r|brother|brother-in-law|"
    r"sister|dad|"
    r"father|mum|mother|uncle|aunt|cousin|son|daughter|wife|husband|colleague|buddy|nephew|niece|girlfriend|"
    r"boyfriend|grandad|"
    r"grandfather|daughter-in-law|son-in-law|father-in-law|riding partner|late friend),?|"
    r"(?:mein|meine|meinem|meiner|unser|unsere)n? (?:freund(?:in)?|kumpel|nachbarn?|kollegen?|kollegin|bruder|"
    r"schwester|vater|sohn)|"
    r"(?:mon|ma|notre) (?:ami|amie|copain|frère|père|voisin|collègue)|(?:il mio|mio) (?:amico|fratello|vicino|collega)|"
    r"mi (?:amigo|hermano|vecino|padre|primo)|(?:meu|o meu) (?:amigo|irmão|vizinho)|mijn (?:vriend|maat|buurman|broer)|"
    r"(?:min|mijn) (?:kompis|vän|granne|bror|nabo|ven|venn)|mój (?:kolega|sąsiad|brat)|dixit|"
    r"(?:dank(?:e|t)?|herzlichen dank|vielen dank|gruß|grüße|gruss|lob|anfrage|mail) an|danke,?|frag(?:t|en sie|"
    r"en)?(?: nach| mal| den| die)?|laut|"
    r"nach (?:angabe|angaben|aussage|auskunft) von|(?:hilfe|tipp|hinweis|leihgabe|messung|zeichnung|skizze) von|"
    r"(?:gemeldet|geschrieben|foto|fotos|bild|bilder|gemessen|geprüft|repariert|gefunden|gezeichnet|geliehen|"
    r"fotografiert|gekauft) von|"
    r"merci à|merci,?|grâce à|de la part de|demande[rz]|remerciements à|grand merci à|"
    r"(?:signalé|écrit|photo|mesuré|trouvé|réparé|vu|dessin|prêté|vendu) (?:par|de|à)|"
    r"gracias a|gracias,?|cortesía de|pregunt(?:a|ar|e) (?:por|a)|foto d[ei]|(?:medido|hecho|reparado|visto|"
    r"dibujado|escrito) por|"
    r"grazie a|grazie,?|concessione di|chied(?:i|ere|ete) (?:di|a)|segnalato da|(?:misurato|fatto|riparato|foto) da|"
    r"obrigad[oa] (?:ao?|à)|agradecimentos ao?|"
    r"bedankt,?|dank aan|dank je,?|vraag (?:naar|aan)|(?:gemeten|gemaakt|gevonden) door|foto van|"
    r"tack till|tack,?|takk til|tak til|takk,?|spør|fråga|spørg|kiitos|kiitokset|"
    r"dzięki|dziękuję|podziękowania dla|zapytaj|od pana|od pani|díky|děkuji|hvala|mulțumiri lui|mulțumesc|"
    r"köszönet|köszönöm|teşekkürler|спасибо|благодаря|дякую|ευχαριστώ) $",
    re.IGNORECASE,
)
WEAK = re.compile(
    r"(?<!\w)(?:by|from|with|via|to|of|for|and|at|contact|ring|phone|text|call|see|meet|met|like|old|our|mechanic|"
    r"member|foreman|neighbour|neighbor|colleague|friend|mate|helper|brother|uncle|von|vom|bei|durch|mit|und|"
    r"par|chez|avec|et|por|con|da|di|y|e|door|van|met|en|av|hos|in|as|is|was|i'm|i am|it's|this is|tell|told|email|"
    r"mail|pm|"
    r"message|visit|saw|sister|dad|father|mum|mother|son|daughter|wife|husband|cousin|pal|buddy|bloke|guy|lad|"
    r"that|because|when|if|but|only|then|where|so|hi|hello|hey|hallo|dear|ciao|salut|hola|dass|weil|wenn|aber|nur|"
    r"w/|\+|&|"
    r"der|die|le|la|il|el|de|à|a|od|przez|u|do|od|z|[-–—~]{1,2}|/) $",
    re.IGNORECASE,
)
PERSON = re.compile(
    r"(?<!\w)(?:©|\(c\)|by|from|owners?,?|owner (?:is|was)|riders?|seller|friend|mate|pal|buddy|treasurer|chairman|"
    r"chairwoman|secretary|reader|member|tester|curator|moderator|customer|"
    r"webmaster|fellow rider|club mate|clubmate|president|named|name is|name was|name['’]s|called|known as|i['’]m|i "
    r"am|this is|neighbou?r|colleague|foreman|"
    r"mechanic|"
    r"brother|brother-in-law|sister|father|dad|mother|mum|son|daughter|wife|husband|cousin|uncle|aunt|nephew|niece|"
    r"guy|bloke|"
    r"lad|chap|fella|man|woman|lady|gentleman|a certain|contact|tell|according to|as per|per|told|email|ring|phone|"
    r"signed|signed,|"
    r"halter(?:in)?|besitzer(?:in)?|fahrer(?:in)?|namens|heiße|heisse|heißt|bin|kollege|kollegin|freund(?:in)?|"
    r"nachbar(?:in)?|"
    r"kumpel|bruder|schwester|vater|sohn|von|propriétaire|ami|copain|frère|père|voisin|collègue|m['’]appelle|"
    r"s['’]appelle|par|proprietario|amico|fratello|si chiama|mi chiamo|chiamato|propietario|amigo|hermano|me llamo|"
    r"se llama|llamado|vecino|por|eigenaar|vriend|maat|buurman|broer|heet|genaamd|door|heter|hedder|kompis|vän|"
    r"granne|av|d['’]après|selon|según|secondo|volgens|enligt|ifølge|według|podle|"
    r"kolega|kolegi|sąsiad|brat|przez|od|jménem|soused|kamarád|barát) $",
    re.IGNORECASE,
)
SIGN_OFF = re.compile(
    r"(?<!\w)(?i:yours(?: (?:sincerely|faithfully|truly|ever))?|sincerely(?: yours)?|(?:best |kind |warm |kindest |"
    r"warmest )?regards|"
    r"best(?: wishes)?|all the best|many thanks|thanks(?: again| in advance| all)?|thx|cheers|ta|love|ride safe|"
    r"take care|greetings|"
    r"signed|(?:mit )?(?:freundlichen|besten|lieben|vielen|herzlichen|schöne[nr]?|viele|liebe|beste) grüße[n]?|gruß|"
    r"gruss|grüße|"
    r"lg|vg|mfg|dlzg|cordialement|amicalement|bien à vous|à bientôt|amitiés|salutations|saludos|un saludo|un abrazo|"
    r"abrazos|saluti|"
    r"cordiali saluti|un saluto|ciao|abraços|um abraço|groet(?:en|jes)?|met vriendelijke groet(?:en)?|mvg|mvh|"
    r"hilsen|vennlig hilsen|"
    r"hälsningar|med vänlig hälsning|terveisin|pozdrawiam|pozdrowienia|s pozdravem|pozdrav|üdv|с уважением)"
    r"[,.!:–— -]{1,4}$|(?:^|[.!?)] ?)[-–—~]{1,2} ?$"
)
POSSESSED = re.compile(
    r"['’]s? (?:bike|bikes|garage|shed|barn|house|place|workshop|lock-up|machine|motorbike|mate|wife|husband|"
    r"brother|sister|dad|father|son|"
    r"daughter|mum|meter|multimeter|trick|tip|advice|drive|van|trailer|spare|spares|notes?|notebook|drawing|photos?|"
    r"number|phone|old bike)(?!\w)"
    r"(?! (?:stand|lift|manual|cover|shop|club|meet|test|data|book|hours))"
)
"""What belongs to somebody, behind any name: `Aled's bike`."""
HUMAN = re.compile(
    r",? (?:reckons?|wrote|lent|swears|thinks|owns|rides|rode|told (?:me|us)|says (?:hers|his|the|it|that|to)|knows|"
    r"promised|"
    r"offered|kindly|meint|schrieb|fährt|pense|cree|denkt|lended|phoned|rang|emailed|has (?:the|a|one|two|mine|got)|"
    r"had the same)(?!\w)"
)
"""What only a person does: a name that no list has counts in front of it, behind an initial."""
ADJECTIVE = re.compile(
    r"(?<!\w)(?:old|young|good|dear|the late|late|our|my|my mate|friend|mate|a|some|certain|one|the|alte[rn]?|"
    r"lieben?|unser(?:en?|em)?|"
    r"oude|vieux|le vieux|il vecchio|el viejo|gamle|starego|starému|brother|neighbou?r|member|curator|mechanic) $",
    re.IGNORECASE,
)
"""What may stand between a word and the name: `told by old Barnaby`."""
BEHIND = re.compile(
    r",? (?:from (?:the|our|my)|who|at the (?:meet|club|counter|dealer|workshop)|next door|down the road|here|says?|"
    r"said|told|reckons?|wrote|writes|found|measured|lent|fixed|mended|showed|confirmed|swears|"
    r"thinks|thought|has|"
    r"had|owns?|rides?|rode|bought|sold|did|made|knows?|noticed|saw|sent|reports?|reported|asked|suggested|fitted|"
    r"took|used|"
    r"traced|repaired|rebuilt|drew|posted|tested|checked|explained|helped|hat|sagt|sagte|meint|meinte|fand|schrieb|"
    r"weiß|kennt|"
    r"fährt|baute|maß|hatte|a (?:dit|trouvé|mesuré|réparé|prêté|écrit|vu)|dit|pense|dice|ha (?:detto|trovato|"
    r"misurato)|dijo|"
    r"encontró|midió|zegt|zei|vond|heeft|säger|sa|sier|sagde|mówi|powiedział|znalazł)(?!\w)|['’]s (?:[a-z]|$)|s['’] "
    r"(?:bike|shed|garage|house)"
)
"""What a person does, behind a given name: `Jonas lent`, `Karl's garage`."""
HONORIFIC = re.compile(
    r"(?<!\w)[A-Z][a-zō]{1,20}(?: [A-Z][a-zō]{1,20})?(?:-(?:san|sama|kun|sensei|ji|bhai|anna|nim|ssi)| (?:bhai|"
    r"sensei|bey|hanım|abi))(?!\w)|"
    r"[一-鿿]{1,4}(?:さん|様|氏|先生|师傅)|[가-힣]{2,4}(?:씨|님)(?![가-힣])"
)
CUES = frozenset(
    [
        *("Ask", "Thanks", "Cheers", "By", "From", "With", "Via", "To", "Call", "Ring", "Phone", "Text", "See", "Meet"),
        *("Contact", "Kudos", "Danke", "Frag", "Fragt", "Laut", "Bedankt", "Owner", "Rider", "Seller", "Member", "For"),
        *("Von", "Bei", "Mit", "Par", "Chez", "Por", "Con", "Da", "Door", "Friend", "Credit", "Photo", "Foto", "Hi"),
        *("Hello", "Dear", "Hallo", "Salut", "Mechanic", "And", "Und", "Halter", "Besitzer", "Fahrer", "Demandez"),
        *("Thx", "Ta", "Merci", "Grazie", "Gracias", "Tack", "Takk", "Tak", "Kiitos", "Dzięki", "Díky", "Hvala"),
        *("Obrigado", "Courtesy", "Credits", "Photos", "Tell", "Email", "Neighbour", "Mate", "Brother", "Hey", "Ciao"),
        *("Hola", "Selon", "Según", "Secondo", "Volgens", "Enligt", "Ifølge", "Według", "Podle", "Per", "Old", "Our"),
        *(
            "Nachbar",
            "Kollege",
            "Kollegin",
            "Freund",
            "Bruder",
            "Kumpel",
            "That",
            "Als",
            "Also",
            "Seen",
            "Signed",
            "I'm",
        ),
        *("Спасибо",),
    ]
)
"""Words that begin a sentence in front of a name, and are not its first word."""
TITLES = frozenset(
    [
        *("Mr", "Mrs", "Ms", "Mx", "Dr", "Prof", "Herr", "Herrn", "Frau", "Mme", "Madame", "Monsieur", "Mlle", "Sgt"),
        *("Sir", "Lord", "Lady", "Professor", "Mister", "Captain", "Capt", "Rev", "Uncle", "Aunt", "Onkel", "Tante"),
        *("Familie", "Signor", "Signora", "Señor", "Señora", "Senhor", "Senhora", "Meneer", "Mevrouw", "Dhr", "Mevr"),
        *("Pan", "Pani", "Pán", "Paní", "Don", "Doña", "Fru", "Opa", "Oma"),
    ]
)
STRONG_CUES = frozenset(
    [
        *("Ask", "Thanks", "Cheers", "Kudos", "Danke", "Frag", "Fragt", "Laut", "Bedankt", "Demandez", "Thx", "Ta"),
        *("Merci", "Grazie", "Gracias", "Tack", "Takk", "Tak", "Kiitos", "Dzięki", "Díky", "Hvala", "Obrigado", "Dear"),
        *("Courtesy", "Спасибо"),
    ]
)
PERSON_CUES = frozenset(
    [
        *("By", "From", "Owner", "Rider", "Seller", "Friend", "Halter", "Besitzer", "Fahrer", "Neighbour", "Mate"),
        *(
            "Brother",
            "Nachbar",
            "Kollege",
            "Kollegin",
            "Freund",
            "Bruder",
            "Kumpel",
            "Mechanic",
            "Signed",
            "I'm",
            "Contact",
        ),
        *("Selon", "Según", "Secondo", "Volgens", "Enligt", "Ifølge", "Według", "Podle"),
    ]
)
NO_NAME = frozenset(
    """
    The A An No Not If First Last One Two Three Four Five Six Seven Eight Nine Ten It This That These Those My Your
    His Her Our Their All Any Each Every Some Other New Old Used Same Next Same Both Only Also Then When While After
    Before Monday Tuesday Wednesday Thursday Friday Saturday Sunday Montag Dienstag Mittwoch Donnerstag Freitag
    Samstag Sonntag Lundi Mardi Mercredi Jeudi Vendredi Samedi Dimanche January February March July September
    October November December Januar Februar März Juli Oktober Dezember Feb Jun Jul Aug Sept Oct Nov Dec Spring
    Summer Autumn Winter Easter Christmas Check Look See Clean Ask Measure Fit Take Read Do Remove Replace Test Turn
    Press Hold Pull Push Open Close Start Stop Ride Let Put Use Make Keep Go Get Set Add Fill Drain Bleed Charge
    North South East West Northern Southern Eastern Western Great Upper Lower Central United Saint St San Santa Los
    Las El Mount Lake Black White Red Green Blue Yellow Brown Grey Gray Orange Europe Germany France Italy Spain
    England Scotland Wales Ireland Britain Austria Switzerland Belgium Holland Poland Sweden Norway Denmark Finland
    Japan America Canada Australia German French Italian Spanish English British Irish Dutch Japanese Swedish Danish
    Polish Allen Phillips Torx Philips Ohm Kirchhoff Kelvin Celsius Hall Bowden Diesel Otto Main Fuse Relay Unit
    Lamp Code Codes System Charging Engine Fuel Brake Brakes Front Rear Left Right Top Bottom Side Idle Neutral
    Power Ground Earth Battery Regulator Stator Rotor Sensor Control Light Switch Plug Connector Terminal Key Wire
    Valve Pump Coil Spark Starter Clutch Gear Gearbox Chain Wheel Tyre Tire Frame Fork Tank Seat Filter Oil Water
    Air Cable Hose Test Bearing Seal Bolt Nut Screw Tool Kit Part Parts Number Model Year Manual Page Table Figure
    Chapter Section Step Park Road Street Lane Avenue Square Bridge Hill House Garage Meet Rally Weekend Tour Trip
    Report Reports Case Entry Forum Thread Post Site Web Internet Law Laws Bridge Rule Test Anti Lock Display Dash
    Screen Menu Mode Tooth Pin Pins Way Ways Steuergerät Sicherung Lampe Batterie Regler Motor Stecker Leitung
    Werkstatt Handbuch Kabel Masse Kupplung Bremse Hand Motorrad Lichtmaschine Anlasser Zündung Benzin Verein
    Treffen Händler Hersteller Laden Seite Jahr Winter Herbst Sommer
    Torque Setting Settings Values Figures Advice Help Weather Klemme Regulator
    Fire Counter Limiter Alignment Dash Gauge Meter Label Sticker Tester Scope Reader Tacho Speedo App Software
    Handbook Somewhere Regulations Rules Smooth Big Clean Perfect Wrong Muscle Cool Slow Fast Lucky Tidy Tight Loose
    Nobody Somebody Anybody Everybody Everyone Someone Anyone Fixit Unknown Anonymous Whoever Mechanic Dealer Workshop
    Member Members Owner Owners Rider Club Circle Curator Friends Folks Guys Mates Lads Again Yes Yours Thanks You They
    We He She Who What Why How Where There Here Now Today Yesterday Tomorrow Tonight Morning Evening Good Bad Better
    Best Well Cold Hot Warm Wet Dry Rain Snow Salt Rust Heat Water Dust Mud Wind Frost Nature Luck God Chance Accident
    Gravity Grease Copper Silicone Loctite Locktite Multimeter Cylinder Piston Rings Camshaft Crank Throttle Carburettor
    Injector Radiator Thermostat Fan Horn Indicator Headlamp Headlight Loom Harness Alternator Magneto Ignition Exhaust
    Silencer Swingarm Shock Spring Springs Sprocket Belt Disc Drum Caliper Pads Hub Spoke Spokes Rim Axle Spindle Stand
    Mirror Lever Grip Handlebar Cover Gasket Washer Clip Bracket Tape Glue Sealant Solder Diode Resistor Capacitor
    Warranty Recall Bulletin Service Book Issue Volume Version Edition Standard Standards Procedure Drawing Diagram
    Photo Picture Video Source Text Letter Note Notes Message Mail Email Phone Internet Website Newsletter Magazine
    """.split()  # noqa: SIM905 - a list would take a hundred lines
)
"""No part of a name: how a sentence starts, days, places, and what the trade capitalises."""
ABSTRACT = re.compile(
    r"[^\W\d_]+(?:plan|bild|buch|klemme|stecker|kabel|regler|schalter|leitung|werkstatt|tion|sion|ness|ment|ity|"
    r"ance|ence|ship|ism|logy|ics|ture|ung|heit|keit|schaft|ität|proof|ware|"
    r"board|works|shop|service|metal|ageing|wear|ings)"
)
"""Words that name no person by how they end: `courtesy of Vibration`."""
CALENDAR = frozenset(["Mar", "Apr", "April", "May", "June", "August", "Mai", "Juni", "Sep"])
"""Alone they are no name; with another word behind they may be one."""
ROLES = re.compile(
    r"\b(?:curators?|mechanics?|workshops?|club|board|head|chief|editor|members?|technician|engineer|team|service|"
    r"reviewer|committee|chair|secretary|group|owners|circle|moderator|maintainer|expert|tester|dealers?|reports?|"
    r"meeting|riders)\b",
    re.IGNORECASE,
)
NOUN_BEHIND = re.compile(
    r"(?! (?:who|for|and|at|in|on|from|of|with|when|if|has|had|says?|said|und|et|y|e|i|a|der|die|qui|que|about|the|"
    r"a|to|or|"
    r"is|was|knows|again|via|by|he|she|as|hat|im|am|au|en|del|che|per|pour|für|aus|kennt|weiß|sait|sabe|sa|finds?|"
    r"found|"
    r"will|can|lent|did|made|wrote|por|para|voor|till|för|za|dla|och|og|ja|from|over|here|there|first|if|because|since|"
    r"this|that|we|i|it|his|her|my|our|sent|gave|got|fixed|showed|told|whose|which|but|not|only|down|up|next|behind|"
    r"before|after|wrote|reckons|thinks|measured|lend|helped|vom|von|zu|zum|bei|mit|meint|sagt|dit|dice)\b)(?: "
    r"[\w-]|['’]s|-\w)"
)
"""What follows a single word that is no name: `thanks to Ohm's law`, `ask for Ostrel parts`."""
SMALL_CUE = (
    r"(?P<sure>(?:thanks|thx|tnx|ta|cheers|thank you|credits?|props|kudos|shout ?out)(?: goes| again)?(?: to| 2| -|"
    r":|,)?|"
    r"courtesy(?: of)?|ask(?: for)?|my (?:mate|pal|friend|brother|dad|father|neighbou?r|buddy|cousin|uncle|son|wife|"
    r"husband|"
    r"colleague|sister|mum)|mate|uncle|aunt|named|name is|name['’]s|i['’]m|i am|hi|hello|hey|dear|photos?(?: by| "
    r"from|:| -)|"
    r"pics?(?: by| from|:)|danke(?: an)?|dank an|kumpel|merci à|merci|grazie a|gracias a|tack till|bedankt|dzięki|"
    r"greetings from|regards,?|cheers,|lg,?|vg,?|gruß,?|mfg,?)|"
    r"called|this is|tell|with|via|contact|ring|phone|text|call|email|by|from|"
    r"owner|old|frag|von|bei|nachbar|kollege|chez|cc|best"
)
"""Words behind which a given name counts in small letters; behind the others one that is no other word."""
