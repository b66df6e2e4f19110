"""Will the supply feed this shower, and how hot: from what was measured at the house and the pipework.

Millimetres, l/min, bar gauge, Celsius. Nothing here knows a job, a part or a wall: whoever has one makes a
`Network` of it, asks `solve`, and turns the `Solution` into findings.
"""
