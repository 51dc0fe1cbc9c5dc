"""KB6: entries that contradict or repeat each other."""
