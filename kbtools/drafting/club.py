"""A new club's repository: every file of it, from a few answers and the files that a club begins with."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from kbtools.drafting.entries import model_file, text_of
from kbtools.drafting.naming import new_id
from kbtools.model.currencies import CURRENCIES, ORDER
from kbtools.model.years import parse_years
from kbtools.reading.annotated import Group, plain_data
from kbtools.reading.canonical import canonical
from kbtools.reading.shape import Hints
from kbtools.text.nearest import did_you_mean
from kbtools.text.terminal import shown

CODE_FORMATS: Final[Mapping[str, Mapping[str, Any]]] = {
    "five-character": {"id": "obd", "standard": "sae-j2012", "name": "Five-character code"},
    "flash": {
        "id": "flash",
        "name": "Lamp flash code",
        "pattern": "[1-9]-[1-9]",
        "example": "4-2",
        "per_unit": True,
    },
}
"""What `--codes` may name, and its row in club.yml."""

_MILES: Final = frozenset(("AS", "GB", "GG", "GU", "IM", "JE", "LR", "MP", "PR", "US", "VI"))
"""ISO 3166 codes of countries whose road signs are in miles (common practice, no source)."""
_PLACES: Final[Mapping[str, str]] = {
    "index.md": "kb/pages/index.md",
    "contribute.md": "kb/pages/contribute.md",
    "mkdocs.yml": "mkdocs.yml",
    "readme.md": "README.md",
    "requirements.txt": "requirements.txt",
    "github-check.yml": ".github/workflows/check.yml",
    "github-publish.yml": ".github/workflows/publish.yml",
    "gitlab-ci.yml": ".gitlab-ci.yml",
    "pre-commit.yml": ".pre-commit-config.yaml",
    "gitattributes.txt": ".gitattributes",
    "gitignore.txt": ".gitignore",
}
"""Where each file stands. They come without the points of their names, which would hide them on the way."""
_MARKUP: Final = re.compile(r"[\\`*_\[\]<>&#~|!]")
_LONGEST: Final = 300
_GUESS: Final = "Money is a guess: common practice, no source. Put your own figures here."


@dataclass(frozen=True, slots=True, kw_only=True)
class NewModel:
    """A model that the club begins with."""

    id: str
    """The stem of its file."""
    name: str
    """As the club calls it."""
    years: str
    """In which it was built, `2003-2012`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NewClub:
    """What a club's repository is made of."""

    name: str
    """Of the club."""
    currency: str
    """ISO 4217."""
    country: str | None
    """ISO 3166; None: not said."""
    licence: str
    """SPDX id of the content's licence."""
    codes: Sequence[str]
    """Keys of `CODE_FORMATS`."""
    models: Sequence[NewModel]
    """Perhaps none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Starting:
    """What comes with the programs for a new club."""

    kb: Mapping[str, str]
    """Text by the name of a file in `kb`."""
    files: Mapping[str, str]
    """Text by name of what stands around it."""
    schemas: Mapping[str, Mapping[str, Any]]
    """For editors, by the names of their files."""
    hints: Mapping[str, Hints]
    """Of the kinds `club` and `model`: how their files are written."""
    settings: Mapping[str, Any]
    """Of the editor."""
    version: str
    """Of the programs."""


def club_files(club: NewClub, starting: Starting) -> dict[str, str]:
    """Every file of the repository by its path."""
    made = {f"kb/{name}": text for name, text in starting.kb.items()}
    made["kb/club.yml"] = _club_text(club, starting.hints["club"])
    for each in club.models:
        file = model_file(each.id, name=each.name, years=each.years, also_called=())
        line = "../../.schemas/model.schema.json"
        made[f"kb/{file.path}"] = text_of(file, starting.hints["model"], line)
    folders = ["faults", "cases", "pictures", *([] if club.models else ["models"])]
    made |= {f"kb/{folder}/.gitkeep": "" for folder in folders}
    words = {"@NAME@": _in_markdown(club.name), "@LICENCE@": club.licence, "@VERSION@": starting.version}
    marks = re.compile("|".join(words))
    for name, path in _PLACES.items():
        # In one pass: a mark in the club's own name stays what it is.
        made[path] = marks.sub(lambda mark: words[mark[0]], starting.files[name])
    for name, schema in starting.schemas.items():
        made[f".schemas/{name}"] = json.dumps(schema, ensure_ascii=False, indent=1) + "\n"
    made[".vscode/settings.json"] = json.dumps(starting.settings, indent=2) + "\n"
    made[".vscode/extensions.json"] = json.dumps({"recommendations": ["redhat.vscode-yaml"]}, indent=2) + "\n"
    return made


def _club_text(club: NewClub, hints: Hints) -> str:
    size = ORDER.get(club.currency, 1)
    data: dict[str, Any] = {
        "format": 2,
        "name": club.name,
        "licence": club.licence,
        "currency": club.currency,
        "labour_rate": [60 * size, 100 * size],
        "diagnosis_hours": 1,
        "confirm_hours": 0.3,
        "transport": [80 * size, 200 * size],
        "unlisted_repair": [150 * size, 600 * size],
        "own_time_value": 15 * size,
        "home_time_factor": 2,
        "prior_strength": 4,
        "unlisted_share": 0.1,
        "solved_after": f"500 {unit_of(club.country)}",
        "review_after_months": 24,
        "distance_unit": unit_of(club.country),
        "code_formats": [dict(CODE_FORMATS[each]) for each in club.codes],
        **({"phone_countries": [club.country]} if club.country else {}),
    }
    row = plain_data(data)
    row.before.append("# Who we are. Once there is a site and a repository, site_url and repository name them here.")
    assert isinstance(row.value, Group)  # noqa: S101 (for the types: a mapping was given)
    for each in row.value.rows:
        if each.key == "labour_rate":
            each.before.append(f"# {_GUESS}")
    return canonical(row, hints)


def unit_of(country: str | None) -> str:
    """In what a country's roads are measured: `km` or `mi`."""
    return "mi" if country in _MILES else "km"


