"""The clamped joint: head, gasket, block and fasteners together."""
