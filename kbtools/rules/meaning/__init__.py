"""KB4: years, codes, money, causes and checks must make sense."""
