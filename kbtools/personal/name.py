"""What looks like the name of a person: capitalised words behind `Owner:`, `thanks to`, `by` or a form of address.

A guess, and only ever warned of. How much it takes depends on what stands before: behind a form of address any
capitalised word is a name; behind `thanks to` or `ask for` any that no noun follows; behind `by`, `from` and the like a
given name that means nothing else, or two words; and such a given name counts anywhere if another word follows.
The words are common knowledge of the languages, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.given_names import GIVEN_NAMES
from kbtools.personal.span import Span, apart, even, has_any, without_urls

_UPPER = "A-ZÀ-ÖØ-ÞĀ-Ž"
_LOWER = r"[^\W\d_A-ZÀ-ÖØ-Þ]"
_ONE = rf"(?:[DLO]['’]|Mac|Mc|De|Di|Le|La|Van)?[{_UPPER}]{_LOWER}{{1,25}}"
_WORD = rf"(?:{_ONE}(?:-{_ONE})?(?!\w)|[{_UPPER}]\.)"
"""A capital and small letters, which abbreviations have not; or an initial."""
_OF = r"(?:(?:von|van|de|der|den|del|della|di|da|dos|le|la|af|zu|ten|ter|bin|al) ){0,2}"
_RUN = re.compile(rf"(?<![\w'’.-]){_WORD}(?:,? ?(?<=[ .]){_OF}{_WORD}){{0,3}}")
_TOKEN = re.compile(_WORD)
_LOUD = rf"[{_UPPER}][\w'’]{{1,30}}(?:-[{_UPPER}][\w'’]{{1,30}})?"
"""Capitals throughout as well: what is signed often has them."""
_FULL = rf"(?:(?:{_LOUD}|[{_UPPER}]\.) ){{1,3}}{_LOUD}|{_LOUD}, (?:{_LOUD}|[{_UPPER}]\.)"
_LABELS = (
    r"(?<!\w)(?i:owners?|rider|seller|buyer|customer|member|contact|contact person|reporter|(?:report|reported|sent|"
    r"written|told|photo|drawn|found) by|author|credits?|photo(?:s|graph)?|picture|image|drawing|signed|name|thanks|"
    r"courtesy|mechanic|halter(?:in)?|besitzer(?:in)?|fahrer(?:in)?|eigentümer(?:in)?|verkäufer(?:in)?|"
    r"ansprechpartner(?:in)?|kontakt|autor(?:in)?|foto|bild|dank|auteur|merci|crédit|propriétaire|proprietari[oa]|"
    r"propietari[oa]|titular|eigenaar|ägare|ejer|eier|właściciel|majitel) ?[:=] ?"
)
_SIGNED = re.compile(rf"{_LABELS}(?P<name>{_FULL})")
_LABEL = re.compile(rf"{_LABELS}$")
_ADDRESS = re.compile(
    r"(?<!\w)(?:Mr|Mrs|Ms|Mx|Dr|Prof|Professor|Herrn?|Frau|Mme|Mlle|Monsieur|Madame|Signora?|Sig|Señora?|Sra?|Senhora?|"
    r"Meneer|Mevrouw|Dhr|Mevr)\.? $"
)
_STRONG = re.compile(
    r"(?<!\w)(?:(?:thanks|thank you|cheers|kudos|credits?|hat tip)(?: again| goes?| due)? to|thanks,?|cheers,?|h/t|"
    r"(?:courtesy|kindness|help|advice|loan) of|ask(?:ed|ing)?(?: for)?|(?:speak|talk|spoke|talked) (?:to|with)|"
    r"(?:written|reported|told|shown|sent|posted|taken|spotted|noticed|owned|ridden|lent|loaned|sold|said|photos?|"
    r"pictures?|photographed|drawings?|drawn|words|report|tip|hint|found|diagnosed|fixed|mended|repaired|measured|"
    r"tested|confirmed|solved|rebuilt|serviced|checked|helped|taught)(?: to)?(?: me)? by|"
    r"(?:tip|hint|message|mail|letter|call|advice|borrowed|bought|heard|learnt|learned) from|"
    r"(?:dank(?:e|t)?|gruß|grüße) an|danke,?|frag(?:t|en sie)?(?: nach)?|laut|"
    r"(?:gemeldet|geschrieben|foto|fotos|bild) von|merci à|grâce à|de la part de|demande[rz]|"
    r"(?:signalé|écrit|photo) (?:par|de)|gracias a|cortesía de|pregunt(?:a|ar|e) por|foto d[ei]|grazie a|"
    r"concessione di|chied(?:i|ere|ete) di|segnalato da|bedankt,?|dank aan|vraag naar|tack till|takk til|tak til) $",
    re.IGNORECASE,
)
_WEAK = re.compile(
    r"(?<!\w)(?:by|from|with|via|to|of|for|and|at|contact|ring|phone|text|call|see|meet|met|like|old|our|mechanic|"
    r"member|foreman|neighbour|neighbor|colleague|friend|mate|helper|brother|uncle|von|vom|bei|durch|mit|und|"
    r"par|chez|avec|et|por|con|da|di|y|e|door|van|met|en|av|hos|in|as) $",
    re.IGNORECASE,
)
_PERSON = re.compile(
    r"(?<!\w)(?:by|from|owners?,?|owner (?:is|was)|rider|riders|seller|friend|mate|treasurer|chairman|secretary|named|"
    r"name is|halter(?:in)?|besitzer(?:in)?|fahrer(?:in)?|propriétaire|proprietario|propietario|eigenaar) $",
    re.IGNORECASE,
)
_CUES = frozenset(
    [
        *("Ask", "Thanks", "Cheers", "By", "From", "With", "Via", "To", "Call", "Ring", "Phone", "Text", "See", "Meet"),
        *("Contact", "Kudos", "Danke", "Frag", "Fragt", "Laut", "Bedankt", "Owner", "Rider", "Seller", "Member", "For"),
        *("Von", "Bei", "Mit", "Par", "Chez", "Por", "Con", "Da", "Door", "Friend", "Credit", "Photo", "Foto", "Hi"),
        *("Hello", "Dear", "Hallo", "Salut", "Mechanic", "And", "Und", "Halter", "Besitzer", "Fahrer", "Demandez"),
    ]
)
"""Words that begin a sentence in front of a name, and are not its first word."""
_TITLES = frozenset(["Mr", "Mrs", "Ms", "Mx", "Dr", "Prof", "Herr", "Herrn", "Frau", "Mme", "Madame", "Monsieur"])
_STRONG_CUES = frozenset(["Ask", "Thanks", "Cheers", "Kudos", "Danke", "Frag", "Fragt", "Laut", "Bedankt", "Demandez"])
_PERSON_CUES = frozenset(["By", "From", "Owner", "Rider", "Seller", "Friend", "Halter", "Besitzer", "Fahrer"])
_NO_NAME = frozenset(
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
    """.split()  # noqa: SIM905 - a list would take a hundred lines
)
"""No part of a name: how a sentence starts, days, places, and what the trade capitalises."""
_CALENDAR = frozenset(["Mar", "Apr", "April", "May", "June", "August", "Mai", "Juni", "Sep"])
"""Alone they are no name; with another word behind they may be one."""
_BEGINNINGS = _CUES | _TITLES | _NO_NAME
_ROLES = re.compile(
    r"\b(?:curators?|mechanics?|workshops?|club|board|head|chief|editor|members?|technician|engineer|team|service|"
    r"reviewer|committee|chair|secretary|group|owners|circle|moderator|maintainer|expert|tester|dealers?|reports?|"
    r"meeting|riders)\b",
    re.IGNORECASE,
)
_NOUN_BEHIND = re.compile(
    r"(?! (?:who|for|and|at|in|on|from|of|with|when|if|has|had|says?|said|und|et|y|e|der|die|qui|que|about|the|a|to|or|"
    r"is|was|knows|again|via|by|he|she|as|hat|im|am|au|en|del|che|per|pour|für|aus|kennt|weiß|sait|sabe|sa|finds?|found|"
    r"will|can|lent|did|made|wrote)\b)(?: [\w-]|['’]s|-\w)"
)
"""What follows a single word that is no name: `thanks to Ohm's law`, `ask for Ostrel parts`."""
_ID_PART = re.compile(r"[^\W\d_]+")
_SMALL_GIVEN_NAMES = frozenset(each for name in GIVEN_NAMES for each in (name, name.lower()))
_CAPITALISED = re.compile(rf"[{_UPPER}]{_LOWER}+")
_IN_A_SENTENCE = re.compile(
    rf"[{_UPPER}](?:(?:{_LOWER}|[.'’])(?:(?<=[^\W\d_] ..)|(?<=[,/] ..))|[\w.'’](?:(?<=[:=] ..)|(?<=[:=]..)))"
)
"""A capital behind a letter, a comma, a colon: from each capital, since those are rare."""
_HINTS = ("Mr.", "Mrs.", "Ms.", "Mx.", "Dr.", "Prof.", "Sr.", "Sra.", "Sig.", "Dhr.", "Mevr.")


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    if _IN_A_SENTENCE.search(flat) is not None or has_any(flat, _HINTS):
        return True
    return not GIVEN_NAMES.isdisjoint(_CAPITALISED.findall(flat))


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like the name of a person; web addresses are left out."""
    return apart(_seen(without_urls(even(text))))


def _seen(flat: str) -> Iterator[Span]:
    for match in _SIGNED.finditer(flat):
        if match["name"].split()[0] not in _NO_NAME:
            yield Span(*match.span("name"))
    for run in _RUN.finditer(flat):
        words = [Span(*each.span()) for each in _TOKEN.finditer(flat, *run.span())]
        cue = ""
        while words and _piece(flat, words[0]) in _BEGINNINGS:
            cue = _piece(flat, words.pop(0))
        end = next((at for at, each in enumerate(words) if _piece(flat, each) in _NO_NAME), len(words))
        for first in range(end):
            # A sentence may begin in front of the name: `Gemeldet von …`, `Signed, …`.
            if _is_name(flat, "" if first else cue, words[first:end], cut=end < len(words)):
                yield Span(words[first].start, words[end - 1].end)
                break


def _piece(flat: str, span: Span) -> str:
    return flat[span.start : span.end]


def _is_name(flat: str, cue: str, words: list[Span], *, cut: bool) -> bool:
    """Whether capitalised words, none of which is another thing's name, are a person's.

    Args:
        flat: the whole text.
        cue: the word of the same run in front of them; empty if there is none.
        words: where they stand.
        cut: a word that is no name follows.
    """
    before, end = flat[max(0, words[0].start - 40) : words[0].start], words[-1].end
    if cue in _TITLES or _ADDRESS.search(before) is not None:
        return True
    if _ROLES.search(flat, words[0].start, end) is not None:
        return False
    known, full = _piece(flat, words[0]).split("-")[0] in GIVEN_NAMES, len(words) > 1
    if known and (full or flat[end : end + 3] in {"'s ", "’s "}):
        return True
    if cue in _STRONG_CUES or _STRONG.search(before) is not None:
        alone = _piece(flat, words[0]) not in _CALENDAR and not flat[end : end + 2].strip().isdigit()
        single = alone and not cut and end - words[0].start > 2 and _NOUN_BEHIND.match(flat, end) is None
        return known or full or single
    if cue in _PERSON_CUES or _PERSON.search(before) is not None:
        return known or full
    return known and (cue in _CUES or _WEAK.search(before) is not None or _LABEL.search(before) is not None)


def may_hold_in_id(text: str) -> bool:
    """Whether it is worth looking in an id or a file's name, or in several with line ends between them."""
    return not _SMALL_GIVEN_NAMES.isdisjoint(_ID_PART.findall(text))


def find_in_id(text: str) -> Iterator[Span]:
    """Every given name among the parts of an id, which has no capitals to go by."""
    return (Span(*each.span()) for each in _ID_PART.finditer(text) if each[0] in _SMALL_GIVEN_NAMES)


def is_person(text: str) -> bool:
    """Whether a text that should be a role is two or three capitalised words, none of which is a role."""
    return re.fullmatch(_FULL, even(text).strip()) is not None and _ROLES.search(text) is None
