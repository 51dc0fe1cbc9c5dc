"""What is checked: one file a rule, each with its text, a sample and, above the families KB1 and KB2, its check."""
