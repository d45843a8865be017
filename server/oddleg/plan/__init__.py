"""plan(): a Job and its entries go in, a Plan comes out."""
