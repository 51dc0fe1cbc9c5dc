"""Which words and names mean the same, and which exclude each other."""
