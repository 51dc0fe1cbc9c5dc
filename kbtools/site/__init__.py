"""The adapter to MkDocs: the only part that imports it."""
