"""Entries that say the same: faults, and cases, compared by `kbtools.matching`."""
