"""Formulas: pure functions of floats, one module per subject.

Arguments and answers are in house units (mm, N, kPa, N m, mm2, deg; MPa for strengths).  Nothing here
reads a file, knows a part or rounds an answer.  Each docstring gives the formula, its symbols, the
range it is good for, what stands behind it, and an example that runs as a test:

    published   a named standard, handbook or regulation ("secondary copy read" where the copy that was
                read was a scan, a reprint or a quotation)
    practice    common practice of the trade, no source
    recalled    from memory, not checked against a text
    derived     geometry or statics from the definitions; nothing to cite

An argument outside the range raises ``ValueError`` in plain words.  ``inf`` (an unbounded end of an
interval) is let through wherever the answer is still a number or an unbounded end.
"""
