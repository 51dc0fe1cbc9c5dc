"""Measures what the project promises about speed, each against something else in the same run.

`python -m tests.benchmarks` prints a table of ratios; `--quick` does the same with smaller sizes.
"""

import sys
from pathlib import Path

# The tests find each other by their bare names; so must the benchmarks.
sys.path.insert(0, str(Path(__file__).parents[1]))
