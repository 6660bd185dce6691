"""From a layout and a few dimensions to the two condensed bodies of a joint."""
