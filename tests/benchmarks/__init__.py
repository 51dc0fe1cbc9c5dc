"""Measures what the project promises about speed, each against something else in the same run.

`python -m tests.benchmarks` prints a table of ratios, `--only PART …` parts of it; `--quick` shows in a moment that
every part runs, with sizes too small for the figures to say anything.
"""
