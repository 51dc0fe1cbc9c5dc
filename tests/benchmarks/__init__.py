"""Measures what the project promises about speed, each against something else in the same run.

`python -m tests.benchmarks` prints a table of ratios; `--quick` does the same with smaller sizes.
"""
