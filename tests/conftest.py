"""Settings shared by all tests."""
