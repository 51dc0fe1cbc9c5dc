"""PyYAML's own loaders and dumper, by libyaml where it has it: they give the same in a tenth of the time."""

from __future__ import annotations

from typing import Any, Final

import yaml

BASE: Final[Any] = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
"""Takes every scalar as text. To YAML 1.1 the key `on` is true."""
SAFE: Final[Any] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""Values as YAML 1.1 has them."""
PLAIN: Final[Any] = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
"""Writes plain values."""
