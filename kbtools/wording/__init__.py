"""The words in which site and terminal say what entries say in ids and numbers."""
