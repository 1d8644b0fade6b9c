"""A log: its entries, the file they are kept in, copies of it, and jobs carried in and out."""
