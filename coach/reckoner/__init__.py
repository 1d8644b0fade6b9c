"""The pocket reckoner: one question, one file."""
