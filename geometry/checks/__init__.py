"""The checks: one module a subject, each a pure function of the plan that yields findings.

Every check runs on every job and reports what is clear too, so that a list of what was checked exists.
What could not be computed is a finding of its own, never a pass.
"""
