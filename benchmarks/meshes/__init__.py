"""Invented joints on several meshes, and what is read off each."""
