"""The values of the knowledge base: years, money, codes, catalogue, faults and cases. Frozen, and free of any edge."""
