"""Measures what the project promises about speed, each against something else in the same run.

`python -m tests.benchmarks` prints a table of ratios; `--quick` shows in half a minute that
every part runs, with sizes too small for the figures to say anything.
"""
