"""Reading the tests of a tired engine: compression, leak-down, coolant, and what they say together."""
