"""KB5: advice that hurts nobody, and texts that lead to nobody."""
