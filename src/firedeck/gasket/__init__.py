"""The gasket itself: does its ring clear the bore, and what is usual for its construction.

ring_fit        ring against bore, with the margins of the trade
constructions   kinds of gasket: dry or sprayed, re-torqued or not, what they want of the faces; code factors
"""
