"""Every rule run over a knowledge base, what the club accepts taken out, and each rule explained by its sample."""
