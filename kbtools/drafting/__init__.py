"""New files from a few answers: an entry as a draft, a case report, a model."""
