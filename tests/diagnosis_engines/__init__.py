"""Invented engines with a known fault, and what every test of a mechanic shows on them.

faults     how often each fault is invented, on which engines, how large its leaks are
engine     the engine: cylinders, leaks by place, gauges, the people who look and listen
flows      orifice flow of gas and of coolant; what a cranking cylinder reads; how far a gauge falls
bench      the tests: gauges with their error, ears and eyes that miss and imagine things
finer      more tests: dye and lamp, branches shut off, a warm-up watched, bores looked at hot, oil let out
unlisted   engines whose fault nobody listed
telling    what the owner tells, each with a chance stated there

Everything here was put down from flows and from judgement of its own. It knows nothing of the likelihoods that are
tried on it: it imports nothing of firedeck and reads no file. All sizes and chances are invented.
"""
