"""The clamped joint put to a general solver: joints, their input, what comes back."""
