"""The generated pages of the site, as data: one module a page kind, knowledge base in, `PageSpec` out."""
