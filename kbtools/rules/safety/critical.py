"""What the rules about safety have in common."""

from __future__ import annotations

from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import System
from kbtools.model.fault import Fault


def critical_system(base: KnowledgeBase, fault: Fault) -> System | None:
    """The system of a fault if it is safety-critical, itself or by one above it; else None."""
    system = base.systems.get(fault.system or "")
    return system if system is not None and system.safety_critical else None
