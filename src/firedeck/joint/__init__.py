"""The clamped joint: head, gasket, block and fasteners together.

geometry        from a layout and a few dimensions to two condensed bodies
laws            how a gasket presses back; law_table those held as data, law_fitting and own_curve one from a measured curve
springs         gasket points and bolts as one function of the closures, and what they remember
clamped         the joint: places, springs, compliance A, rigid motions R, loads; assembling puts it together
newton          the judge; chord the quick way for many states, leap fewer rounds, settling asks one after another
tightening      bolt by bolt; turning: from the papers' procedure to turns of the wrench
states          bedding in, heat, shaking down, judging; shear the stuck case
scatter         many joints with their own luck
line_loads      read off place by place; opening the pressure for a load; comparing the ranks
study           what is said of a joint; studied works it out: study_places, study_parts of the band, study_band, side
engine          one engine to be studied; run_in the short way; slipping, later_life; assumed our own figures
exporting       everything as plain arrays
gasket_spring   the gasket as one spring near a clamp, for sums of one fastener
simple_sum      clamp over gas force, where nothing better is known
"""
