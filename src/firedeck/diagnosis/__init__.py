"""Reading the tests of a tired engine: compression, leak-down, coolant, and what they say together.

compression     several spread rules side by side (spread_rules, who_is_low, compression_words)
wet_test        what a shot of oil does by itself, and what is left for the rings
leak_down       orifice flow: leak area from two gauges; crank_torque: what the air does to the crank
boiling         where the coolant boils under its cap (steam, ambient)
signs_of_tests  from readings to the signs of the evidence table
causes          where it leaks · died_of: what killed it (case_book, odds, odds_words, next_test)
"""

from firedeck.diagnosis.boiling import Boiling, coolant_boiling
from firedeck.diagnosis.causes import LeakCauses, leak_causes
from firedeck.diagnosis.compression import CompressionSpread, compression_spread
from firedeck.diagnosis.crank_torque import CrankTorque, leak_down_crank_torque
from firedeck.diagnosis.died_of import DiedOf, died_of
from firedeck.diagnosis.leak_down import LeakDown, leak_down
from firedeck.diagnosis.signs_of_tests import AIR_GOES, air_that_counts, compression_signs, leak_down_signs
from firedeck.diagnosis.wet_test import OilGain, oil_gain

__all__ = [
    "AIR_GOES",
    "Boiling",
    "CompressionSpread",
    "CrankTorque",
    "DiedOf",
    "LeakCauses",
    "LeakDown",
    "OilGain",
    "air_that_counts",
    "compression_signs",
    "compression_spread",
    "coolant_boiling",
    "died_of",
    "leak_causes",
    "leak_down",
    "leak_down_crank_torque",
    "leak_down_signs",
    "oil_gain",
]