def _in_markdown(text: str) -> str:
    """The text for a line of a README, where nothing in it is markup (CommonMark 0.31, backslash escapes)."""
    return _MARKUP.sub(lambda sign: f"\\{sign[0]}", text)


def club_name(text: str) -> str:
    """A club's name, one line.

    Raises:
        ValueError: nothing stands there, or something that cannot be seen.
    """
    unseen = next((each for each in text if _is_unseen(each)), None)
    if unseen is not None:
        raise ValueError(f"There is a character that cannot be seen ({shown(unseen)}). Type the name anew.")
    name = " ".join(text.split())
    if not name:
        raise ValueError("Nothing stands there.")
    if len(name) > _LONGEST:
        raise ValueError(f"It has {len(name)} characters, and may have {_LONGEST}.")
    return name


def _is_unseen(character: str) -> bool:
    return unicodedata.category(character) in {"Cc", "Cf", "Cs", "Zl", "Zp", "Cn"}


def currency(text: str) -> str:
    """A currency's code.

    Raises:
        ValueError: there is no such currency.
    """
    code = text.strip().upper()
    if code in CURRENCIES:
        return code
    guess = did_you_mean(code, sorted(CURRENCIES))
    hint = f'Did you mean "{guess}"?' if guess else "It is three letters, such as EUR, GBP or USD."
    raise ValueError(f'"{shown(text)}" is no currency of ISO 4217. {hint}')


def codes(text: str) -> str:
    """A format of codes."""
    word = text.strip().lower()
    if word not in CODE_FORMATS:
        raise ValueError(f'"{shown(text)}" is none of {", ".join(CODE_FORMATS)}.')
    return word


def licence(text: str) -> str:
    """An SPDX id, by its form alone."""
    if re.fullmatch(r"[A-Za-z0-9.+-]{1,100}", text.strip(), re.ASCII) is None:
        raise ValueError(f'"{shown(text)}" is no SPDX id: CC-BY-4.0.')
    return text.strip()


def new_model(text: str) -> NewModel:
    """A model's name, and behind it the years in which it was built: `Wren 400 2003-2008`.

    Raises:
        ValueError: one of the two is missing, or no id can be made of the name.
    """
    name, _, when = club_name(text).rpartition(" ")
    if not name or parse_years(when) is None:
        raise ValueError(f'"{shown(text)}" has no years at its end: "Wren 400 2003-2008", "Wren 400 2010-".')
    identity = new_id(name)
    if not identity:
        raise ValueError(
            f'No id can be made of "{shown(name)}". Leave it out, and write it with kbtools new model --id.'
        )
    return NewModel(id=identity, name=name, years=when)
