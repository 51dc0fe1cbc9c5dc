"""KB7: what is old, thin or no longer needed."""
