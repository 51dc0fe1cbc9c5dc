"""One draft of two entries that say the same."""
