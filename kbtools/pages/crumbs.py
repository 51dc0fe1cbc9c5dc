"""The way from the home page down to a page."""

from __future__ import annotations

from typing import Final

from kbtools.model.catalogue import Model, System
from kbtools.pages.spec import Crumb
from kbtools.wording import addresses

HOME_CRUMB: Final = Crumb(address=addresses.HOME, title="Home")
CODES_CRUMB: Final = Crumb(address=addresses.CODES, title="All codes")
COMPONENTS_CRUMB: Final = Crumb(address=addresses.COMPONENTS, title="Components")
MODELS_CRUMB: Final = Crumb(address=addresses.MODELS, title="Models")
RULES_CRUMB: Final = Crumb(address=addresses.RULES, title="What is checked")
SYSTEMS_CRUMB: Final = Crumb(address=addresses.SYSTEMS, title="Systems")


def system_crumbs(path: tuple[System, ...]) -> tuple[Crumb, ...]:
    """The way from the home page down through these systems."""
    return (HOME_CRUMB, SYSTEMS_CRUMB, *(Crumb(address=addresses.system(each.id), title=each.name) for each in path))


def model_crumb(of: Model) -> Crumb:
    """A model above its years."""
    return Crumb(address=addresses.model(of.id), title=of.name)
