"""The only rooms that touch disk, clock, git, templates and what is shipped; everything below them is pure."""
