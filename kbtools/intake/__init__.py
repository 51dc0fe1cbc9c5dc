"""Reports from outside: mails, files, issue forms and tables, to case files. What it does is in this room's README."""
