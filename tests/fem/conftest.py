"""Makes the bodies of this folder importable."""
