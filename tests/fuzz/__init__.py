"""Broken entries, pages and pictures by the thousand: none breaks the check down, hangs it or acts in what it says."""
