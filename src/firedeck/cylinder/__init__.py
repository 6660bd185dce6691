"""The cylinder: volumes and ratio, what a cut does, cranking compression, gas pressure, pistons and liners.

volumes, ratio_spread, stacking      compression ratio from parts or volumes, cylinder by cylinder
chamber_cut, cut_for_ratio           volume of a cut, and the cut for a wanted ratio
squish, valve_clearance              gaps above the piston
cam_timing, intake_faces             what else moves when the head comes down
effects                              all of it together, before and after
thickness                            free and compressed thickness kept apart
air, cranking                        standard atmosphere, what a gauge should read
gas_heat, ideal_cycle                heat capacities of gases, textbook cycles
peak_pressure, gas_force             firing pressure with its band, and the force on the head
piston_class, liners                 thickness classes and liner stand, by the book's own rule
"""
