"""The forms in which people write what leads to a person, one text for each, and next to each what only looks like it.

Where nothing else is said, the form is common practice, no source; plates follow the registration laws of the
countries, from memory. All of it is made up; telephone numbers are kept for plays and films by Ofcom.
"""

from __future__ import annotations

import pytest

from tests.personal.measure import FIND

FORMS = {
    "plate": [
        ("small letters in an id", "bike: hh-zx-218", "bike: bittern-900-0042"),
        ("small letters alone", "it wears vk07 zrt", "it wears no12 nut"),
        ("district and letters with blanks", "KA ZX 118 stood there", "KA 12 V stood there"),
        ("behind a word, in small letters", "regnr zxk41b", "reg at 4000"),
        ("behind words between", "the plate on the bike reads ZX 4170", "the plate on the bike is 12 mm"),
        ("in the name of a file", "photo_HH-ZX-417.jpg", "photo_relay_4.jpg"),
        ("India", "MH 41 ZX 0417", "MH 41 ohm 0417"),
        ("South Africa", "ZXK 417 GP", "ZXK 417 rpm"),
        ("Japan", "品川 あ 44-17", "品川 44 V"),
        ("Russia", "А417ВХ77", "А4 77"),
        ("Switzerland, in two groups", "ZH 417 704", "ZH 417 V"),
        ("Poland, with a letter behind", "ZX 4417K", "ZX 4417 km"),
        ("Czechia, but no bytes", "4Z1 7704", "7E8 0641"),
        ("a likely shape beside a machine that was seen", "ZX 41704 was parked there", "ZX 41704 is the relay"),
    ],
    "address": [
        ("in an id", "birkenallee-31", "steckallee"),
        ("small letters", "at 27a station rd, upstairs", "after 27 miles of wet road"),
        ("a street that is counted", "88 W. 41st St", "the 1st St. of two"),
        ("a house number of several parts", "Kerkstraat 15-2", "Kolbenweg 15-2 mm"),
        ("German with a preposition, and a letter", "Am Alten Speicher 7b", "Am Stecker 7"),
        ("German at home", "wohnt Im Tal 12", "läuft im Tal 12 km"),
        ("Spanish, abbreviated", "C/ del Olmo, 7", "C 7 del relé"),
        ("Czech, two numbers", "Lipová 1207/12", "Lipa 3/4"),
        ("Russian", "ул. Садовая, д. 7", "реле 7"),
        ("a house with a name", "Rose Cottage, Church Lane", "Rose Church"),
        ("a post code and a town of the Netherlands", "1234 ZX Nergens", "1234 KM Service"),
        ("Japan in Latin letters", "1-2-3 Kakuu-cho", "1-2-3 Cylinders"),
    ],
    "name": [
        ("in the name of a file, in small letters", "stator-mike-thornby.jpg", "stator-plug-burnt.jpg"),
        ("the sign of the author's right", "© Siobhán Garrowmore 2022", "© of the club"),
        ("signed", "Best regards, Colm", "Best regards from the garage"),
        ("initials", "E. J. Tarrow had it too", "A. Remove the seat"),
        ("in the name of a file", "diagram_by_Hettie_Marchbanks.pdf", "diagram_by_hand.pdf"),
        ("small letters behind thanks", "thx to jonas for it", "thx to grease"),
        ("small letters behind a form of address", "mr hollowell", "mr fixit"),
        ("thanks in other languages", "dzięki Zbigniewowi Marchlikowi", "dzięki nowej cewce"),
        ("a Japanese honorific", "Asamizu-san sent it", "sent to san"),
        ("the French M.", "d'après M. Lavergnotte", "d'après le manuel"),
        ("a mate, a neighbour", "my mate Darragh fitted it", "my mate fitted it"),
        ("a thing of somebody's", "Aled's bike does it", "Bittern's tank"),
        ("who did something", "Jonas lent it", "Nobody lent it"),
    ],
    "handle": [
        ("the folder of a user", "/home/jbrennwald/bikes/plug.jpg", "/home/user/bikes/plug.jpg"),
        ("the folder of a user elsewhere", "C:\\Users\\tschrauber\\stator.png", "C:\\Users\\Public\\stator.png"),
        ("who made a file", "IMG_4402_by_wheelie_wombat.jpg", "IMG_4402_by_hand.jpg"),
        ("hyphens", "as @hettie-wrenches showed", "4000 rpm @fast-idle"),
        ("on a server of many", "@oskar@social.example", "5 A@12 V"),
        ("on a server of another kind", "@oskar900:example.org", "@12:30"),
        ("in the name of a file", "screenshot_@priya_r650_story.png", "screenshot_1.png"),
        ("behind the name of a service", "discord name is bronwen_t900", "discord name is needed"),
        ("behind a word and a place", "pseudo sur le forum : bastien_c650", "pseudo sur le forum"),
        ("four digits behind", "tarrow#4417", "#4417"),
        ("a page with a number", "https://forum.example/member.php?u=4417", "https://forum.example/t.php?t=4417"),
        ("a page below a tilde", "https://pics.example/~volt_vera", "https://pics.example/volt.jpg"),
        ("as somebody calls himself there", "im Forum bin ich SchrauberSepp", "im Forum bin ich oft"),
    ],
    "messenger": [
        ("a name instead of a number", "callto:pell.jonas.900", "call to pell"),
        ("a tilde in front of the name", "https://line.me/ti/p/~dunlin_ken", "https://line.example/~"),
        ("the nickname in a chat", "irc://irc.example/bolt,isnick", "irc://irc.example/dunlin"),
    ],
    "phone": [
        ("in the name of a file", "call_07700-900-118.jpg", "scan_0012_page_3-27.pdf"),
        ("behind a letter", "t: 555-0163", "t: 55"),
        ("the letter O for noughts", "O7700 9OO 417", "O-ring 7700"),
        ("partly in words", "oh seven seven double oh, 900 256", "oh seven"),
        ("the name of a thing three words before", "the bearing can be lent: 0171/3920042", "bearing 0171/3920042"),
        ("no bytes of a bus", "01 99 00 04 17", "7E8 10 14 49 02 01 00 00 00 00"),
        ("no row that rises evenly", "0 7700 900 456", "0-180-360-540 crank"),
    ],
    "vin": [
        ("in any groups, beside a word", "the plate reads 6X9 BTN90 X 3 K 771 204", "the plate reads 6X9 BTN90"),
        ("no bytes of a bus", "7X8064100BE3FA813", "7E8064100BE3FA813"),
    ],
    "position": [
        ("in the name of a file", "IMG_gps_54.12345_7.98765.jpg", "IMG_54.12_7.98.jpg"),
        ("named in German", "Breite 54,12345° Länge 7,98765°", "Breite 54,1 mm, Länge 7,9 mm"),
        ("seconds behind hyphens", "54-07-24N 007-59-15E", "54-07-24 and 007-59-15"),
        ("three words behind a word", "what3words relay.coil.lamp", "what? relay.coil.lamp"),
    ],
    "card": [("thirteen digits beside a word", "card 4222222222222", "4222222222222 on the box")],
}
CASES = [pytest.param(kind, *row[1:], id=f"{kind}: {row[0]}") for kind, rows in FORMS.items() for row in rows]


@pytest.mark.parametrize(("kind", "text", "alike"), CASES)
def test_a_form_is_seen_and_what_only_looks_like_it_is_not(kind: str, text: str, alike: str) -> None:
    assert list(FIND[kind](text)) != []
    assert list(FIND[kind](alike)) == []
