"""Findings to text, one module a format. Each has a function from findings to the whole output."""
