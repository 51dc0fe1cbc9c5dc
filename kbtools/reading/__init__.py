"""From the text of a file to typed values: YAML with places, shape by schema, values with pointers. No disk here."""
