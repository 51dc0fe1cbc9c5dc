"""KB3: what is named must be there."""
