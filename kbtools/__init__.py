"""A motorcycle club's fault lore as data: read it, check it, compute with it, publish it."""

__version__ = "0.1.0"
