"""What is told: the only room with units as shown, where values become sentences."""
