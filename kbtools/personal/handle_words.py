"""How names on a forum are written, and the words beside them. Common knowledge of the languages, no source."""

from __future__ import annotations

import re

_NICK = (
    r"(?P<nick>[^\W\d_][\w-]{1,29}(?:\.[^\W\d][\w-]{1,20}){0,2}(?:\.[0-9]{1,4}(?![\w.,]))?|"
    r"[0-9_][\w-]{0,8}[^\W\d_]{3}[\w-]{0,20})(?!\w)"
)

AT_SIGN = re.compile(
    r"(?:(?<![\w.%+@/)=°Ω-])|(?<=_))(?<![0-9] )(?<![0-9] [VAW] )(?<![VAW°Ω%] )@(?P<nick>[A-Za-z_](?:[\w.-]{0,28}\w)?)"
    r"(?:@[\w-]+(?:\.[\w-]+)+|:[\w-]+(?:\.[\w-]+)+)?(?![\w@/]|:\S)"
)
"""Also with a host behind it, as servers that speak with each other write it: `@name@host`, `@name:host`."""
_SITES = (
    "insta(?:gram)?|ig|facebook|fb|telegram|tg|discord|mastodon|fedi(?:verse)?|threema|tiktok|youtube|yt|twitter|"
    "twitch|snap(?:chat)?|"
    "reddit|bluesky|bsky|threads|steam|skype|signal|whatsapp|wechat|line|kik|icq|irc|matrix|xmpp|jabber|viber|"
    "strava|github|"
    "pinterest|flickr|vk|linkedin|messenger|teams|slack|zello|paypal"
)
_NICK_WORDS = (
    "(?:user|screen|account|login|log-in|profile|forum|board|nick|member|display|gamer|chat|channel|skype|discord|"
    "club)[ -]?"
    "(?:names?|nick|id|handle|tag|alias)|nick|nickname|handle|alias|gamertag|username|userid|callsign|call sign|"
    "benutzer(?:name|konto)?|nutzername|mitgliedsname|forenname|forumsname|spitzname|pseudo|pseudonyme|identifiant|"
    "nom d['’]utilisateur|compte|nombre de usuario|usuario|apodo|nome utente|utente|soprannome|gebruikersnaam|"
    "gebruiker|"
    "schuilnaam|användarnamn|brukernavn|brugernavn|käyttäjätunnus|nimimerkki|nazwa użytkownika|użytkownik|uživatel|"
    "přezdívka|kullanıcı adı|ник|никнейм"
)
_PLACE = (
    r"(?i: (?:on|in|at|im|auf|sur|en|su|no|op|på|na|for|du|de|del|dello|der|of)(?: (?:the|our|this|my|le|la|il|el|"
    r"dem|der|het|club'?s?|parts?|"
    r"owners'?|old|facebook)){0,3} (?:forums?|boards?|foro|groupe?|gruppo|grupo|site|chat|server|app|there|here|"
    r"reddit|insta(?:gram)?|"
    r"discord|facebook|youtube|telegram|mastodon))?"
)
_SITE_NAME = rf"(?:{_SITES})(?: (?:user ?name|name|user|nick|id|handle|account|profile|channel|page))?"
LABEL = re.compile(
    rf"(?<!\w)(?P<word>(?i:{_SITE_NAME}|{_NICK_WORDS})){_PLACE}(?: ?[:=] ?@?| ?(?:->|→|=>) ?| -+ @?|(?: is| ist| "
    rf"est| es| är| er)? [\"'“„‘«]|"
    r"(?:(?<=sername)|(?<=ser name)) (?:is |ist |est |es |är |er )?|"
    r"(?:(?<=name)|(?<=forum)|(?<=board)|(?<=there)|(?<=nick)) (?:is|ist|est|es|är|er) )" + _NICK
)
IS = re.compile(
    rf"(?<!\w)(?i:(?:{_SITE_NAME})|(?:{_NICK_WORDS})|(?:user|handle|nick|name|account|channel)){_PLACE} (?:(?:is|"
    rf"ist|est|"
    rf"es|är|er|was) )?{_NICK}",
)
QUOTED = re.compile(
    r"(?<!\w)(?P<word>(?i:user|nick|member|poster|seller|handle|usuario|utente|nutzer|mitglied|membre|utilisateur|"
    r"gebruiker|alias|aka|as|by|"
    r"called|channel|kanal|chaîne|canal|account|like|what|how|way))"
    rf" [\"'“„‘«`]@?{_NICK}[\"'”“’»`]"
)
SAID_TO_BE = re.compile(
    r"(?<!\w)(?i:user|nick|member|poster|seller|handle|goes by|go by|known as|knows? (?:me|him|her) as|posts? as|"
    r"writes? as|"
    r"posting as|registered as|sign(?:ed)? (?:in |up )?as|find (?:me|him|her) (?:as|under)|i'm|i am|he's|she's|he "
    r"is|she is|"
    r"alias|aka|a\.k\.a\.|alias name|channel|account|profile|nutzer|mitglied|utilisateur|membre|usuario|utente|"
    r"gebruiker|lid|"
    r"użytkownik|uživatel|medlem|by|from|ask|asked|thanks to|thx to|cheers|credits?|credit to|thread by|video by|"
    r"post by|message|"
    r"msg|pm|dm|pn an|pn|nachricht an|dank an|danke an|frage an|von|par|por|contact|follow|ping|search(?: for)?|"
    r"called|named|quote|quoting|quoted from|h/t)"
    rf"(?: |: ?)(?={_NICK})"
)
"""The name itself is only looked at: it may be the next word for one, as in `by user name_4`."""
_WHERE = (
    r"(?:(?:the|our|your|this|that|his|her|old|club'?s?|owners'?|parts?|facebook|fb|dunlin|bittern|curlew|same|"
    r"other) ){0,3}(?i:forums?|boards?|message boards?|reddit|"
    r"discord|telegram|insta(?:gram)?|facebook|fb|youtube|twitter|mastodon|tiktok|whatsapp|irc|skype|mailing list|"
    r"chat|group chat|"
    r"group|server|yt|ig|subreddit|strava|twitch|bluesky|bsky|marketplace|site)"
)
ON_FORUM = re.compile(
    rf"(?<![\w@./-]){_NICK},?(?: \(|(?: (?:posts?|posted|writes?|wrote|is|says|said|over|here|has|had|showed|shows))? )"
    rf"(?:on|over on|in|at|im|auf|sur|en|su|op|på|na|from) (?:{_WHERE}|(?:dem |le |el |il |der |het |la )?(?:Forum|"
    rf"foro|forum|groupe|gruppo|grupo|Gruppe|fórum|fórumie|foorumi\w*))(?!\w)"
)
ON_FORUM_AS = re.compile(
    rf"(?<!\w)(?:on|over on|in|at|im|auf|sur|en|su|op|på|na) (?:{_WHERE}|(?:dem |le |el |il |der |het |la )?"
    r"(?:Forum|foro|forum|groupe|gruppo|grupo|Gruppe|fórum))"
    rf",? (?:as|als|comme|como|come|som|jako|under|unter|(?P<sure>I'm|I am|he's|he is|she's|she is|my name is|bin ich|"
    rf"heiße ich|heißt (?:er|sie))) "
    rf"(?:a )?[\"'“„]?{_NICK}"
)
FORUM_LABEL = re.compile(
    rf"(?<!\w)(?:on|in|at|im|auf|sur|en|su|op|på|na) (?:{_WHERE}|(?:dem |le |el |il |der |het |la )?"
    rf"(?:Forum|foro|forum|groupe|gruppo|grupo|Gruppe|fórum)) ?[:=] ?{_NICK}"
)
CUE = re.compile(
    r"(?:as|I'm|I am|user|by|from|member|find|find me|called|message|contact|thanks to|ask|he is|she is|he's|she's|dm|"
    r"pm|follow|me|nick|handle|name is|is|msg|under|als|unter|comme|como|som|jako) [\"'“„‘«]?$",
    re.IGNORECASE,
)
REDDIT = re.compile(r"(?<![\w/.])/?u/(?P<nick>[\w-]{3,20})(?![\w/])")
TAG = re.compile(r"(?<![\w#@/.-])(?P<nick>[A-Za-z][\w.]{2,30})#[0-9]{4}(?![\w#])")
"""A name with four digits that tell it from others of the same name."""
PROFILE = re.compile(
    r"(?:https?://|www\.|"
    r"(?<![\w@./-])[a-z0-9-]{2,40}(?:\.[a-z0-9-]{2,40}){1,3}(?=/))[^\s<>\"/]{0,100}(?:/[^\s<>\"/]{1,40}){0,2}?/"
    r"(?:(?:u|users?|members?|profiles?|profil|perfil|profilo|profiel|people|author|authors|membre|membres|mitglied|"
    r"mitglieder|"
    r"usuario|usuarios|utente|utilisateur|nutzer|benutzer|channel|c|account|user-profile|memberlist|medlem|lid|"
    r"uzytkownik)/"
    r"(?:view/|show/)?|(?=@)|~)(?P<nick>[\w.%@-]{2,60})",
    re.IGNORECASE,
)
QUERY = re.compile(
    r"(?:/|\.)[^\s<>\"?]{0,120}\?(?:[^\s<>\"]{0,80}[&;])?(?:u|uid|user|user_?id|user_?name|member|member_?id|author|"
    r"profile|nick|screen_name)="
    r"(?P<nick>[\w.%@-]{1,60})",
    re.IGNORECASE,
)
SOCIAL = re.compile(
    r"(?<![\w-])(?:instagram|facebook|fb|twitter|tiktok|youtube|twitch|threads|pinterest|flickr|strava|github|"
    r"soundcloud|patreon|"
    r"linktr|paypal|ko-fi|reddit|bsky|steamcommunity|vimeo|linkedin)\.(?:com|net|tv|me|ee|app)/(?:user/|c/|in/|id/|"
    r"photos/|athletes/|profile/)?"
    r"(?P<nick>@?[\w.-]{3,40})(?=[?#\s).,]|/?$|/\s)",
    re.IGNORECASE,
)
MIXED = re.compile(r"[0-9_A-Z](?:(?<=[a-z]{2}.)|(?<=[a-z]-.)(?=\w)|(?<=[0-9_])(?=[a-z]{3}))")
"""A digit, an underscore or a capital among small letters."""
THREE_SMALL = re.compile("[a-z]{3}")
"""Which no fault code and no part number has."""
PLAIN_WORDS = frozenset(
    [
        *(
            "oft",
            "nur",
            "auch",
            "nicht",
            "neu",
            "new",
            "here",
            "only",
            "also",
            "often",
            "never",
            "rev",
            "mk",
            "ver",
            "gen",
            "stage",
            "step",
            "phase",
            "cyl",
            "cylinder",
            "fig",
            "idle",
            "rest",
            "full",
            "half",
            "cold",
            "hot",
            "low",
            "high",
            "wot",
            "tdc",
            "btdc",
            "rpm",
            "room",
            "load",
        ),
        *("pin", "startup", "start", "stop", "home", "work", "all", "the", "each", "key", "ignition", "max", "min"),
        *("once", "least", "most", "noon", "night", "media", "import", "param", "type", "kph", "mph", "zero", "top"),
        *(
            "bottom",
            "front",
            "rear",
            "speed",
            "temp",
            "ambient",
            "fuse",
            "relay",
            "battery",
            "sensor",
            "video",
            "photo",
        ),
        *("thread", "threads", "post", "posts", "posted", "guide", "group", "ask", "asked", "seen", "found", "read"),
        *("page", "channel", "it", "this", "that", "me", "us", "him", "her", "them", "someone", "somebody", "others"),
        *("people", "member", "members", "owner", "owners", "one", "discussed", "advice", "help", "told", "reported"),
        *("picture", "pictures", "drawing", "list", "written", "shown", "report", "reports", "answer", "answers", "is"),
        *("manual", "profile", "name", "user", "users", "hand", "mistake", "part", "number", "none", "unknown", "and"),
        *("input", "error", "default", "menu", "interface", "mode", "friendly", "setting", "settings", "level", "data"),
        *(
            "posting",
            "search",
            "searching",
            "question",
            "questions",
            "you",
            "we",
            "they",
            "a",
            "an",
            "my",
            "our",
            "your",
        ),
        *("not", "no", "needed", "to", "of", "in", "on", "or", "for", "with", "required", "missing", "field"),
    ]
)
ROLE = re.compile(r"(?:curator|mechanic|owner|reader|editor|tester|workshop|member)-[0-9]+", re.IGNORECASE)
OTHER_MEANING = frozenset(
    [
        *(
            "handle",
            "alias",
            "signal",
            "line",
            "teams",
            "steam",
            "matrix",
            "threads",
            "messenger",
            "snap",
            "slack",
            "kik",
        ),
        *(
            "compte",
            "tag",
            "channel",
            "display name",
            "display id",
            "channel name",
            "twitch",
            "ник",
            "member id",
            "line id",
        ),
        *("whatsapp", "viber", "irc", "account id", "club name", "club id", "club tag", "usuario", "utente"),
        *("login", "youtube", "facebook", "reddit", "fb", "yt"),
    ]
)
"""Words that name other things as well; behind them only a made-up word counts."""
NOT_ALWAYS_QUOTED = frozenset(
    [
        "handle",
        "as",
        "by",
        "called",
        "channel",
        "kanal",
        "canal",
        "like",
        "what",
        "how",
        "way",
        "seller",
        "account",
        "member",
    ]
)
FILE = re.compile(
    r"[.](?:csv|pdf|png|jpe?g|txt|md|ya?ml|zip|mp4|log|html?|gif|svg|docx?|xlsx?|bin|hex)$", re.IGNORECASE
)
CASE = re.compile(r"[a-z][a-z-]*-[0-9]{3,4}(?:-[0-9]{2,5})?")
"""A model, and a case about one: bittern-900-0042."""
HOME = re.compile(
    r"(?:/home/|/Users/|[A-Za-z]:\\\\?(?:Users|Documents and Settings)\\\\?)(?!(?i:user|users|public|shared|default|"
    r"root|admin|"
    r"runner|ubuntu|pi|guest|me|you|name|username|all users)[/\\])(?P<nick>[\w.-]{2,40})(?=[/\\])"
)
"""The folder of a user in the path of a file."""
FILE_BY = re.compile(
    r"(?<=[\w-])[-_](?:by|from|von|par|por|di|door|av)[-_](?P<nick>[A-Za-z][\w-]{3,40})(?=\.[a-z0-9]{2,4}(?!\w))"
)
"""Who made a picture, in the name of its file."""
MESSENGER_ID = re.compile(
    r"(?<!\w)(?i:signal|threema|line|wire|wechat|kik|icq|session|skype|viber)(?:[ -](?i:id|name|user|username)[ "
    r":]{1,2}|"
    r", (?i:id|name|user)[ :]{1,2})(?:is )?(?P<nick>(?=\w*[0-9.])[\w-]{3,30}(?:\.[\w-]{1,20})?)(?!\w)"
)
ID_OF = re.compile(r"(?<![\w-])(?:at-)?(?P<nick>[a-z]{3,20}_[a-z0-9_]*[0-9]{1,4})(?![\w.-])")
"""In an id: a word with an underscore and digits behind."""
HINTS = (
    "/home/",
    "/users/",
    "users\\",
    "settings\\",
    "_by_",
    "-by-",
    "_from_",
    "threema",
    "signal",
    "bike:",
    *(
        "handle:",
        "handle is",
        "handle =",
        'handle "',
        "#",
        "alias",
        "channel",
        "kanal",
        "canal",
        "account",
        "display name",
        "gamer",
        "callsign",
        "call sign",
        "spitzname",
    ),
    *(
        "konto",
        "compte",
        "apodo",
        "soprannome",
        "ник",
        "käytt",
        "nimim",
        "brukernavn",
        "brugernavn",
        "användar",
        "github",
    ),
    *(
        "nutzer",
        "mitglied",
        "strava",
        "steam:",
        "steam id",
        "steam name",
        "steamcom",
        "snap:",
        "snapchat",
        "bsky",
        "bluesky",
        "kik",
        "icq",
        "matrix",
        "xmpp",
        "yt:",
        " yt ",
    ),
    *(
        "jabber",
        "viber",
        "signal:",
        "signal is",
        "line id",
        "line:",
        "wechat",
        "vk:",
        "vk.",
        "fedi",
        "tg ",
        "tg:",
        "slack:",
        "zello",
        "paypal",
    ),
    *(
        "flickr",
        " group",
        "gruppe",
        "grupo",
        "server",
        "author",
        "people/",
        "?u=",
        "u=",
        "/~",
        "perfil",
        'called "',
        "called “",
        "called '",
        " aka ",
    ),
    *("identifiant", "gebruiker", "użytkownik", "uživatel", "přezdívka", "kullanıcı", "schuilnaam", "uid="),
    *("@", "u/", "user", "nick", "name", "profil", "member/", "members/", "membre/", "mitglied/", "usuario", "utente"),
    *("pseudo", "forum", "foro", " board", "reddit", "discord", "telegram", "insta", "facebook", " fb"),
    *("youtube", "twitter", "mastodon", "tiktok", "whatsapp", " irc", "skype", "mailing list", " chat", "ig:", "ig ="),
    *("threema", "twitch.", "threads."),
)
"""One of these, in small letters, stands in every text with such a name that is not mixed."""
